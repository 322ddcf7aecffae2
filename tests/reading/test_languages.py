"""The words of each language: that every file says what the English one says, and what is told where one does not."""

import pytest

from generator.model.markets import LAWS
from generator.reading.languages import (
    FIRST,
    LANGUAGES,
    OF_LABELS,
    file_problems,
    label_languages,
    language_problems,
    languages,
    words_of,
)

GERMAN = (LANGUAGES / "de/words.yaml").read_text(encoding="utf-8")


def told(words: str, file: str = "de/words.yaml") -> list[str]:
    """What is wrong with a file of words, each with its line."""
    return [f"{one.place.line}: {one.what}" for one in file_problems(words.encode(), file)]


def line_of(text: str) -> int:
    return GERMAN[: GERMAN.index(text)].count("\n") + 1


@pytest.mark.parametrize("language", label_languages())
def test_every_language_has_the_same_sentences_filled_in_alike(language: str) -> None:
    assert language_problems(language) == ()


def test_every_folder_is_a_language() -> None:
    assert label_languages() == tuple(sorted(path.name for path in LANGUAGES.iterdir()))
    assert set(languages()) < set(label_languages())


@pytest.mark.parametrize("language", [one for one in label_languages() if one not in languages()])
def test_a_language_of_labels_has_the_subjects_of_labels_alone(language: str) -> None:
    assert set(words_of(language)) == set(OF_LABELS)


@pytest.mark.parametrize("language", [one for one in languages() if one != FIRST])
def test_no_sentence_of_several_words_is_left_in_english(language: str) -> None:
    english, other = words_of(FIRST), words_of(language)

    same = [
        f"{subject}.{name}"
        for subject, sentences in english.items()
        for name, sentence in sentences.items()
        if subject != "plurals"
        and len(sentence.split()) > 2
        and sentence == other[subject][name]
        and "{" not in sentence
    ]

    assert same == []


def test_a_missing_sentence_is_told_at_its_subject() -> None:
    words = GERMAN.replace("  nav_find: Ihre Kerze finden\n", "")

    assert told(words) == [f"{line_of('site:')}: site.nav_find is missing"]


def test_a_missing_subject_is_told_sentence_by_sentence() -> None:
    words = GERMAN.replace("markets:\n", "market:\n")

    missing = [line for line in told(words) if "is missing" in line]

    assert [line.partition(": ")[2] for line in missing] == [
        f"markets.{market} is missing" for market in ("EU", "GB", "US")
    ]


def test_a_sentence_that_nothing_prints_is_told_at_its_key() -> None:
    words = GERMAN.replace("  nav_find:", "  nav_fnd: Suchen\n  nav_find:")

    (problem,) = file_problems(words.encode(), "de/words.yaml")

    assert problem.what == "site.nav_fnd is not in en/words.yaml"
    assert problem.fix == "rename it to nav_find, or add it to every language"
    assert (problem.place.line, problem.place.column) == (line_of("  nav_find:"), 3)


@pytest.mark.parametrize(
    ("written", "holds"),
    [
        ("{stunden} Stunden", "{stunden}"),
        ("viele Stunden", "nothing in braces"),
        ("{hours Stunden", "{{hours Stunden}"),
    ],
    ids=["another name", "none", "a brace that stays open"],
)  # fmt: skip
def test_names_in_braces_are_those_of_the_english_sentence(written: str, holds: str) -> None:
    words = GERMAN.replace('  other: "{hours}\u00a0Stunden"', f'  other: "{written}"', 1)

    place = line_of('  other: "{hours}')
    assert told(words) == [
        f"{place}: counted_hours.other contains {holds}; in en/words.yaml it contains {{hours}}"
    ]


def test_a_language_of_labels_is_held_against_the_labels_alone() -> None:
    whole = (
        GERMAN[: GERMAN.index("\n# Laws by")] + GERMAN[GERMAN.index("\nlabels:") : GERMAN.index("\nbench:")]
    )
    words = whole.replace("  lid: Mit dem Deckel löschen.\n", "")

    (problem,) = file_problems(words.encode(), "xx/labels.yaml")

    assert problem.what == "labels.lid is missing"


def test_a_language_that_is_not_there_has_no_words() -> None:
    with pytest.raises(LookupError):
        words_of("xx")


def test_every_law_that_labels_are_or_were_worked_out_by_has_a_name_in_every_language() -> None:
    laws = {title for law in LAWS.values() for _, title in law.titles}

    assert all(laws <= set(words_of(language)["laws"]) for language in languages())
