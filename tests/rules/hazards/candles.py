"""Candles for the tests: constituents at exact shares of the finished candle, by class and limit."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction

from generator.model.hazard_classes import hazard_class
from generator.model.materials import Constituent, Fragrance
from generator.model.recorded import Role
from generator.model.sheet_values import Ate, Dose, MFactors, share_range, specific_limit
from generator.rules.hazards.classify import Classification, classify
from generator.rules.hazards.mixture import Mixture, mixture
from generator.rules.hazards.ruleset import RuleSet, rule_set
from generator.rules.wax.portions import Ingredient
from tests.rules.entries import SOY

TODAY = date(2026, 11, 1)


def _rules(market: str) -> RuleSet:
    rules = rule_set("EU" if market == "EU" else "GB", TODAY)
    if rules is None:
        raise LookupError(market)
    return rules


EU = _rules("EU")
GB = _rules("GB")


def holding(
    percent: str,
    *hazards: str,
    name: str = "",
    limits: Sequence[str] = (),
    m: MFactors | None = None,
    ate: Ate | None = None,
) -> Constituent:
    """A constituent at a share such as ``1.0`` or ``3-7``, in percent."""
    return Constituent(
        substance=name or f"{' and '.join(hazards) or 'harmless'} at {percent}",
        share=share_range(f"{percent} %"),
        hazards=tuple(hazard_class(hazard) for hazard in hazards),
        limits=tuple(specific_limit(limit) for limit in limits),
        m=m,
        ate=ate,
    )


def swallowed(dose: str) -> Ate:
    """A lethal dose by mouth in mg/kg; ``>5000`` is one that is only known to be greater."""
    return Ate(oral_mg_per_kg=Dose(Decimal(dose.lstrip(">")), above=dose.startswith(">")))


def candle(*constituents: Constituent) -> Mixture:
    """A candle that is made of these, all shares counted on the whole."""
    return mixture((oil(*constituents),))


def oil(
    *constituents: Constituent, grams: str = "100", id_: str = "oil", dated: date | None = TODAY
) -> Ingredient:
    """A fragrance of these constituents, by a sheet of that day."""
    return of_fragrance(
        Fragrance(id=id_, name=id_, composition=constituents, sheet_dated=dated),
        grams,
    )


def of_fragrance(fragrance: Fragrance, grams: str | Fraction = "100") -> Ingredient:
    """So many grams of a fragrance."""
    return Ingredient(role=Role.FRAGRANCE, material=fragrance, exact_g=Fraction(grams))


def wax(grams: str | Fraction) -> Ingredient:
    """Plain wax."""
    return Ingredient(role=Role.WAX, material=SOY, exact_g=Fraction(grams))


def classified(*constituents: Constituent, rules: RuleSet = EU) -> Classification:
    """What such a candle is."""
    return classify(candle(*constituents), rules)


def names(*constituents: Constituent, rules: RuleSet = EU) -> tuple[str, ...]:
    """The names of its classes."""
    result = classified(*constituents, rules=rules)
    return tuple(outcome.name for outcome in result.classes)
