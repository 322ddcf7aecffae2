"""What a sheet says as typed values: every ledger reads and writes back byte for byte, and so does any other sheet."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from generator.model.burn_safety import (
    Answerable,
    BurnAdvice,
    BurnHours,
    Cautions,
    HazardLabel,
    Sheet,
    SheetDrawing,
    SheetVessel,
    SheetWicks,
    advice_written,
    sheet_as_json,
    sheet_from,
)
from generator.model.canonical import canonical, fingerprint_of
from generator.model.kinds import Kind

ROOT = Path(__file__).parents[2]
LEDGERS = sorted(
    file
    for folder in ("content/sheets", "tests/frozen/shop/sheets")
    for file in (ROOT / folder).glob("*.yaml")
)


def revisions() -> Iterator[tuple[str, dict[str, Any]]]:
    """Every issued revision there is, read by YAML alone."""
    for file in LEDGERS:
        # The base loader leaves every scalar the text that it is.
        ledger = yaml.load(file.read_text(encoding="utf-8"), yaml.CBaseLoader)  # noqa: S506  # it makes no objects
        yield from ((f"{file.name} {one['revision']}", one) for one in ledger["revisions"])


def test_every_ledger_reads_and_writes_back_to_the_same_bytes_and_fingerprint() -> None:
    read = {name: sheet_as_json(sheet_from(canonical(one["value"]))) for name, one in revisions()}

    assert len(read) >= 60
    assert read == {name: canonical(one["value"]) for name, one in revisions()}
    assert {name: fingerprint_of(said) for name, said in read.items()} == {
        name: one["fingerprint"] for name, one in revisions()
    }


WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["Cc"]), min_size=1, max_size=12)
SEVERAL = st.lists(WORDS, max_size=3).map(tuple)
TENTHS = st.integers(0, 9999).map(lambda number: number / 10)
HALF_HOURS = st.integers(1, 8).map(lambda number: number / 2)
MARKETS = ("GB", "EU", "US")


def maybe(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | values


def by_market(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.dictionaries(st.sampled_from(MARKETS), values, max_size=3)


PEOPLE = st.builds(
    Answerable, name=WORDS, address=SEVERAL, email=maybe(WORDS), phone=maybe(WORDS), web=maybe(WORDS)
)
LABELS = st.builds(
    HazardLabel,
    status=st.sampled_from(["classified", "none", "unknown", "refused"]),
    law=WORDS,
    near=st.booleans(),
    pictograms=st.lists(st.sampled_from(["GHS07", "GHS09"]), max_size=2).map(tuple),
    signal_word=st.sampled_from([None, "Danger", "Warning"]),
    h=SEVERAL,
    euh=SEVERAL,
    p=SEVERAL,
    named_substances=SEVERAL,
    sensitisers=SEVERAL,
    unknown=st.sampled_from([(), ("acute",), ("acute", "aquatic")]),
)
ADVICE = st.builds(
    BurnAdvice,
    trim=WORDS,
    longest_session_h=HALF_HOURS,
    stop_at=WORDS,
    apart=WORDS,
    clear_of=maybe(WORDS),
    first_burn_h=HALF_HOURS,
    cool_down_h=HALF_HOURS,
)
DRAWINGS = st.builds(
    SheetDrawing,
    shape=WORDS,
    inside_mm=st.lists(st.tuples(TENTHS, TENTHS), min_size=1, max_size=4).map(tuple),
    wall_mm=maybe(TENTHS),
    wax_mm=maybe(TENTHS),
    stop_mm=maybe(TENTHS),
    wick_mm=maybe(TENTHS),
)
SHEETS = st.builds(
    Sheet,
    language=WORDS,
    stock_code=WORDS,
    scent=WORDS,
    size=WORDS,
    kind=st.sampled_from([Kind.CONTAINER, Kind.MELT]),
    markets=st.permutations(MARKETS).map(tuple),
    net_quantity=st.fixed_dictionaries(dict.fromkeys(MARKETS, WORDS)),
    net_quantity_basis=st.sampled_from(["proven", "weighed", "poured to weight", "water", "geometry"]),
    vessel=st.builds(SheetVessel, name=WORDS, material=WORDS),
    wick=maybe(st.builds(SheetWicks, name=WORDS, count=st.integers(1, 9))),
    burn_hours=maybe(
        st.builds(
            BurnHours,
            claim=st.integers(1, 999),
            basis=st.sampled_from(["tested", "provisional", "thin test", "untested"]),
        )
    ),
    stop_mm=maybe(st.integers(1, 99)),
    advice=by_market(ADVICE),
    snuffing_lid=maybe(WORDS),
    drawing=maybe(DRAWINGS),
    warnings=st.builds(
        Cautions, core=st.lists(WORDS, min_size=1).map(tuple), signs=SEVERAL, first_aid=SEVERAL
    ),
    hazards=by_market(LABELS),
    ufi=maybe(WORDS),
    brand=maybe(WORDS),
    responsible=maybe(PEOPLE),
    maker=PEOPLE,
    contacts=by_market(PEOPLE),
)


def texts(value: Any) -> Iterator[Any]:
    """Every value that is no list and no mapping, and the empty ones of those."""
    below = value.values() if isinstance(value, dict) else value
    if isinstance(value, dict | list) and value:
        for each in below:
            yield from texts(each)
    else:
        yield value


@given(SHEETS)
@settings(max_examples=80)
def test_a_sheet_is_read_as_it_was_written(sheet: Sheet) -> None:
    said = sheet_as_json(sheet)

    assert sheet_from(said) == sheet
    assert [label.law for label in sheet_from(said).hazards.values()] == [
        sheet.hazards[market].law for market in sheet_from(said).hazards
    ]
    assert sheet_as_json(sheet_from(said)) == said


@given(SHEETS)
@settings(max_examples=40)
def test_what_is_written_is_text_alone_and_nothing_of_it_is_empty(sheet: Sheet) -> None:
    assert [
        leaf for leaf in texts(json.loads(sheet_as_json(sheet))) if not isinstance(leaf, str) or not leaf
    ] == []


OLDEST = replace(
    sheet_from(canonical(next(revisions())[1]["value"])),
    hazards={"GB": HazardLabel(status="none")},
    drawing=None,
    burn_hours=None,
    contacts={},
)
"""A sheet that lacks what a sheet may lack."""


def test_what_a_sheet_lacks_is_absent_and_not_empty() -> None:
    said = json.loads(sheet_as_json(OLDEST))

    assert said.keys().isdisjoint({"drawing", "burn_hours", "contacts", "brand"})
    assert said["hazards"] == {"GB": {"status": "none"}}
    assert sheet_from(canonical(said)) == OLDEST


def test_what_no_program_knows_yet_is_passed_over() -> None:
    said = json.loads(sheet_as_json(OLDEST))
    said["moon"], said["vessel"]["moon"] = "full", "new"

    assert sheet_from(canonical(said)) == OLDEST


@pytest.mark.parametrize(
    ("key", "value"),
    [("net_quantity_basis", "guessed"), ("stop", "half an inch"), ("kind", "lantern"), ("markets", "GB")],
)
def test_what_is_no_such_value_is_refused(key: str, value: str) -> None:
    with pytest.raises(ValidationError):
        sheet_from(canonical({**json.loads(sheet_as_json(OLDEST)), key: value}))


def test_figures_are_written_with_their_units_and_read_as_numbers() -> None:
    advice = BurnAdvice(
        trim="1/4 in",
        longest_session_h=4.0,
        stop_at="1/2 in",
        apart="3 in",
        first_burn_h=2.5,
        cool_down_h=2.0,
    )

    assert advice_written(advice) == {
        "trim": "1/4 in", "longest_session": "4 h", "stop_at": "1/2 in", "apart": "3 in", "clear_of": None,
        "first_burn": "2.5 h", "cool_down": "2 h",
    }  # fmt: skip
