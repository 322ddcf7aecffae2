"""The loads at which one fragrance changes a candle's label, as workshop papers print them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final

from generator.model.burn_safety import HazardStatus
from generator.model.markets import Market
from generator.model.materials import Fragrance
from generator.model.recorded import Role
from generator.rules.hazards.label import hazard_statements, supplements
from generator.rules.hazards.mixture import composition
from generator.rules.hazards.next_limits import LabelChange, label_changes
from generator.rules.hazards.reasons import share_as_text
from generator.rules.hazards.ruleset import RuleSet, by_market, rule_set
from generator.rules.wax.portions import Ingredient

MOST_OF_TOTAL_PERCENT: Final = 50
"""Beyond this load it would no longer be a candle (CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadStep:
    """What a label says from this load to the next step. Loads are truncated, never rounded up."""

    of_wax_percent: str
    of_total_percent: str
    status: HazardStatus
    classes: tuple[str, ...]
    codes: tuple[str, ...]
    named: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarketLoads:
    """One market's steps, lowest load first; below the first there is no label. None where nothing is known."""

    law: str
    steps: tuple[LoadStep, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FragranceLoads:
    """One fragrance in plain wax, by market; without the US, which has no such label as a duty."""

    name: str
    markets: Mapping[Market, MarketLoads]


def loads_of(fragrance: Fragrance, markets: Iterable[Market], on: date) -> FragranceLoads:
    """Every change of the label as the load of one fragrance in plain wax rises from nothing."""
    oil = Ingredient(role=Role.FRAGRANCE, material=fragrance, exact_g=Fraction(1))
    held = {hazard.name for constituent in composition(oil) or () for hazard in constituent.hazards}
    asked = [rules for market in markets if (rules := rule_set(market, on))]
    steps = by_market(asked, held, lambda rules: _steps(oil, rules))
    found = {rules.market: MarketLoads(law=rules.law, steps=steps[rules.market]) for rules in asked}
    return FragranceLoads(name=fragrance.name, markets=found)


def _steps(oil: Ingredient, rules: RuleSet) -> tuple[LoadStep, ...] | None:
    changes = label_changes((oil,), rules)
    if changes is None:
        return None
    return tuple(_step(change) for change in changes if change.of_total_percent <= MOST_OF_TOTAL_PERCENT)


def _step(change: LabelChange) -> LoadStep:
    codes = tuple(outcome.code for outcome in change.classes)
    return LoadStep(
        of_wax_percent=share_as_text(change.of_wax_percent),
        of_total_percent=share_as_text(change.of_total_percent),
        status=change.status,
        classes=tuple(str(outcome) for outcome in change.classes),
        codes=(*hazard_statements(codes), *supplements(codes, naming=bool(change.named))),
        named=change.named,
    )
