"""The workshop's page on a fragrance: at which load what happens, and where each candle stands."""

from dataclasses import replace
from typing import Any

from generator.documents.pages.loads_page import loads_page
from generator.documents.pages.workshop import workshop_index
from generator.facts.fragrance_loads import FragranceLoads, LoadStep, MarketLoads
from generator.facts.hazard_facts import HazardFacts
from generator.rules.hazards.label import label_size
from tests.documents.said import told
from tests.documents.sample_house import NAMING, SKIN_AND_EYES, house, size, speech_in

NAMED = LoadStep(
    of_wax_percent="1.0101",
    of_total_percent="1",
    status="none",
    classes=(),
    codes=("EUH208",),
    named=("Linalool",),
)
MORE_NAMES = replace(NAMED, of_wax_percent="10", of_total_percent="9.0909", named=("Citral", "Linalool"))
SENSITISING = LoadStep(
    of_wax_percent="11.1111",
    of_total_percent="10",
    status="classified",
    classes=("Skin Sens. 1 H317",),
    codes=("H317",),
    named=("Linalool",),
)
EU_ONLY = MarketLoads(law="CLP", steps=(NAMED, SENSITISING))


def page(eu: MarketLoads, gb: MarketLoads = EU_ONLY, hazards: HazardFacts = NAMING) -> Any:
    loads = FragranceLoads(name="Marsh accord", markets={"GB": gb, "EU": eu})
    one = size(hazards={"GB": hazards, "EU": hazards, "US": None})
    return told(loads_page(house(one), "marsh", loads))


def test_every_step_stands_with_its_load_on_both_bases() -> None:
    (regime,) = page(EU_ONLY)["regimes"]

    assert regime["heading"] == "Great Britain and European Union"
    assert [(row["of_wax"], row["of_total"], row["label"]) for row in regime["rows"]] == [
        ("1.0101\u00a0%", "1\u00a0%", "EUH208"),
        ("11.1111\u00a0%", "10\u00a0%", "H317"),
    ]


def test_markets_with_other_steps_have_a_table_each() -> None:
    regimes = page(EU_ONLY, MarketLoads(law="CLP", steps=(SENSITISING,)))["regimes"]

    assert [regime["heading"] for regime in regimes] == ["Great Britain", "European Union"]


def test_a_candle_stands_in_its_blend_with_its_own_load_and_what_comes_next() -> None:
    (blend,) = page(EU_ONLY)["blends"]
    (candle,) = blend["candles"]

    assert (blend["name"], candle["stock_code"]) == ("In Soy wax", "SM-30")
    assert (candle["of_wax"], candle["of_total"]) == ("8.5\u00a0%", "7.834\u00a0%")
    assert candle["stands"][0]["label"] == "EUH208"
    assert candle["stands"][0]["next"] == "From 11.1111\u00a0% of the wax: H317"


def test_a_step_that_only_names_more_says_whom() -> None:
    naming_more = MarketLoads(law="CLP", steps=(NAMED, MORE_NAMES))

    (blend,) = page(naming_more, naming_more)["blends"]

    assert blend["candles"][0]["stands"][0]["next"] == "From 10\u00a0% of the wax, also names Citral"


def test_a_small_pack_is_told_what_it_may_leave_off_and_how_large_its_label_is() -> None:
    small = replace(SKIN_AND_EYES, may_leave_off=("H319",), size=label_size(120.0))

    candle = page(EU_ONLY, hazards=small)["blends"][0]["candles"][0]

    assert candle["stands"][0]["spared"] == "Up to 125 ml, H319 may be omitted."
    assert candle["pack"] == (
        "Label 52 × 74 mm if possible; each side of the hazard diamond at least 10 mm, 16 mm if possible."
    )


def test_unknown_is_not_no_change() -> None:
    unknown, unchanging = MarketLoads(law="CLP", steps=None), MarketLoads(law="CLP", steps=())

    british, european = page(unknown, unchanging)["regimes"]

    assert british["plain"] == "No fragrance load needs a label."
    assert european["plain"].startswith("Hazards are not known.")


def test_the_front_page_leads_to_every_fragrance() -> None:
    loads = FragranceLoads(name="Marsh accord", markets={})
    value = told(workshop_index(replace(house(), loads={"marsh": loads}), ()))

    assert value["loads"] == [{"name": "Marsh accord", "address": "hazards/marsh.html"}]


def test_sentences_from_memory_are_listed_by_stock_code_and_never_printed_silently() -> None:
    labelled = house(size(hazards={"EU": SKIN_AND_EYES}))

    dutch = told(workshop_index(replace(labelled, speech=speech_in("nl")), ()))
    english = told(workshop_index(labelled, ()))

    assert [(row["stock_code"], "P501" in row["codes"]) for row in dutch["from_memory"]] == [("SM-30", True)]
    assert english["from_memory"] == []
