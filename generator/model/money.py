"""Money: an exact decimal and its currency, built from text, rounded in one place by a named rule."""

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Annotated, Final

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.quantities import GRAMS, NUMBER, wrong

CURRENCIES: Final = {
    "GBP": 2, "EUR": 2, "USD": 2, "CAD": 2, "AUD": 2, "NZD": 2, "CHF": 2, "SEK": 2, "NOK": 2, "DKK": 2,
    "PLN": 2, "CZK": 2, "HUF": 2, "RON": 2, "ISK": 0, "JPY": 0,
}  # fmt: skip
"""Decimal places per currency, ISO 4217 (MEMORY)."""

_WHY: Final = "trade sheets add prices up, so one wrong sign changes every total"


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


def money(written: object) -> Money:
    """``24.00``, ``24``, or ``24.00 GBP``."""
    text = str(written).strip()
    if "," in text:
        raise wrong(f"'{text}' is written with a comma", _WHY, text.replace(",", "."))
    match = re.fullmatch(r"([0-9]{1,9}(?:\.[0-9]{1,4})?)(?:\s+([A-Za-z]{3}))?", text)
    if match is None:
        raise wrong(f"is '{text}'; a price was expected", _WHY, "24.00, or 24.00 GBP")
    currency = match[2].upper() if match[2] else None
    if currency is not None and currency not in CURRENCIES:
        raise wrong(
            f"is '{text}'; '{match[2]}' is not a currency known here",
            _WHY,
            f"{match[1]} GBP (or EUR, USD ...)",
        )
    return Money(Decimal(match[1]), currency)


def price_per_mass(written: object) -> PricePerMass:
    """``4.10 per kg``, ``3.20 per lb``, ``11.50 per 500 g``."""
    text = str(written).strip()
    match = re.fullmatch(rf"(.+?) per ({NUMBER})?\s*(mg|g|kg|oz|lb)", text)
    if match is None or (match[2] and not Decimal(match[2])):
        raise wrong(f"is '{text}'; a price by weight was expected", _WHY, "4.10 per kg")
    return PricePerMass(money(match[1]), Decimal(match[2] or "1") * Decimal(GRAMS[match[3]]))


def rounded(exact: Decimal, currency: str) -> Decimal:
    """An amount at its currency's smallest step, halves away from zero (half up: PRACTICE of price lists)."""
    return exact.quantize(Decimal(1).scaleb(-CURRENCIES[currency]), rounding=ROUND_HALF_UP)


_MONEY_SCHEMA: Final = {
    "anyOf": [
        {"type": "number", "minimum": 0},
        {"type": "string", "pattern": r"^[0-9]+(\.[0-9]+)?( [A-Z]{3})?$"},
    ]
}
Price = Annotated[Money, BeforeValidator(money), WithJsonSchema(_MONEY_SCHEMA)]
PriceByWeight = Annotated[
    PricePerMass,
    BeforeValidator(price_per_mass),
    WithJsonSchema(
        {"type": "string", "pattern": r"^[0-9]+(\.[0-9]+)?( [A-Z]{3})? per ([0-9.]+ ?)?(mg|g|kg|oz|lb)$"}
    ),
]
