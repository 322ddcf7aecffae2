"""Money: an exact decimal and its currency, built from text, rounded in one place by a named rule."""

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Annotated, Final

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.entry import Form
from generator.model.quantities import GRAMS, NUMBER, wrong

CURRENCIES: Final = {
    "GBP": 2, "EUR": 2, "USD": 2, "CAD": 2, "AUD": 2, "NZD": 2, "CHF": 2, "SEK": 2, "NOK": 2, "DKK": 2,
    "PLN": 2, "CZK": 2, "HUF": 2, "RON": 2, "ISK": 0, "JPY": 0,
}  # fmt: skip
"""Decimal places per currency, ISO 4217 (MEMORY)."""

_WHY: Final = "trade sheets total prices, so one wrong character changes every total"


@dataclass(frozen=True, slots=True, order=True)
class Money:
    """An exact amount; ``currency`` is None where the entry leaves it to the maker's own."""

    amount: Decimal
    currency: str | None = None

    def __str__(self) -> str:
        return f"{self.amount} {self.currency}" if self.currency else str(self.amount)


@dataclass(frozen=True, slots=True)
class PricePerMass:
    """What a material costs by weight."""

    price: Money
    grams: Decimal


def money_from_text(written: object) -> Money:
    """``24.00``, ``24``, or ``24.00 GBP``."""
    return _money(str(written).strip(), "")


def price_per_mass(written: object) -> PricePerMass:
    """``4.10 per kg``, ``3.20 per lb``, ``11.50 per 500 g``."""
    text = str(written).strip()
    match = re.fullmatch(rf"(.+?) per ({NUMBER})?\s*(mg|g|kg|oz|lb)", text)
    if match is None or (match[2] and not Decimal(match[2])):
        raise wrong(f"is '{text}'; expected a price by weight", _WHY, _price_by_weight(text))
    price = _money(match[1], text.removeprefix(match[1]))
    return PricePerMass(price, Decimal(match[2] or "1") * Decimal(GRAMS[match[3]]))


def currency(written: object) -> str:
    """The three letters of a currency that is known here: ``EUR``."""
    text = str(written).strip()
    if text in CURRENCIES:
        return text
    meant = (text.upper(),) if text.upper() in CURRENCIES else _SIGNS.get(text.lower(), ())
    raise wrong(
        f"is '{text}'; expected a currency's three letters",
        "a price without its currency means nothing",
        ", or ".join(meant) or f"one of {', '.join(list(CURRENCIES)[:5])} ...",
    )


def _money(text: str, beyond: str) -> Money:
    """A price; ``beyond`` is what follows it and is repeated."""
    if "," in text:
        offer = _offered(_with_point(text), beyond)
        raise wrong(f"'{text}{beyond}' is written with a comma", _WHY, offer)
    match = re.fullmatch(r"([0-9]{1,9}(?:\.[0-9]{1,4})?)(?:\s+([A-Za-z]{3}))?", text)
    if match is None:
        raise wrong(f"is '{text}{beyond}'; expected a price", _WHY, _offered(text, beyond))
    currency = match[2].upper() if match[2] else None
    if currency is not None and currency not in CURRENCIES:
        raise wrong(
            f"is '{text}{beyond}'; '{match[2]}' is not a supported currency",
            _WHY,
            f"{match[1]} and one of {', '.join(list(CURRENCIES)[:5])} ...",
        )
    return Money(Decimal(match[1]), currency)


_AMOUNT: Final = r"[0-9]{1,9}(?:\.[0-9]{1,4})?"
_SIGNED: Final = re.compile(rf"([^0-9.]*?)\s*({_AMOUNT})\s*([^0-9.]*)")
_THOUSANDS: Final = re.compile(r"(?<=[0-9]),(?=[0-9]{3}(?![0-9]))")
_SIGNS: Final = {
    **dict.fromkeys(("£", "pound", "pounds"), ("GBP",)),
    **dict.fromkeys(("€", "euro", "euros"), ("EUR",)),
    **dict.fromkeys(("$", "dollar", "dollars"), ("USD", "CAD", "AUD", "NZD")),
    **{code.lower(): (code,) for code in CURRENCIES},
}
"""How people name a currency, and which ones they may mean."""

_ONE_OF_THEM: Final = ("", "each", "apiece", "a piece", "only")
_COINS: Final = {
    **dict.fromkeys(("p", "penny", "pence"), ("GBP",)),
    **dict.fromkeys(("c", "ct", "cent", "cents", "¢"), ("EUR", "USD", "CAD", "AUD", "NZD")),
}
"""How people name a hundredth of a currency, and which ones they may mean."""


def _offered(text: str, beyond: str) -> str:
    """The maker's own number with the currency her sign stands for; empty where that is unclear."""
    match = _SIGNED.fullmatch(text)
    if match is None or match[1].endswith("-"):
        return ""
    written = (match[1] + match[3]).strip()
    if written in _COINS:
        whole = f"{Decimal(match[2]).scaleb(-2):f}"
        return ", or ".join(f"{whole} {currency}{beyond}" for currency in _COINS[written])
    sign = written.lower()
    currencies = ("",) if sign in _ONE_OF_THEM else _SIGNS.get(sign, ())
    return ", or ".join(f"{match[2]} {currency}".strip() + beyond for currency in currencies)


def _with_point(text: str) -> str:
    """A comma before three digits and a point separates thousands; any other comma is a decimal point."""
    return _THOUSANDS.sub("", text) if "." in text else text.replace(",", ".")


def _price_by_weight(text: str) -> str:
    loosely = re.fullmatch(
        rf"(.*[0-9][^0-9/]*?)\s*(?:per|/|an?|for|each)\s*({NUMBER})?\s*(mg|g|kg|oz|lb)", text
    )
    if loosely is not None:
        return _offered(loosely[1], f" per {loosely[2]} {loosely[3]}" if loosely[2] else f" per {loosely[3]}")
    bare = re.fullmatch(_AMOUNT, text)
    return f"{text} per kg, or {text} per lb" if bare else ""


def rounded(exact: Decimal, currency: str) -> Decimal:
    """An amount at its currency's smallest step, halves away from zero (half up: PRACTICE of price lists)."""
    return exact.quantize(Decimal(1).scaleb(-CURRENCIES[currency]), rounding=ROUND_HALF_UP)


def in_coins(price: Decimal, currency: str) -> int:
    """A price in whole coins, its currency's smallest: ``11.95`` is 1195 pence."""
    return int(rounded(price, currency).scaleb(CURRENCIES[currency]))


def of_coins(coins: int, currency: str) -> Money:
    """The amount of a number of a currency's smallest coins."""
    return Money(Decimal(coins).scaleb(-CURRENCIES[currency]), currency)


_MONEY_SCHEMA: Final = {
    "anyOf": [
        {"type": "number", "minimum": 0},
        {"type": "string", "pattern": r"^[0-9]+(\.[0-9]+)?( [A-Z]{3})?$"},
    ]
}
Currency = Annotated[
    str, BeforeValidator(currency), WithJsonSchema({"enum": list(CURRENCIES)}), Form("GBP, EUR, USD ...")
]
Price = Annotated[Money, BeforeValidator(money_from_text), WithJsonSchema(_MONEY_SCHEMA), Form("...")]
PriceByWeight = Annotated[
    PricePerMass,
    BeforeValidator(price_per_mass),
    WithJsonSchema(
        {"type": "string", "pattern": r"^[0-9]+(\.[0-9]+)?( [A-Z]{3})? per ([0-9.]+ ?)?(mg|g|kg|oz|lb)$"}
    ),
    Form("... per kg"),
]
