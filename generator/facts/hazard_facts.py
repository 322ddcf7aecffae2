"""What the finished candle is by the hazard rules of each market, as its papers may say it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Final, Literal

from generator.facts.poured_candle import PouredCandle
from generator.model.markets import Market
from generator.model.quantities import as_written
from generator.model.recorded import Recorded
from generator.problems import Fault, Severity
from generator.rules.hazards.classify import Classification, classify
from generator.rules.hazards.label import Label, LabelSize, Pack, label
from generator.rules.hazards.mixture import mixture
from generator.rules.hazards.reasons import NextLimit, Reason, shown
from generator.rules.hazards.refusals import refusals
from generator.rules.hazards.ruleset import Bearing, RuleSet, rule_set
from generator.rules.hazards.sensitisers import NAMING
from generator.rules.wax.geometry import brimful_ml
from generator.rules.wax.portions import Ingredient

FORMULAS_KEPT: Final = 16
"""Sizes of a candle share its ingredients and come one after another, so the last few are not judged again."""

HazardStatus = Literal["classified", "none", "unknown", "refused"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardFacts:
    """One market's hazards: the label's elements by code, why, and how far the next limit is.

    ``reasons`` and ``next_limits`` hold shares of constituents, so they stay in the workshop.
    """

    status: HazardStatus
    law: str
    classes: tuple[str, ...]
    pictograms: tuple[str, ...]
    signal_word: str | None
    h: tuple[str, ...]
    euh: tuple[str, ...]
    p: tuple[str, ...]
    named_substances: tuple[str, ...]
    sensitisers: tuple[str, ...]
    may_leave_off: tuple[str, ...]
    unknown_acute_percent: str | None
    unknown_aquatic_percent: str | None
    formula_identifier_due: bool
    size: LabelSize | None
    near: bool
    """Whether a limit counts as met that only a step of the scale could reach."""
    reasons: tuple[str, ...]
    next_limits: tuple[str, ...]

    @property
    def codes(self) -> tuple[str, ...]:
        """Every statement in the order it is printed in."""
        return (*self.h, *self.euh, *self.p)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Judged:
    """A classification with its sentences."""

    result: Classification
    reasons: tuple[str, ...]
    next_limits: tuple[str, ...]


Hazards = Mapping[Market, HazardFacts | None]
"""By market; None where the market has no such label as a duty."""


def is_classified(hazards: Hazards) -> bool:
    """Whether any market classifies it, or refuses it for its classes."""
    return any(found is not None and found.status in ("classified", "refused") for found in hazards.values())


def hazards_of(recorded: Recorded, poured: PouredCandle) -> tuple[Hazards, tuple[Fault, ...]]:
    """The hazards in every market the shop sells to, and what stands in the way of selling."""
    pack = Pack(contents_ml=poured.filled.volume_ml, capacity_ml=brimful_ml(recorded.build.shape))
    asked = tuple((market, rule_set(market, recorded.as_of, recorded.added)) for market in recorded.markets)
    judged = _judged_by(
        poured.blend.parts,
        poured.blend.fragrance_of_total_percent,
        recorded.scale_step_g,
        tuple(rules for _, rules in asked if rules is not None),
    )
    found: dict[Market, HazardFacts | None] = dict.fromkeys(recorded.markets)
    faults: dict[str, Fault] = {}
    for market, rules in asked:
        if rules is None:
            continue
        one = judged[market]
        printed = label(one.result, rules, pack)
        found[market] = _facts(rules, one, printed)
        faults |= {
            fault.what: fault for fault in (*_refusals(one.result), *_identifier(recorded, market, printed))
        }
    return found, tuple(faults.values())


@lru_cache(maxsize=FORMULAS_KEPT)
def _judged_by(
    parts: tuple[Ingredient, ...],
    fragrance_of_total_percent: Decimal,
    scale_step_g: float,
    asked: tuple[RuleSet, ...],
) -> Mapping[Market, _Judged]:
    """One formula by the rules of each market; two markets seldom differ in what bears on it."""
    candle = mixture(parts, as_written(scale_step_g))
    known: list[tuple[Bearing, _Judged]] = []
    judged: dict[Market, _Judged] = {}
    for rules in asked:
        bearing = rules.bearing_on(candle.by_class)
        one = next((one for alike, one in known if alike == bearing), None)
        if one is None:
            one = _judged(classify(candle, rules), Fraction(fragrance_of_total_percent))
            known.append((bearing, one))
        judged[rules.market] = one
    return MappingProxyType(judged)


def _judged(result: Classification, total_percent: Fraction) -> _Judged:
    return _Judged(
        result=result,
        reasons=tuple(_reason(reason) for reason in result.reasons),
        next_limits=tuple(_next(total_percent, limit) for limit in result.next_limits),
    )


def _facts(rules: RuleSet, judged: _Judged, printed: Label | None) -> HazardFacts:
    result = judged.result
    return HazardFacts(
        status=result.status,
        law=rules.law,
        classes=tuple(str(outcome) for outcome in result.classes),
        pictograms=printed.pictograms if printed else (),
        signal_word=printed.signal_word if printed else None,
        h=printed.h if printed else (),
        euh=printed.euh if printed else (),
        p=printed.p if printed else (),
        named_substances=printed.named_substances if printed else (),
        sensitisers=printed.sensitisers if printed else (),
        may_leave_off=printed.may_leave_off if printed else (),
        unknown_acute_percent=_percent(printed.unknown_acute_percent) if printed else None,
        unknown_aquatic_percent=_percent(printed.unknown_aquatic_percent) if printed else None,
        formula_identifier_due=printed.formula_identifier_due if printed else False,
        size=printed.size if printed and printed.needed else None,
        near=any(finding.near for finding in (*result.findings, *result.named)),
        reasons=judged.reasons,
        next_limits=judged.next_limits,
    )


def _percent(share: Fraction | None) -> str | None:
    return None if share is None else shown(share)


def _reason(reason: Reason) -> str:
    return f"{reason.text} ({reason.source}, {reason.mark})"


def _next(total_percent: Fraction, limit: NextLimit) -> str:
    """How far the limit is, and, where it would still be a candle, at which fragrance load it lies."""
    total = total_percent * limit.factor
    if not 0 < total < 50:
        return limit.text
    reached = "named" if limit.outcome == NAMING else str(limit.outcome)
    return f"{limit.text}; {reached} from {shown(100 * total / (100 - total))} % of wax"


def _refusals(result: Classification) -> Iterator[Fault]:
    for reason in refusals(result.classes):
        yield Fault(
            path=("formula",),
            what=reason.text,
            why=f"such a candle may not be sold to the public as it is ({reason.source})",
            write="another fragrance, or less of it; ask somebody who is competent in the law of the place",
        )


def _identifier(recorded: Recorded, market: Market, printed: Label | None) -> Iterator[Fault]:
    if printed is None or not printed.formula_identifier_due or recorded.ufi is not None:
        return
    yield Fault(
        path=("ufi",),
        what=f"{recorded.scent} has no ufi, and its label in the {market} needs one",
        why="poison centres find the recipe by it; a mixture classified for health must be notified to them",
        write="ufi: ....-....-....-...., as whoever notified the mixture in the EU gives it to you",
        severity=Severity.WARNING,
    )
