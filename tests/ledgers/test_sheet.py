"""What a sheet says: all of it text, nothing empty, the same spelling for the same words."""

import json
from collections.abc import Iterator
from dataclasses import replace

import pytest

from generator.ledgers.record import record_of
from generator.ledgers.sheet import flattened, sheet_value
from generator.model.burn_safety import sheet_as_json
from generator.model.canonical import canonical, fingerprint_of
from tests.documents.sample_house import MAKER, MELT, RECORDED, SENSITISING, WAX, size


def leaves(value: object) -> Iterator[object]:
    if isinstance(value, dict):
        for each in value.values():
            yield from leaves(each)
    elif isinstance(value, list):
        for each in value:
            yield from leaves(each)
    else:
        yield value


SIZES = [size(), MELT, size(hazards={"GB": SENSITISING, "EU": SENSITISING, "US": None})]
NAMES = ["a candle", "a melt", "a candle that sensitises"]


@pytest.mark.parametrize("one", SIZES, ids=NAMES)
def test_everything_is_text_and_nothing_is_empty(one: object) -> None:
    said = json.loads(sheet_as_json(sheet_value(one.recorded, one.facts, MAKER)))  # type: ignore[attr-defined]  # a size

    assert [leaf for leaf in leaves(said) if not isinstance(leaf, str) or not leaf] == []


def test_the_canonical_form_does_not_depend_on_the_order_of_keys() -> None:
    assert canonical({"b": "1", "a": ["2"]}) == canonical({"a": ["2"], "b": "1"}) == '{"a":["2"],"b":"1"}'


def test_the_fingerprint_is_the_sha256_of_the_canonical_form() -> None:
    """FIPS 180-4, the example of the message ``abc`` (FOUND-2nd in many test suites)."""
    assert fingerprint_of("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


@pytest.mark.parametrize(
    "facts",
    [
        {"net_weight_g": 249.91},
        {"rate_g_per_h": 4.61},
        {"stop_depth_mm": 12.6},
        {"heat_w": None},
        {"price": None},
    ],
    ids=[
        "the unrounded weight",
        "the rate",
        "a tenth of the stop line below its millimetre",
        "the heat",
        "the price",
    ],
)
def test_what_is_not_printed_changes_no_sheet(facts: dict[str, object]) -> None:
    before, after = (sheet_value(RECORDED, one.facts, MAKER) for one in (size(), size(**facts)))

    assert replace(after, drawing=before.drawing) == before


def test_a_melt_says_nothing_of_a_flame() -> None:
    said = sheet_value(MELT.recorded, MELT.facts, MAKER)

    assert (said.burn_hours, said.stop_mm, said.wick, said.drawing) == (None, None, None, None)
    assert said.advice == {}


def test_a_sheet_says_who_answers_and_under_which_address_it_stands() -> None:
    said = sheet_value(RECORDED, size().facts, MAKER)

    assert said.maker.web == "https://saltmarsh.example"
    assert said.contacts["EU"].name == "Comptoir du Large"


def test_a_record_names_amounts_as_they_were_written() -> None:
    record = dict(flattened(record_of(RECORDED)))

    assert record["build", "formula", "waxes", "soy", "amount"] == "1000 g"
    assert record["build", "vessel", "inside", "diameter_mm"] == "74"


def test_the_order_of_ingredients_changes_no_record() -> None:
    formula = RECORDED.build.formula
    other = replace(formula.waxes[0], material=replace(WAX, id="coconut"))
    one, two = (
        replace(RECORDED, build=replace(RECORDED.build, formula=replace(formula, waxes=waxes)))
        for waxes in ((*formula.waxes, other), (other, *formula.waxes))
    )

    assert canonical(record_of(one)) == canonical(record_of(two))
