"""What a trial of the whole job found to be taken without a word: each is asked about, and can be accepted."""

from collections.abc import Mapping
from typing import Final

import pytest

from tests.facts.conftest import TESTED, Change, ChangeShop

CANDLE: Final = "candles/wet-garden.yaml"
VESSEL: Final = "vessels/amber-20.yaml"
OIL: Final = "fragrances/wet-garden.yaml"
WAX: Final = "waxes/rapeseed.yaml"
NOTES: Final = "burn-tests/WG-20.yaml"
SOLD: Final = "    trade: {price: 9.00, case: 6, minimum: 6}\n"
TEXT: Final = "  A garden ten minutes after the rain has stopped.\n"

COCONUT: Final = "name: Coconut\ndensity: {set: 0.915 g/ml, molten: 0.88 g/ml at 70 C}\n"
STEARIC: Final = "name: Stearic acid\n"
DRY: Final = (
    "scent: wet  garden\ncollection: hearth\ningredients: {rapeseed: 1000 g}\nsizes:\n"
    "  - {stock_code: DG-20, kind: container, vessel: amber-20, wick: cotton-18, price: 9, "
    "fill: {to: 60 mm, level: set}}\n"
)
FORMULA: Final = "  rapeseed: 1000 g\n"
HEAT: Final = "heat_to: 85 C"
FILL: Final = "fill: {to: 60 mm, level: set}"
TERMS: Final = (
    "lead_time: a week\npayment: with the order\ncarriage: at cost\nreturns: none\n"
    "from: 2026-09-01\nuntil: 2027-03-31\n"
)
PRICES: Final = "stock_code,list,currency,price\nWG-20,retail,GBP,0\n"

NONSENSE: Mapping[str, tuple[Mapping[str, Change], str, str]] = {
    "kilograms for grams": (
        {CANDLE: (FORMULA, "  rapeseed: 800 kg\n  coconut: 200 g\n"), "waxes/coconut.yaml": COCONUT},
        "masses coconut",
        "coconut is 200 g, less than a thousandth of its 800200 g of wax",
    ),
    "a tonne for a kilogram": (
        {CANDLE: (FORMULA, "  rapeseed: 1000 kg\n  coconut: 200 g\n"), "waxes/coconut.yaml": COCONUT},
        "masses coconut",
        "coconut is 200 g, less than a thousandth of its 1000200 g of wax",
    ),
    "more hardener than wax": (
        {CANDLE: (FORMULA, "  rapeseed: 200 g\n  stearic: 800 g\n"), "additives/stearic.yaml": STEARIC},
        "masses stearic",
        "stearic is 800 g, beside 200 g of wax",
    ),
    "a plastic vessel": (
        {VESSEL: ("material: glass", "material: clear plastic")},
        "burning-vessel",
        "material is 'clear plastic', and a candle burns in 20 cl amber jar",
    ),
    "a wooden vessel in German": (
        {VESSEL: ("material: glass", "material: Buchenholz")},
        "burning-vessel",
        "material is 'Buchenholz', and a candle burns in 20 cl amber jar",
    ),
    "a fill to the rim": (
        {CANDLE: (FILL, "fill: {to: 78 mm, level: set}")},
        "headspace",
        "the wax ends 0.0 mm below the rim of 20 cl amber jar",
    ),
    "twelve wicks": (
        {CANDLE: ("wick: cotton-18", "wick: {cotton-18: 12}")},
        "crowded-wicks",
        "12 wicks in a vessel of 66 mm",
    ),
    "wax far too warm": (
        {CANDLE: (HEAT, "heat_to: 150 C")},
        "hot-wax heat_to",
        "heat_to is 150 C; keep wax below 120 C",
    ),
    "a price of nothing": ({CANDLE: ("price: 18.00", "price: 0")}, "price-of-nothing retail", "price is 0"),
    "a price of nothing in a list": (
        {"prices.csv": PRICES},
        "price-of-nothing row-1",
        "price is 0",
    ),
    "a fraction of a penny": (
        {CANDLE: ("price: 18.00", "price: 19.505")},
        "finer-than-a-coin retail",
        "price is 19.505, which is finer than the smallest coin of GBP",
    ),
    "a cost above the price": (
        {WAX: ("name:", "price: 410.00 per kg\nname:")},
        "below-cost",
        "WG-20 costs 70.07 GBP to make, but its price is 15.00 without tax",
    ),
    "a case lower than a candle": (
        {CANDLE: (SOLD, f"{SOLD}    cased: {{size: [300 mm, 200 mm, 29 mm], weight: 300 g}}\n")},
        "case-room",
        "a case of 300 by 200 by 29 mm does not fit 6 of 72 mm by 78 mm",
    ),
    "a case of six hundred": (
        {CANDLE: ("case: 6, minimum: 6", "case: 600, minimum: 600")},
        "case-weight",
        "a case of 600 weighs at least 225 kg",
    ),
    "a water measure beside the shape": (
        {VESSEL: ("brimful: 262 g of water at 20 C", "brimful: 299 g of water at 20 C")},
        "brimful",
        "brimful 300 ml is more than 8 % off the 267 ml of the shape",
    ),
    "added in three years": (
        {CANDLE: ("added: 2026-10-12", "added: 2029-10-12")},
        "ahead added",
        "added is 2029-10-12, after as_of (2026-11-01)",
    ),
    "tested next year": (
        {NOTES: ("tested_on: 2026", "tested_on: 2027")},
        "ahead tested_on",
        "after as_of (2026-11-01)",
    ),
    "one name for two scents": (
        {"candles/dry-garden.yaml": DRY},
        "same-scent dry-garden",
        "candles/dry-garden.yaml is also called 'Wet Garden'",
    ),
    "a scent cut at its number": (
        {CANDLE: ("scent: Wet Garden", "scent: Fig #1")},
        "cut-text Fig",
        "only 'Fig' is read here; '#1' after it is taken for a comment",
    ),
    "a telephone number without its country": (
        {"maker.yaml": ('phone: "+44 1632 960123"', 'phone: "01632 960123"')},
        "home-phone",
        "phone is '01632 960123', without + and a country code",
    ),
    "hours that were typed": (
        {**TESTED, CANDLE: (TEXT, "  Burns for 50 hours. 300 g.\n")},
        "typed-hours 50-hours",
        "the text says 50 hours, but the papers say 27 h",
    ),
    "a weight that was typed": (
        {**TESTED, CANDLE: (TEXT, "  Burns for 27 hours. 300 g.\n")},
        "typed-weight 300-g",
        "the text says 300 g, but the papers say 185 g",
    ),
}


