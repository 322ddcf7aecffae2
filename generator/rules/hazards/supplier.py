"""A supplier's own classification of a candle, compared with the result from section 3 of the same sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from generator.model.amounts import Basis, Share
from generator.model.hazard_classes import HazardClass
from generator.model.materials import Additive, Fragrance, OwnClassification
from generator.model.recorded import Role
from generator.model.shop import Shop
from generator.problems import Fault, warning
from generator.rules.hazards.classify import classify
from generator.rules.hazards.mixture import mixture
from generator.rules.hazards.ruleset import RuleSet, rule_set
from generator.rules.wax.portions import Ingredient


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagreement:
    """Statements that only the supplier gives at the stated load, and those that only section 3 leads to."""

    only_supplier: tuple[str, ...]
    only_worked_out: tuple[str, ...]


def against_supplier(oil: Fragrance, own: OwnClassification, rules: RuleSet) -> Disagreement | None:
    """The disagreement; None where both give the same statements, or where section 3 is not known."""
    stirred = Ingredient(role=Role.FRAGRANCE, material=oil, exact_g=Fraction(own.at.percent))
    result = classify(mixture((stirred, _wax(own.at))), rules)
    if result.status == "unknown":
        return None
    theirs, ours = _codes(own.classes), _codes(result.classes)
    if theirs == ours:
        return None
    return Disagreement(
        only_supplier=tuple(sorted(theirs - ours)), only_worked_out=tuple(sorted(ours - theirs))
    )


def supplier_faults(shop: Shop) -> Iterator[Fault]:
    """Every fragrance whose supplier comes to another classification than section 3 leads to."""
    rule_sets = [rules for market in shop.maker.markets if (rules := rule_set(market, shop.as_of))]
    for id_, fragrance in shop.fragrances.items():
        own = fragrance.own_classification
        if own is None:
            continue
        found = (against_supplier(fragrance, own, rules) for rules in rule_sets)
        for difference in dict.fromkeys(one for one in found if one is not None):
            yield _fault(id_, own, difference)


def _fault(id_: str, own: OwnClassification, difference: Disagreement) -> Fault:
    more, less = ", ".join(difference.only_supplier), ", ".join(difference.only_worked_out)
    said = [f"the supplier gives {more}, which section 3 does not"] if more else []
    said += [f"section 3 leads to {less}, which the supplier does not give"] if less else []
    return warning(
        path=(f"fragrances/{id_}.yaml", "own_classification"),
        what=f"at {own.at.percent} % {own.at.basis.value} {'; '.join(said)}",
        why="one of the two is out of date or copied wrongly, and the label would follow section 3 alone",
        fix=(
            "copy composition and own_classification from the same sheet, and ask the supplier which is right"
        ),
        check="supplier-differs",
    )


def _codes(classes: tuple[HazardClass, ...]) -> set[str]:
    return {outcome.code for outcome in classes}


def _wax(at: Share) -> Ingredient:
    """Wax of which only the amount is known."""
    grams = Decimal(100) if at.basis is Basis.OF_WAX else 100 - at.percent
    return Ingredient(role=Role.WAX, material=Additive(id="wax", name="wax"), exact_g=Fraction(grams))
