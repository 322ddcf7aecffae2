"""The markets that candles are sold in, a row for each, and the laws for their hazard labels."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.countries import EU_COUNTRIES
from generator.model.entry import Form
from generator.model.quantities import wrong
from generator.model.suggestions import as_choice
from generator.model.words import text_from_entry

LawKey = Literal["EU CLP", "GB CLP"]
Dated = tuple[tuple[date, str], ...]
"""What something is called from each day on; the first name is that of all days before the second."""
Particular = Literal["hazards", "identifier", "quantity", "supplier"]
AdviceKey = Literal["European", "American"]
LengthUnit = Literal["mm", "in"]
ParcelUnit = Literal["kg", "lb"]
QuantityStyle = Literal["grams", "ounces"]
LetterRule = Literal["76/211/EEC", "16 CFR"]
ShortfallRule = Literal["TNE", "MAV"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardLaw:
    """One law of hazard labels.

    ``titles`` are its names; issued sheets hold that of their day, so none is ever taken out. ``new_classes`` are the
    days from which mixtures new on the market, and those sold before, are held against the
    classes of Regulation (EU) 2023/707. From ``small_letters_from`` on the law says how tall the small x is. Without
    ``label_needs``, each from its day on, the label of a classified candle is not made.
    """

    titles: Dated
    new_classes: tuple[date, date] | None
    formula_identifier: bool
    small_letters_from: date | None
    label_needs: Mapping[Particular, date]


LAWS: Final[Mapping[LawKey, HazardLaw]] = {
    "EU CLP": HazardLaw(
        titles=(
            (date.min, "Regulation (EC) No 1272/2008, as consolidated to 1 July 2026"),
            # OJ 3.12.2025. The consolidated text of 1 July 2026 prints what this act put off as in force (FOUND-2nd).
            (date(2025, 12, 3), "Regulation (EC) No 1272/2008, as amended by Regulation (EU) 2025/2439"),
        ),
        new_classes=(date(2026, 5, 1), date(2028, 5, 1)),  # Reg. (EU) 2023/707 (FOUND)
        formula_identifier=True,  # standards.md C12
        small_letters_from=date(2028, 1, 1),  # Reg. (EU) 2024/2865 (FOUND-2nd, 2025/2439; may be put off: C5)
        label_needs={
            "identifier": date.min,
            "quantity": date.min,
            "supplier": date(2026, 7, 1),  # Reg. (EU) 2024/2865, CLP Art. 4(11) (FOUND-2nd)
        },
    ),
    "GB CLP": HazardLaw(
        titles=(
            (date.min, "GB CLP, Regulation (EC) No 1272/2008 as retained"),
            # Chemicals (Health and Safety) (Amendment ...) Regulations 2026: procedures, no label (FOUND-2nd).
            (date(2026, 5, 21), "GB CLP, Regulation (EC) No 1272/2008 as retained and amended to 21 May 2026"),
        ),
        new_classes=None,
        formula_identifier=False,  # standards.md C13
        small_letters_from=None,
        label_needs={},
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class MarketRow:
    """Everything that differs from market to market, besides the sentences.

    countries: two letters each; a maker established there needs no other contact, and buyers there read its units.
    needs_contact: whether labels name someone established there who answers for the candle.
    law: that of its hazard labels; None where the law judges the product and not its recipe.
    advice: whose associations' lengths its papers advise. length_unit: that of the ruler used there.
    quantity: how a net quantity is written. letters: the rule of the least heights on labels.
    shortfall: what a packer's rule calls the amount by which one package may be short.
    parcel_unit: in which parcels are weighed. dollar: the currency that a bare dollar sign means there, if any.
    label_language: that of labels unless the maker names others; None for the one that the house speaks.
    emergency: the numbers to call, the usual one first (MEMORY).
    food_shapes: the law by which nothing may be sold that can be taken for food, from each day on; () for none known.
    green_claims_from: the day from which general claims about the environment are unfair in themselves, or None.
    """

    countries: frozenset[str]
    needs_contact: bool
    law: LawKey | None
    advice: AdviceKey
    length_unit: LengthUnit
    quantity: QuantityStyle
    letters: LetterRule
    shortfall: ShortfallRule
    parcel_unit: ParcelUnit
    dollar: str | None
    label_language: str | None
    emergency: tuple[str, ...]
    food_shapes: Dated
    green_claims_from: date | None


MARKETS: Final[Mapping[str, MarketRow]] = {
    "GB": MarketRow(
        countries=frozenset({"GB"}),
        needs_contact=True,
        law="GB CLP",
        advice="European",
        length_unit="mm",
        quantity="grams",
        letters="76/211/EEC",
        shortfall="TNE",
        parcel_unit="kg",
        dollar=None,
        label_language="en",
        emergency=("999", "112"),
        food_shapes=((date.min, "the Food Imitations (Safety) Regulations 1989, FOUND-2nd"),),
        green_claims_from=None,
    ),
    "EU": MarketRow(
        countries=EU_COUNTRIES,
        needs_contact=True,
        law="EU CLP",
        advice="European",
        length_unit="mm",
        quantity="grams",
        letters="76/211/EEC",
        shortfall="TNE",
        parcel_unit="kg",
        dollar=None,
        label_language=None,
        emergency=("112",),
        food_shapes=(
            (date.min, "Directive 87/357/EEC, FOUND"),
            (
                date(2024, 12, 13),
                "Regulation (EU) 2023/988, Art. 6(1)(f), MEMORY",
            ),  # It repeals the first (FOUND).
        ),
        green_claims_from=date(2026, 9, 27),  # Directive (EU) 2024/825 (FOUND-2nd)
    ),
    "US": MarketRow(
        countries=frozenset({"US"}),
        needs_contact=False,
        law=None,
        advice="American",
        length_unit="in",
        quantity="ounces",
        letters="16 CFR",
        shortfall="MAV",
        parcel_unit="lb",
        dollar="USD",
        label_language="en",
        emergency=("911",),
        food_shapes=(),
        green_claims_from=None,
    ),
}
"""By key, in the order in which sentences and tables name them; the sources stand where a figure is worked out."""


def named_on(names: Dated, day: date) -> str:
    """What something is called on a day."""
    return next(name for since, name in reversed(names) if day >= since)


def known_markets() -> str:
    """Every key, as a sentence lists them: ``GB, EU or US``."""
    return as_choice(tuple(MARKETS))


def not_a_market(written: str) -> str:
    """The message about a market without a row, to follow the name of where it is written."""
    return f"is '{written}', not one of {known_markets()}"


def law_of(market: str) -> HazardLaw | None:
    """The law of a market's hazard labels; None where it has none."""
    key = MARKETS[market].law
    return None if key is None else LAWS[key]


def _market(written: object) -> str:
    text = text_from_entry(written)
    if text in MARKETS:
        return text
    meant = text.upper() if text.upper() in MARKETS else known_markets()
    raise wrong(not_a_market(text), "labels and burning advice differ by market", meant)


Market = Annotated[
    str,
    BeforeValidator(_market),
    WithJsonSchema({"type": "string", "enum": list(MARKETS)}),
    Form(known_markets()),
]
"""The key of a row of `MARKETS`."""
