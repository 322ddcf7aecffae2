"""How numbers become text."""

from datetime import date
from decimal import Decimal

import pytest

from generator.documents.printed import (
    at_least,
    day,
    derived,
    formula,
    grams,
    hours,
    hours_in_words,
    measured,
    millimetres,
    money,
    named,
    net_quantity,
    percent,
)
from generator.facts.facts import Figure, Input
from generator.model.burn_safety import BurnHours, HoursBasis
from generator.model.markets import Market
from generator.model.money import Money
from generator.reading.languages import words_of
from tests.documents.sample_house import FACTS, WORDS, size

GERMAN, FRENCH = words_of("de"), words_of("fr")


def plain(text: str | None) -> str | None:
    """With ordinary spaces."""
    return text and text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("printed", "expected"),
    [
        (grams(248.9, WORDS), "249 g"),
        (grams(1275.7, WORDS), "1,276 g"),
        (millimetres(74.0, WORDS), "74 mm"),
        (millimetres(62.4, WORDS), "62.5 mm"),
        (at_least(12.7), "13 mm"),
        (at_least(13.0), "13 mm"),
        (hours(4.0, WORDS), "4 hours"),
        (hours(2.4, WORDS), "2 hours"),
        (hours(3.75, WORDS), "3.5 hours"),
        (hours(1.1, WORDS), "1 hour"),
        (percent(Decimal("16.67"), WORDS), "16.7 %"),
        (percent(20.0, WORDS), "20 %"),
        (day(date(2026, 11, 1), WORDS), "1 November 2026"),
    ],
)
def test_a_quantity_is_written_with_its_unit(printed: str, expected: str) -> None:
    assert plain(printed) == expected


@pytest.mark.parametrize(
    ("price", "market", "expected"),
    [
        (Money(Decimal(24)), "GB", "£24.00"),
        (Money(Decimal("1240.5")), "GB", "£1,240.50"),
        (Money(Decimal("24.005"), "EUR"), "GB", "€24.01"),
        (Money(Decimal(24), "USD"), "US", "$24.00"),
        (Money(Decimal(24), "USD"), "GB", "24.00 USD"),
        (Money(Decimal("2400.4"), "JPY"), "GB", "2,400 JPY"),
    ],
)
def test_a_price_has_its_sign_where_the_sign_is_unmistakable(
    price: Money, market: Market, expected: str
) -> None:
    assert plain(money(price, "GBP", market, WORDS)) == expected


@pytest.mark.parametrize(
    ("basis", "claim", "expected"),
    [
        ("tested", 40, "about 40 hours"),
        ("provisional", 40, "about 40 hours (early test)"),
        ("thin test", 17, "about 17 hours (estimate)"),
        ("untested", 17, "about 17 hours (estimate)"),
        ("tested", 1, "about 1 hour"),
    ],
)
def test_hours_never_stand_without_their_basis(basis: HoursBasis, claim: int, expected: str) -> None:
    assert (
        hours_in_words(BurnHours(claim=claim, low=40.9, mean=None, high=None, basis=basis), WORDS) == expected
    )


def test_hours_without_a_claim_are_the_lower_figure_rounded_down() -> None:
    untested = BurnHours(claim=None, low=17.9, mean=None, high=None, basis="untested")

    assert hours_in_words(untested, WORDS) == "about 17 hours (estimate)"


def test_what_does_not_burn_has_no_hours() -> None:
    assert hours_in_words(None, WORDS) is None


def test_a_declared_quantity_is_printed_as_declared() -> None:
    assert net_quantity(FACTS, "US", WORDS) == "8.4 oz (240 g)"


def test_an_estimated_quantity_says_that_it_is_one() -> None:
    nothing_declared = {"GB": None, "EU": None, "US": None}
    facts = size(declared=nothing_declared, net_weight_basis="geometry").facts

    assert net_quantity(facts, "GB", WORDS) == "249 g (approx.)"


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [
        (242.9834, "g", "242 g"),
        (275.9, "ml", "275 ml"),
        (5.1819, "g/h", "5.2 g/h"),
        (6.0, "", "6"),
        (41.23456, "h", "41.235 h"),
        (123456.7, "mm", "123460 mm"),
    ],
)
def test_a_public_derivation_is_coarse_in_weight_volume_and_rate(
    value: float, unit: str, expected: str
) -> None:
    assert plain(derived(value, unit, WORDS)) == expected


