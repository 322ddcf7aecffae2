"""Laws that hold for every candle, whatever it is made of."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from random import Random
from typing import Final

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.hazard_classes import CODES, HazardClass
from generator.model.materials import Constituent
from generator.model.sheet_values import MFactors, ShareRange
from generator.rules.hazards.classify import Classification, classify
from generator.rules.hazards.label import label
from generator.rules.hazards.mixture import mixture
from tests.rules.hazards.candles import EU, oil, wax

MILD_TO_SEVERE: Final = (
    ("Skin Sens. 1B", "Skin Sens. 1", "Skin Sens. 1A"),
    ("Skin Irrit. 2", "Skin Corr. 1", "Skin Corr. 1C", "Skin Corr. 1B", "Skin Corr. 1A"),
    ("Eye Irrit. 2", "Eye Dam. 1"),
    ("Acute Tox. 4", "Acute Tox. 3", "Acute Tox. 2", "Acute Tox. 1"),
    ("Aquatic Chronic 4", "Aquatic Chronic 3", "Aquatic Chronic 2", "Aquatic Chronic 1"),
    ("Carc. 2", "Carc. 1B", "Carc. 1A"),
    ("STOT RE 2", "STOT RE 1"),
)
"""Endpoints with their categories in order."""

CLASSES = st.sampled_from([HazardClass(name, code) for name, codes in CODES.items() for code in codes])
PERCENTS = st.decimals(min_value=0, max_value=30, places=3)


def _constituent(place: int, percent: Decimal, hazards: list[HazardClass], m: int) -> Constituent:
    return Constituent(
        substance=f"substance {place}",
        share=ShareRange(Decimal(0), percent),
        hazards=tuple(hazards),
        m=MFactors(acute=m, chronic=m),
    )


CONSTITUENTS = st.builds(
    _constituent, st.integers(0, 5), PERCENTS, st.lists(CLASSES, max_size=3), st.sampled_from([1, 10, 100])
)
OILS = st.lists(CONSTITUENTS, min_size=1, max_size=6)


def _result(*oils: Sequence[Constituent], step_g: str = "0") -> Classification:
    held = (oil(*constituents, grams="40") for constituents in oils)
    return classify(mixture((wax("60"), *held), Decimal(step_g)), EU)


def _severity(result: Classification) -> dict[tuple[str, ...], int]:
    """How far up each endpoint's categories the candle is; 0 for not at all."""
    names = {outcome.name for outcome in result.classes}
    return {
        endpoint: max((place for place, name in enumerate(endpoint, start=1) if name in names), default=0)
        for endpoint in MILD_TO_SEVERE
    }


@settings(max_examples=20, deadline=None)
@given(OILS, st.randoms(use_true_random=False))
def test_the_order_of_constituents_is_irrelevant(constituents: list[Constituent], chance: Random) -> None:
    shuffled = list(constituents)
    chance.shuffle(shuffled)

    assert _result(shuffled) == _result(constituents)


@settings(max_examples=20, deadline=None)
@given(OILS, OILS)
def test_the_order_of_oils_is_irrelevant(one: list[Constituent], other: list[Constituent]) -> None:
    assert _result(one, other, step_g="0.1") == _result(other, one, step_g="0.1")


@settings(max_examples=20, deadline=None)
@given(OILS, PERCENTS)
def test_a_constituent_split_in_two_adds_up(constituents: list[Constituent], part: Decimal) -> None:
    first, *rest = constituents
    whole = first.share.high_percent
    halves = [
        replace(first, share=ShareRange(Decimal(0), percent))
        for percent in (min(part, whole), whole - min(part, whole))
    ]

    assert _result([*halves, *rest]) == _result(constituents)


@settings(max_examples=20, deadline=None)
@given(OILS, PERCENTS, CONSTITUENTS)
def test_what_is_classified_in_the_place_of_what_is_not_never_makes_a_milder_candle(
    constituents: list[Constituent], percent: Decimal, classified: Constituent
) -> None:
    """The harmless share may turn into something with a class; no endpoint may then fall."""
    harmless = replace(classified, substance="new", hazards=(), share=ShareRange(Decimal(0), percent))
    harmful = replace(harmless, hazards=classified.hazards)

    before, after = (
        _severity(_result([*constituents, harmless])),
        _severity(_result([*constituents, harmful])),
    )

    assert all(after[endpoint] >= before[endpoint] for endpoint in MILD_TO_SEVERE)


@settings(max_examples=20, deadline=None)
@given(OILS)
def test_a_step_of_the_scale_never_makes_a_milder_candle(constituents: list[Constituent]) -> None:
    exact, weighed = _severity(_result(constituents)), _severity(_result(constituents, step_g="0.5"))

    assert all(weighed[endpoint] >= exact[endpoint] for endpoint in MILD_TO_SEVERE)


@settings(max_examples=20, deadline=None)
@given(OILS)
def test_every_class_has_its_reason_and_every_limit_to_come_lies_ahead(
    constituents: list[Constituent],
) -> None:
    result = _result(constituents)

    assert {f.outcome for f in result.findings} <= {*result.classes} | {HazardClass("Eye Irrit. 2", "H319")}
    assert all(limit.factor > 1 for limit in result.next_limits)


@settings(max_examples=20, deadline=None)
@given(OILS)
def test_a_label_never_has_more_than_six_p_statements_nor_two_symbols_for_one_harm(
    constituents: list[Constituent],
) -> None:
    printed = label(_result(constituents), EU)

    assert len(printed.p) <= 6
    assert not {"H400", "H410"} <= set(printed.h)
