"""The loads at which one fragrance changes what the label of a candle says, as the workshop's papers print them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final

from generator.facts.hazards import HazardStatus
from generator.model.maker import Market
from generator.model.materials import Fragrance
from generator.rules.hazards.classify import classify
from generator.rules.hazards.label import hazard_statements, supplements
from generator.rules.hazards.mixture import ingredient, mixture
from generator.rules.hazards.next_limits import LabelChange, label_changes
from generator.rules.hazards.reasons import shown
from generator.rules.hazards.ruleset import rule_set

MOST_OF_TOTAL_PERCENT: Final = 50
"""Beyond this load it would be no candle any more (CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadStep:
    """From this load on a label says so, until the next step. Loads are cut off, never rounded up."""

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
    return FragranceLoads(
        name=fragrance.name,
        markets={market: loads for market in markets if (loads := _loads(fragrance, market, on))},
    )


def _loads(fragrance: Fragrance, market: Market, on: date) -> MarketLoads | None:
    rules = rule_set(market, on)
    if rules is None:
        return None
    neat = ingredient(fragrance, "fragrance", Fraction(1))
    if classify(mixture((neat,)), rules).status == "unknown":
        return MarketLoads(law=rules.law, steps=None)
    changes = label_changes((neat,), rules)
    steps = tuple(_step(change) for change in changes if change.of_total_percent <= MOST_OF_TOTAL_PERCENT)
    return MarketLoads(law=rules.law, steps=steps)


def _step(change: LabelChange) -> LoadStep:
    codes = tuple(outcome.code for outcome in change.classes)
    return LoadStep(
        of_wax_percent=shown(change.of_wax_percent),
        of_total_percent=shown(change.of_total_percent),
        status=change.status,
        classes=tuple(str(outcome) for outcome in change.classes),
        codes=(*hazard_statements(codes), *supplements(codes, naming=bool(change.named))),
        named=change.named,
    )