@pytest.mark.parametrize(
    ("printed", "expected"),
    [
        (grams(1275.7, GERMAN), "1 276 g"),
        (millimetres(62.4, FRENCH), "62,5 mm"),
        (percent(Decimal("16.67"), GERMAN), "16,7 %"),
        (hours(3.75, GERMAN), "3,5 Stunden"),
        (hours(1.5, FRENCH), "1,5 heure"),
        (hours(2.0, FRENCH), "2 heures"),
        (day(date(2026, 11, 1), GERMAN), "1. November 2026"),
        (day(date(2026, 11, 1), FRENCH), "1er novembre 2026"),
        (day(date(2026, 11, 2), FRENCH), "2 novembre 2026"),
        (money(Money(Decimal("1240.5"), "EUR"), "GBP", "EU", GERMAN), "1 240,50 €"),
        (money(Money(Decimal("1240.5"), "EUR"), "GBP", "EU", FRENCH), "1 240,50 €"),
        (money(Money(Decimal(24), "USD"), "GBP", "EU", GERMAN), "24,00 USD"),
        (derived(5.1819, "g/h", GERMAN), "5,2 g/h"),
        (measured("8.4 oz (240 g)", GERMAN), "8,4 oz (240 g)"),
        (measured("2.5 h", FRENCH), "2,5 h"),
        (measured("1/4 in", GERMAN), "1/4 Zoll"),
        (measured("1/2 in", FRENCH), "1/2 pouce"),
        (measured("12 in", FRENCH), "12 pouces"),
        (measured("12 in", WORDS), "12 in"),
    ],
)
def test_every_language_has_its_own_signs_and_plurals(printed: str, expected: str) -> None:
    assert plain(printed) == expected


def test_an_input_is_called_by_its_name_without_its_unit() -> None:
    assert named(Input(name="rate_high_g_per_h", value=5.6, unit="g/h"), WORDS) == "upper rate"


def test_a_formula_keeps_its_signs_apart_from_those_of_its_words() -> None:
    inputs = (
        Input(name="rate_g_per_h", value=5.2, unit="g/h"),
        Input(name="own_limit_h", value=3.5, unit="h"),
    )
    figure = Figure(
        name="claim_h", label="claim", value=3.0, unit="h", formula="min(own_limit_h, 0.05 * rate_g_per_h - 1)",
        inputs=inputs, source="tested", shown="public",
    )  # fmt: skip

    spoken = (plain(formula(figure, words)) for words in (GERMAN, FRENCH))

    assert list(spoken) == [
        "der kleinste Wert von (eigene Grenze; 0,05 × Abbrandrate − 1)",
        "le plus petit de (limite du fabricant ; 0,05 × vitesse − 1)",
    ]


def test_inputs_of_one_kind_are_numbered_and_a_material_keeps_its_id() -> None:
    given = (
        Input(name="diameter_2_mm", value=58.0, unit="mm"),
        Input(name="soy_paraffin_g", value=1000.0, unit="g", shown="private"),
    )

    assert [named(each, GERMAN) for each in given] == ["Durchmesser 2", "soy paraffin"]


def test_a_formula_reads_as_words_and_signs() -> None:
    inputs = (
        Input(name="net_weight_g", value=249.9, unit="g"),
        Input(name="rate_g_per_h", value=5.0, unit="g/h"),
    )
    figure = Figure(
        name="claim_h", label="claim", value=49.0, unit="h",
        formula="floor(pi*net_weight_g^2/rate_g_per_h - 1)", inputs=inputs, source="tested", shown="public",
    )  # fmt: skip

    assert formula(figure, WORDS) == "rounded down (π × net weight² ÷ burn rate − 1)"
