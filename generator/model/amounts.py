"""Amounts of an ingredient: the exact number as written, with its unit or basis."""

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from typing import Annotated, Final

from generator.model.quantities import (
    BARE_FLUID_OUNCES,
    GRAMS,
    MASS,
    ML,
    NUMBER,
    VOLUME,
    WITH_UNIT,
    as_text,
    of_unknown_unit,
    wrong,
)
from generator.model.suggestions import own


class Basis(Enum):
    """What a percentage of an ingredient is based on."""

    OF_WAX = "of wax"
    OF_TOTAL = "of total"


@dataclass(frozen=True, slots=True)
class Share:
    """A percentage with its basis, as written."""

    percent: Decimal
    basis: Basis


_SHARE: Final = re.compile(rf"({NUMBER})\s*%\s*(of wax|of total)?")
_SHARE_WORDS: Final = re.compile(
    r"(?:%|percent|per cent)(?: ?(?:of|in|to|on))?(?: (?:the|my|its|all))?"
    r"(?: ?(?:(wax(?:es)?|wax weight)|total|total weight|batch|whole|whole batch))?"
)
"""A share in other words; the group matches the wax, the rest of the last choice means the total."""

_OF_NOTHING: Final = re.compile(r"(?:%|percent|per cent)")


def share_from_text(written: object) -> Share:
    """``8.5 % of wax`` or ``7.8 % of total``; a bare percentage is a fault that offers both."""
    text = " ".join(str(written).split())
    match = _SHARE.fullmatch(text)
    if match is None:
        offer = _share_meant(text) or _any_share(text)
        raise wrong(f"is '{text}'; expected a share", _SHARE_WHY, offer)
    if match[2] is None:
        raise wrong(f"is '{text}', without its basis", _SHARE_WHY, _either_basis(match[1]))
    return Share(Decimal(match[1]), Basis(match[2]))


def _share_meant(text: str) -> str | None:
    """The percentage with the basis that other words mean, or with both where they name none."""
    found = own(text)
    if found is None or not found.words.startswith(("%", "percent", "per cent")):
        return None
    words = _SHARE_WORDS.fullmatch(found.words)
    if words is None or _OF_NOTHING.fullmatch(found.words):
        return _either_basis(found.number)
    return f"{found.number} % {(Basis.OF_WAX if words[1] else Basis.OF_TOTAL).value}"


def _any_share(text: str) -> str:
    """The maker's own percentage; a number with another unit than percent is no share."""
    found = own(text)
    return _either_basis(found.number) if found is not None and not found.words else ""


def _either_basis(number: str) -> str:
    return f"{number} % of wax, or {number} % of total"


_SHARE_WHY: Final = "10 % of the wax is 9.09 % of the total, and a hazard limit may lie between the two"


class AmountUnit(Enum):
    """How an ingredient's amount was written."""

    GRAMS = "g"
    PARTS = "parts"
    PERCENT_OF_WAX = "% of wax"
    PERCENT_OF_TOTAL = "% of total"
    DROPS = "drops"
    TEASPOONS = "US tsp"
    BLOCKS = "blocks"
    MILLILITRES = "ml"


@dataclass(frozen=True, slots=True)
class Amount:
    """One ingredient's amount: the exact number as written (grams for every unit of mass) and its unit."""

    value: Decimal
    unit: AmountUnit


_AMOUNT_WORDS: Final = {
    "parts": AmountUnit.PARTS,
    "part": AmountUnit.PARTS,
    "drops": AmountUnit.DROPS,
    "drop": AmountUnit.DROPS,
    "us tsp": AmountUnit.TEASPOONS,
    "blocks": AmountUnit.BLOCKS,
    "block": AmountUnit.BLOCKS,
    "% of wax": AmountUnit.PERCENT_OF_WAX,
    "% of total": AmountUnit.PERCENT_OF_TOTAL,
}
_AMOUNT_WHY: Final = "the recipe's weights, the label and the safety sheet are calculated from it"


def amount(written: object) -> Amount:
    """A mass, a volume, parts, drops, US teaspoons, blocks, or a share with its basis."""
    text = " ".join(str(written).split())
    match = WITH_UNIT.fullmatch(text)
    if match is None:
        raise wrong(f"is '{text}'; expected an amount", _AMOUNT_WHY, _amount_offer(text))
    number, unit = Decimal(match[1]), match[2].strip()
    if not unit:
        raise wrong(f"is '{text}', without a unit", _AMOUNT_WHY, _amount_offer(text))
    if unit == "%":
        share_from_text(text)  # It refuses the missing basis in its own words.
    if unit.lower() in ("tsp", "teaspoon", "teaspoons"):
        raise wrong(
            f"is '{text}'; a teaspoon has two sizes",
            "the imperial one is a fifth larger than the US one",
            f"{match[1]} US tsp, or its weight in grams",
        )
    if unit.lower() in GRAMS:
        return Amount(MASS.exact(text), AmountUnit.GRAMS)
    if unit in ML or unit.lower() in (*ML, *BARE_FLUID_OUNCES):
        return Amount(VOLUME.exact(text), AmountUnit.MILLILITRES)
    known = _AMOUNT_WORDS.get(" ".join(unit.lower().replace("%", "% ").split()))
    if known is None:
        raise of_unknown_unit(text, unit, "an amount", _AMOUNT_WHY, _amount_offer(text))
    return Amount(number, known)


def _amount_offer(text: str) -> str:
    """The maker's own number where its unit is plain; empty where it is not."""
    found = own(text)
    if found is not None and not found.words:
        of_wax = [f"{found.number} % of wax"] if Decimal(found.number) <= _WHOLE_PERCENT else []
        return ", or ".join((f"{found.number} g", *of_wax))
    offers = (MASS.meant(text), VOLUME.meant(text), _share_meant(text))
    return next((offer for offer in offers if offer is not None), "")


_WHOLE_PERCENT: Final = 100


ShareOf = Annotated[
    Share,
    *as_text(
        share_from_text, r"^[0-9.]+\s*%\s*of (wax|total)$", "10 % of wax", "... % of wax, or ... % of total"
    ),
]
AmountOf = Annotated[
    Amount,
    *as_text(
        amount,
        r"^[0-9.]+\s*(mg|g|kg|oz|lb|ml|cl|l|US fl oz|imp fl oz|parts?|drops?|US tsp|blocks?"
        r"|% of wax|% of total)$",
        "85 g, or 8.5 % of wax",
        "... g",
    ),
]
