"""Which hours and weights of a text are held against the figures, and which are left alone."""

import pytest

from generator.rules.entries.typed_figures import typed_figures

HOURS = [28, 40]
NET_G = [212.25, 74.0]


def told(text: str) -> list[str]:
    path = ("candles/a.yaml", "description")
    return [fault.what for fault in typed_figures(path, text, HOURS, NET_G)]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Burns for 50 hours. 300 g", ["50 hours", "300 g"]),
        ("It lasts 45-60 h.", ["45-60 h"]),
        ("Brennt 50 Stunden, netto 300 g.", ["50 Stunden", "300 g"]),
        ("Brenndauer: 50 Std", ["50 Std"]),
        ("Brûle 50 heures. Poids net : 300 g", ["50 heures", "300 g"]),
        ("A 50-hour burn.", ["50-hour"]),
        ("Net weight 300 grams.", ["300 grams"]),
    ],
)
def test_what_no_size_agrees_with_is_told(text: str, said: list[str]) -> None:
    assert [what.removeprefix("the text says ").partition(", but")[0] for what in told(text)] == said


@pytest.mark.parametrize(
    "text",
    [
        "Burns for 28 hours. 212 g.",
        "Burns for about 40 h in the large jar.",
        "Burns for 25 to 30 hours.",
        "Never burn it for more than 4 hours at a time.",
        "Burn it for 2 hours the first time.",
        "Brennen Sie sie nie länger als 4 Stunden am Stück.",
        "Ne brûle jamais plus de 4 heures à la fois.",
        "We walked for 6 hours.",
        "Let it rest for 48 hours.",
        "With 20 g of fragrance oil in each.",
        "Holds 17 g of perfume oil.",
        "Net weight 211 g, on a good day 74 g.",
        "Poured at 5 h in the morning.",
        "Stunde um Stunde brennt sie.",
    ],
)
def test_what_agrees_or_speaks_of_something_else_is_left_alone(text: str) -> None:
    assert told(text) == []
