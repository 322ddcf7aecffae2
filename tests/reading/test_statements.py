"""The law's sentences as they come with the program: every one a label can print, in every language."""

import pytest

from generator.documents.hazard_labels import contains, sentence, texts_from_memory
from generator.reading.languages import label_languages, wording
from generator.rules.hazards.label import ALLOCATION
from generator.rules.hazards.precautions import (
    DISPOSAL,
    FOLLOW_INSTRUCTIONS,
    KEEP_FROM_CHILDREN,
    LABEL_AT_HAND,
    PRECAUTIONS,
)

LANGUAGES = label_languages()
GENERAL = {DISPOSAL, FOLLOW_INSTRUCTIONS, KEEP_FROM_CHILDREN, LABEL_AT_HAND}
P_STATEMENTS = GENERAL.union(*((*advice.response, *advice.prevention) for advice in PRECAUTIONS.values()))


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_printed_statement_leaves_a_gap_or_a_choice(language: str) -> None:
    words = wording(language)

    printed = [sentence(code, ("Linalool",), words) for code in (*PRECAUTIONS, *P_STATEMENTS, "EUH208")]

    assert all(text.endswith(".") and not set(text) & set("…/<>[]") for text in printed)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_new_classes_and_the_signal_words_are_there_too(language: str) -> None:
    words = wording(language)

    assert {code for code in ALLOCATION if code.startswith("EUH")} <= set(words.statements)
    assert set(words.signal_words) == {"Danger", "Warning"}


NAMING = {
    "en": "Contains Linalool, Citral. May produce an allergic reaction.",
    "de": "Enthält Linalool, Citral. Kann allergische Reaktionen hervorrufen.",
    "fr": "Contient Linalool, Citral. Peut produire une réaction allergique.",
}
"""CLP Annex III, EUH208 (FOUND)."""


@pytest.mark.parametrize(("language", "text"), NAMING.items())
def test_names_stand_in_one_sentence(language: str, text: str) -> None:
    assert sentence("EUH208", ("Linalool", "Citral"), wording(language)) == text


def test_a_classified_candle_names_without_the_second_sentence() -> None:
    assert contains(("Linalool", "Citral"), wording("en")) == "Contains Linalool, Citral."
    assert contains(("Linalool",), wording("sv")) == "Innehåller Linalool."


def test_texts_that_nobody_held_against_the_law_are_told() -> None:
    assert texts_from_memory(("H317", "P501"), wording("en")) == ()
    assert texts_from_memory(("H317", "P501"), wording("nl")) == ("P501",)
