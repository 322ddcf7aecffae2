"""A supplier's own classification of a candle, held against what section 3 of the same sheet leads to."""

from dataclasses import dataclass, replace
from decimal import Decimal

from generator.model.amounts import Basis, Share
from generator.model.hazards import HazardClass
from generator.model.materials import OwnClassification
from generator.rules.hazards.classify import classify
from generator.rules.hazards.mixture import Ingredient, mixture
from generator.rules.hazards.ruleset import RuleSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagreement:
    """Statements that only the supplier gives at the stated load, and those that only section 3 leads to."""

    only_supplier: tuple[str, ...]
    only_worked_out: tuple[str, ...]


def against_supplier(oil: Ingredient, own: OwnClassification, rules: RuleSet) -> Disagreement | None:
    """None where both come to the same statements, or where section 3 is not known."""
    result = classify(mixture((_weighing(oil, own.at), _wax(own.at))), rules)
    if result.status == "unknown":
        return None
    theirs, ours = _codes(own.classes), _codes(result.classes)
    if theirs == ours:
        return None
    return Disagreement(
        only_supplier=tuple(sorted(theirs - ours)), only_worked_out=tuple(sorted(ours - theirs))
    )


def _codes(classes: tuple[HazardClass, ...]) -> set[str]:
    return {outcome.code for outcome in classes}


def _weighing(oil: Ingredient, at: Share) -> Ingredient:
    return replace(oil, grams=at.percent)


def _wax(at: Share) -> Ingredient:
    grams = Decimal(100) if at.basis is Basis.OF_WAX else 100 - at.percent
    return Ingredient(id="wax", role="wax", grams=grams)
