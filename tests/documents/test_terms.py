"""What the terms say to customs: the heading of candles once, and each code of the maker's own with its sizes."""

from dataclasses import replace

import pytest

from generator.documents.terms import customs
from generator.reading.languages import words_of
from tests.documents.sample_house import MELT, house, size, speech_in

BAR = replace(MELT, facts=replace(MELT.facts, hs_heading="3307.49"))
BARE = replace(MELT, facts=replace(MELT.facts, hs_heading=None))


@pytest.mark.parametrize(
    ("language", "candles", "bars"),
    [
        ("en", "Harmonized System heading 3406, for candles", "customs code 3307.49, for Snap bar"),
        (
            "de",
            "Position 3406 des Harmonisierten Systems, für Kerzen",
            "Zolltarifnummer 3307.49 für Snap bar",
        ),
        ("fr", "position 3406 du Système harmonisé, pour les bougies", "code douanier 3307.49 pour Snap bar"),
    ],
)
def test_a_code_of_the_makers_own_is_named_with_its_sizes(language: str, candles: str, bars: str) -> None:
    asked = house(size(), BAR, replace(BAR, key="twice"))

    said = customs(replace(asked, speech=speech_in(language, words_of(language))))

    assert (said.count(candles), said.count(bars)) == (1, 1)


def test_a_candle_with_a_longer_code_is_named_by_it_alone() -> None:
    said = customs(house(size(hs_heading="3406.00.00")))

    assert "customs code 3406.00.00, for" in said
    assert "heading 3406 " not in said


def test_nothing_is_said_of_a_melt_without_a_code() -> None:
    assert customs(house(size(), BARE)) == customs(house(size()))