@pytest.mark.parametrize(("changes", "check", "what"), NONSENSE.values(), ids=NONSENSE.keys())
def test_nonsense_is_asked_about_and_names_its_check(
    change_shop: ChangeShop, changes: Mapping[str, Change], check: str, what: str
) -> None:
    (told,) = [problem for problem in change_shop(changes).problems if what in problem]

    assert ": warning: " in told
    assert f"accepted: {{{check}: ...}}" in told


def test_the_shop_they_are_made_from_says_nothing(change_shop: ChangeShop) -> None:
    assert change_shop({}).problems == ()


IMPOSSIBLE: Mapping[str, tuple[Mapping[str, Change], str]] = {
    "wax hot enough to catch fire": (
        {CANDLE: (HEAT, "heat_to: 850 C")},
        "heat_to is 850 C; keep wax below 120 C",
    ),
    "a certificate of more than the whole": (
        {OIL: ("ifra_category_12: 20 %", "ifra_category_12: 150 %")},
        "ifra_category_12 is 150 %, more than the whole",
    ),
    "a country that is none": ({"maker.yaml": ("country: GB", "country: ZZ")}, "country is 'ZZ'"),
    "words for a telephone number": (
        {"maker.yaml": ('phone: "+44 1632 960123"', "phone: call me")},
        "phone is 'call me'; expected a telephone number of up to 15 digits",
    ),
}


@pytest.mark.parametrize(("changes", "what"), IMPOSSIBLE.values(), ids=IMPOSSIBLE.keys())
def test_what_cannot_be_true_or_is_dangerous_is_an_error(
    change_shop: ChangeShop, changes: Mapping[str, Change], what: str
) -> None:
    (told,) = [problem for problem in change_shop(changes).problems if what in problem]

    assert ": error: " in told
    assert "accepted" not in told


def test_a_number_with_00_is_answered_with_its_own_digits(change_shop: ChangeShop) -> None:
    phone = ('phone: "+44 1632 960123"', 'phone: "0044 1632 960123"')
    (told,) = change_shop({"maker.yaml": phone}).problems

    assert "phone is '0044 1632 960123', without + and" in told
    assert "fix: phone: +44 1632 960123, if the digits after 00 are the country code" in told


def test_a_test_of_a_vessel_that_is_not_there_is_told_for_that_alone(change_shop: ChangeShop) -> None:
    (told,) = change_shop({NOTES: ("vessel: amber-20", "vessel: amber-21")}).problems

    assert "there is no vessel 'amber-21'" in told


def test_a_buyer_in_the_shops_own_currency_is_missing_a_trade_price(change_shop: ChangeShop) -> None:
    trade: Mapping[str, Change] = {
        "trade/buyers.yaml": "larder: {name: Larder, country: GB, currency: GBP}\n",
        "trade/terms.yaml": TERMS,
        CANDLE: (SOLD, ""),
    }
    (told,) = change_shop(trade).problems

    assert "'larder' has no prices in GBP" in told
    assert (
        "fix: add trade: {price: ..., case: ..., minimum: ...} to each of those sizes; or add rows in GBP"
        in told
    )


def test_a_price_of_nothing_is_told_once_and_not_as_less_than_nothing(change_shop: ChangeShop) -> None:
    problems = change_shop({CANDLE: ("price: 18.00", "price: 0")}).problems

    assert len(problems) == 1
    assert "less than" not in problems[0]
