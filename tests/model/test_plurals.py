"""Which form of a noun a count takes, held against the samples that Unicode CLDR prints beside its rules."""

import pytest

from generator.model.plurals import is_plural_rule, plural_category
from generator.reading.languages import label_languages, words_of

POLISH = {
    "one": "i = 1 and v = 0",
    "few": "v = 0 and i % 10 = 2..4 and i % 100 != 12..14",
    "many": "v = 0 and i != 1 and i % 10 = 0..1 or v = 0 and i % 10 = 5..9 or v = 0 and i % 100 = 12..14",
}
"""CLDR 48, supplemental/plurals.json, cardinal numbers (FOUND); so are the samples below."""

WELSH = {"zero": "n = 0", "one": "n = 1", "two": "n = 2", "few": "n = 3", "many": "n = 6"}
LATVIAN = {
    "zero": "n % 10 = 0 or n % 100 = 11..19 or v = 2 and f % 100 = 11..19",
    "one": "n % 10 = 1 and n % 100 != 11 or v = 2 and f % 10 = 1 and f % 100 != 11 or v != 2 and f % 10 = 1",
}

SAMPLES = [
    (POLISH, "one", "1"),
    (POLISH, "few", "2 3 4 22 23 24 32 102 1002"),
    (POLISH, "many", "0 5 12 19 25 100 112 1000000"),
    (POLISH, "other", "0.0 1.5 10.0 1000.0"),
    (WELSH, "zero", "0 0.0 0.00"),
    (WELSH, "one", "1 1.0 1.000"),
    (WELSH, "two", "2 2.0"),
    (WELSH, "few", "3"),
    (WELSH, "many", "6 6.00"),
    (WELSH, "other", "4 5 7 20 0.1 0.9 1.1"),
    (LATVIAN, "zero", "0 10 20 11 19 100 0.0 10.0 11.0"),
    (LATVIAN, "one", "1 21 31 101 0.1 1.0 1.1 2.1 10.1"),
    (LATVIAN, "other", "2 9 22 102 0.2 0.9 1.2 10.2"),
]


@pytest.mark.parametrize(("rules", "category", "samples"), SAMPLES)
def test_the_printed_samples_fall_where_they_are_printed(
    rules: dict[str, str], category: str, samples: str
) -> None:
    assert {plural_category(sample, rules) for sample in samples.split()} == {category}


SHIPPED = {
    "en": ("1", "0 2 16 100 0.0 1.5 1.0"),
    "de": ("1", "0 2 16 100 0.0 1.5 1.0"),
    "fr": ("0 1 0.0 1.5", "2 17 100 2.0 3.5"),
    "es": ("1 1.0 1.00", "0 2 16 0.0 0.9 1.1 1.6"),
    "it": ("1", "0 2 16 0.0 1.5"),
    "nl": ("1", "0 2 16 0.0 1.5"),
    "sv": ("1", "0 2 16 0.0 1.5"),
}


@pytest.mark.parametrize(("language", "one", "other"), [(key, *samples) for key, samples in SHIPPED.items()])
def test_the_rules_of_the_languages_that_are_here(language: str, one: str, other: str) -> None:
    rules = words_of(language)["plurals"]

    assert {plural_category(sample, rules) for sample in one.split()} == {"one"}
    assert {plural_category(sample, rules) for sample in other.split()} == {"other"}


def test_every_language_s_rules_are_held_against_samples() -> None:
    assert set(SHIPPED) == set(label_languages())


@pytest.mark.parametrize(
    "rule", ["", "one", "i == 1", "i = 1 and", "x = 1", "i % 10 = 2...4", "i = a", "n = 1.5"]
)
def test_what_is_no_rule_is_refused(rule: str) -> None:
    assert not is_plural_rule(rule)
