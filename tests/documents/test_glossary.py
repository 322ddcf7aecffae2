"""The page of the trade's words."""

import json
import re
from dataclasses import replace
from typing import Any

import pytest

from generator.documents.frame import FIGURES, GLOSSARY, frame
from generator.documents.pages.glossary import glossary_page
from generator.reading.languages import languages, words_of
from tests.documents.sample_house import house, speech_in

LONGEST_WORDS = 30


def terms(language: str) -> list[dict[str, str]]:
    page: Any = json.loads(
        json.dumps(
            glossary_page(replace(house(), speech=speech_in(language, words_of(language)))).value,
            default=dict,
        )
    )
    return list(page["terms"])


@pytest.mark.parametrize("language", languages())
def test_every_word_has_one_sentence(language: str) -> None:
    means = [term["means"] for term in terms(language)]

    assert all(re.fullmatch(r"[^.!?]+\.", sentence) for sentence in means)
    assert max(len(sentence.split()) for sentence in means) <= LONGEST_WORDS


def test_words_stand_in_the_order_of_the_alphabet_whatever_their_accents() -> None:
    names = [term["name"] for term in terms("fr")]

    assert names.index("Durée maximale d’affilée") < names.index("Éteignoir") < names.index("Fond de cire")
    assert (names[0], names[-1]) == ("Bain de cire", "Vitesse de combustion")


def test_the_page_is_linked_from_the_foot_of_every_page_and_leads_to_the_figures() -> None:
    shop = house()

    further: Any = frame(shop)["further"]

    assert GLOSSARY in [way["path"] for way in further]
    assert glossary_page(shop).value["figures"] == FIGURES
