"""The finished candle's classification by each market's hazard rules, as its papers may state it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType

from generator.facts.poured_candle import PouredCandle
from generator.model.burn_safety import HazardLabel
from generator.model.markets import Market
from generator.model.quantities import as_written
from generator.model.recorded import Recorded
from generator.problems import Fault, warning
from generator.rules.hazards.classify import Classification, classify
from generator.rules.hazards.label import LabelSize, identifier_due, label, label_size, may_leave_off
from generator.rules.hazards.mixture import mixture
from generator.rules.hazards.reasons import NextLimit, refusals, share_as_text
from generator.rules.hazards.ruleset import RuleSet, by_market, rule_set
from generator.rules.hazards.sensitisers import NAMING
from generator.rules.wax.blend import FORMULAS_KEPT, Blend
from generator.rules.wax.geometry import brimful_ml


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardFacts:
    """One market's hazards: its label, why, and how far the next limit is.

    ``may_leave_off`` are statements that so small a pack may omit; ``size`` is None where there is nothing to
    print. ``reasons`` and ``next_limits`` hold shares of constituents and stay in the workshop.
    """

    label: HazardLabel
    classes: tuple[str, ...]
    may_leave_off: tuple[str, ...]
    size: LabelSize | None
    reasons: tuple[str, ...]
    next_limits: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Judged:
    """A classification with its sentences."""

    result: Classification
    classes: tuple[str, ...]
    reasons: tuple[str, ...]
    next_limits: tuple[str, ...]


Hazards = Mapping[Market, HazardFacts | None]
"""By market; None where the market has no such label as a duty."""


def is_classified(hazards: Hazards) -> bool:
    """Whether any market classifies it, or refuses it for its classes."""
    return any(
        found is not None and found.label.status in ("classified", "refused") for found in hazards.values()
    )


def hazards_of(recorded: Recorded, poured: PouredCandle) -> tuple[Hazards, tuple[Fault, ...]]:
    """The hazards in every market the shop sells to, and what prevents selling."""
    asked = tuple((market, rule_set(market, recorded.as_of, recorded.added)) for market in recorded.markets)
    judged = _judged_by(
        poured.blend,
        recorded.scale_step_g,
        tuple(rules for _, rules in asked if rules is not None),
    )
    found: dict[Market, HazardFacts | None] = dict.fromkeys(recorded.markets)
    faults: dict[str, Fault] = {}
    for market, rules in asked:
        if rules is None:
            continue
        one, printed = judged[market]
        found[market] = _facts(printed, one, poured)
        faults |= {
            fault.what: fault for fault in (*_refusals(one.result), *_identifier(recorded, rules, printed))
        }
    return found, tuple(faults.values())


@lru_cache(maxsize=FORMULAS_KEPT)
def _judged_by(
    blend: Blend, scale_step_g: float, asked: tuple[RuleSet, ...]
) -> Mapping[Market, tuple[_Judged, HazardLabel]]:
    """One formula by the rules of each market, with its label."""
    candle = mixture(blend.parts, as_written(scale_step_g))
    total_percent = Fraction(blend.fragrance_of_total_percent)
    judged = by_market(asked, candle.by_class, lambda rules: _judged(classify(candle, rules), total_percent))
    return MappingProxyType(
        {rules.market: (one := judged[rules.market], label(one.result, rules)) for rules in asked}
    )


def _judged(result: Classification, total_percent: Fraction) -> _Judged:
    return _Judged(
        result=result,
        classes=tuple(str(outcome) for outcome in result.classes),
        reasons=tuple(f"{one.text} ({one.source}, {one.mark})" for one in result.reasons),
        next_limits=tuple(_next(total_percent, limit) for limit in result.next_limits),
    )


def _facts(printed: HazardLabel, judged: _Judged, poured: PouredCandle) -> HazardFacts:
    return HazardFacts(
        label=printed,
        classes=judged.classes,
        may_leave_off=may_leave_off(printed, judged.result.classes, poured.filled.volume_ml),
        size=label_size(brimful_ml(poured.build.shape)) if printed.h or printed.euh else None,
        reasons=judged.reasons,
        next_limits=judged.next_limits,
    )


def _next(total_percent: Fraction, limit: NextLimit) -> str:
    """How far the limit is, and the fragrance load at which it is reached, if that would still be a candle."""
    part, whole = (total_percent * limit.factor).as_integer_ratio()
    if not 0 < part < 50 * whole:
        return limit.text
    reached = "named" if limit.outcome == NAMING else str(limit.outcome)
    return f"{limit.text}; {reached} from {share_as_text(Fraction(100 * part, 100 * whole - part))} % of wax"


def _refusals(result: Classification) -> Iterator[Fault]:
    for reason in refusals(result.classes):
        yield Fault(
            path=("formula",),
            what=reason.text,
            why=f"such a candle cannot be sold to the public as it is ({reason.source})",
            fix="use another fragrance, or less of it; ask someone qualified in the local law",
        )


def _identifier(recorded: Recorded, rules: RuleSet, printed: HazardLabel) -> Iterator[Fault]:
    if recorded.ufi is not None or not (rules.formula_identifier and identifier_due(printed.codes)):
        return
    yield warning(
        path=("ufi",),
        what=f"{recorded.scent} has no UFI, and its label in the {rules.market} needs one",
        why="poison centres identify the mixture by it; one with health hazards must be notified to them",
        fix="ufi: ....-....-....-...., from whoever notified the mixture in the EU",
    )
