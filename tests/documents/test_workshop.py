"""The workshop's files: the whole contract, nothing missing, nothing rounded, nothing claimed that is not known."""

import json
from dataclasses import replace
from typing import Any

import pytest

from generator.documents.pages.workshop import facts_file, problems_file, workshop_index
from generator.model.kinds import Kind
from generator.problems import Place, Problem, Severity
from tests.documents.said import told
from tests.documents.sample_house import MELT, SKIN_AND_EYES, UNKNOWN, house, size, speech_in

CONTRACT = {
    "scent", "size", "kind", "collection", "status", "currency", "price", "trade_price", "case", "barcode",
    "site_path", "safety_path", "vessel", "wick", "fill_volume_ml", "level_set_mm", "net_weight_g", "net_weight_basis",
    "net_weight_error_percent", "weighed_n", "declared", "declared_status", "density_set_g_per_ml",
    "density_molten_g_per_ml", "fragrance_of_wax_percent", "fragrance_of_total_percent", "heel_g", "burnable_g",
    "lhv_mj_per_kg", "heat_w", "gross_g", "case_g", "case_size_mm", "minimum", "minimum_cartons", "hs_heading",
    "origin",
    "made_for", "brand",
    "rate_g_per_h", "rate_high_g_per_h", "burn_hours", "burn_test",
    "first_burn_h", "session_limit_h", "stop_depth_mm", "guidance", "hazards", "sheet", "sources",
}  # fmt: skip
"""The keys of each stock code, as the contract of outputs lists them."""

WARNING = Problem(
    place=Place("content/candles/a.yaml", 3, 1),
    what="a is b",
    why="c",
    fix="d: e",
    severity=Severity.WARNING,
)


def facts(*sizes: Any) -> Any:
    return json.loads(facts_file(house(*sizes)).text)


@pytest.mark.parametrize("one", [size(), MELT], ids=["a candle", "a melt"])
def test_every_key_of_the_contract_is_there_and_no_other(one: Any) -> None:
    (found,) = facts(one).values()

    assert set(found) == CONTRACT


@pytest.mark.parametrize(
    ("key", "inner"),
    [
        ("vessel", {"id", "material", "brimful_ml", "diameter_mm", "depth_mm"}),
        ("wick", {"id", "count", "trim_mm"}),
        ("declared", {"US", "EU", "GB"}),
        ("burn_hours", {"claim", "low", "mean", "high", "basis"}),
        ("burn_test", {"files", "pieces", "sessions", "coverage", "excluded", "matches", "moved"}),
        ("guidance", {"US", "EU", "GB"}),
        ("sheet", {"revision", "status", "fingerprint", "issued_on", "address"}),
        ("hazards", {"US", "EU", "GB"}),
    ],
)
def test_every_inner_key_of_the_contract_is_there_and_no_other(key: str, inner: set[str]) -> None:
    assert set(facts()["SM-30"][key]) == inner


def test_numbers_are_unrounded_and_money_is_text() -> None:
    found = facts(size(net_weight_g=249.93333333333334))["SM-30"]

    assert (found["net_weight_g"], found["price"], found["trade_price"]) == (
        249.93333333333334,
        "24.00",
        "12.00",
    )


def test_a_number_that_is_none_is_the_program_s_fault_and_never_written() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        facts_file(house(size(net_weight_g=float("nan"))))


def test_what_a_melt_has_not_is_null() -> None:
    found = facts(MELT)["SM-SB"]

    assert (found["kind"], found["wick"], found["burn_hours"], found["guidance"]) == (
        Kind.MELT.value, None, None, {"US": None, "EU": None, "GB": None},
    )  # fmt: skip


def test_hazards_are_told_for_every_market_with_their_reasons() -> None:
    told_of = {"GB": UNKNOWN, "EU": SKIN_AND_EYES, "US": None}

    hazards = facts(size(hazards=told_of))["SM-30"]["hazards"]

    assert (hazards["GB"]["status"], hazards["US"]) == ("unknown", None)
    assert hazards["EU"] == {
        "status": "classified",
        "classes": ["Skin Sens. 1 H317", "Eye Irrit. 2 H319"],
        "pictograms": ["GHS07"],
        "signal_word": "Warning",
        "h": ["H317", "H319"],
        "euh": [],
        "p": ["P102", "P302+P352", "P305+P351+P338", "P333+P313", "P337+P313", "P501"],
        "named_substances": ["Citronellol", "Geraniol", "Linalool"],
        "reasons": ["Skin Sens. 1 H317: Geraniol 1.4429 % of the candle; the limit is 1 %"],
        "next_limits": ["Eye Dam. 1 H318: Geraniol 1.4429 % of the candle; the limit is 3 %"],
        "texts_from_memory": [],
    }


def test_texts_whose_wording_is_from_memory_are_named() -> None:
    dutch = replace(house(size(hazards={"EU": SKIN_AND_EYES})), speech=speech_in("nl"))

    hazards = json.loads(facts_file(dutch).text)["SM-30"]["hazards"]

    assert "P501" in hazards["EU"]["texts_from_memory"]


def test_hazards_of_a_market_not_sold_to_are_null() -> None:
    hazards = facts(size(hazards={"GB": UNKNOWN}))["SM-30"]["hazards"]

    assert (hazards["EU"], hazards["US"], hazards["GB"]["status"]) == (None, None, "unknown")


def test_stock_codes_stand_in_order() -> None:
    found = facts(size(stock_code="B"), size(stock_code="A"))

    assert list(found) == ["A", "B"]


def test_problems_come_back_as_they_were() -> None:
    (found,) = json.loads(problems_file((WARNING,)).text)

    assert found == {
        "file": "content/candles/a.yaml",
        "line": 3,
        "column": 1,
        "severity": "warning",
        "what": "a is b",
        "why": "c",
        "fix": "d: e",
        "write": "d: e",
        "check": None,
        "entry": None,
        "accepted": None,
        "page": "candle",
    }


def test_the_front_page_leads_to_every_paper_and_names_every_warning() -> None:
    value = told(workshop_index(house(), (WARNING,)))

    assert [paper["address"] for paper in value["papers"]] == [
        "changes.html", "trade.html", "trade.csv", "facts.json", "problems.json",
    ]  # fmt: skip
    assert value["problems"] == [
        {
            "each": [{"place": "content/candles/a.yaml:3:1", "what": "a is b"}],
            "why": "c",
            "fix": "d: e",
            "acceptance": [],
        }
    ]


def test_warnings_with_one_reason_and_one_advice_are_one() -> None:
    other = replace(WARNING, place=WARNING.place._replace(line=9), what="f is g")

    (told_once,) = told(workshop_index(house(), (WARNING, other)))["problems"]

    assert [each["what"] for each in told_once["each"]] == ["a is b", "f is g"]
