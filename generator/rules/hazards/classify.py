"""The finished candle's classification: every family asked, the severest of each endpoint taken."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final, Literal

from generator.model.hazards import CODES, HazardClass
from generator.rules.hazards.acute import acute_toxicity
from generator.rules.hazards.aquatic import aquatic_acute, aquatic_chronic, without_m_factor
from generator.rules.hazards.cmr_target_organs import aspiration, cmr, target_organs
from generator.rules.hazards.findings import Finding, Ladder, deciding
from generator.rules.hazards.mixture import Mixture
from generator.rules.hazards.new_classes import new_classes
from generator.rules.hazards.reasons import NextLimit, Reason, doubtful, next_limit, why
from generator.rules.hazards.refusals import refusals
from generator.rules.hazards.ruleset import RuleSet
from generator.rules.hazards.sensitisers import (
    respiratory_sensitisation,
    sensitisers_to_name,
    skin_sensitisation,
)
from generator.rules.hazards.skin_eye import EYE_DAMAGE, eyes, skin

Status = Literal["classified", "none", "unknown", "refused"]
"""``none``: known, and no class reached. ``unknown``: a sheet is missing or too old. ``refused``: not to be
sold as it is, or only after asking someone who knows."""

_ORDER: Final = {name: place for place, name in enumerate(CODES)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Classification:
    """What the candle is, in one market.

    ``findings`` are the limits that are met and tell, ``named`` the sensitisers that a label names.
    """

    status: Status
    classes: tuple[HazardClass, ...]
    findings: tuple[Finding, ...]
    named: tuple[Finding, ...]
    unknown_percent: Fraction
    reasons: tuple[Reason, ...]
    next_limits: tuple[NextLimit, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What all limits together come to, before anybody asks why."""

    status: Status
    classes: tuple[HazardClass, ...]
    findings: tuple[Finding, ...]
    named: tuple[Finding, ...]


def outcome_of(all_ladders: Iterable[Ladder], naming: Iterable[Finding]) -> Outcome:
    """The severest of each endpoint, and the sensitisers to name."""
    findings = tuple(f for ladder in all_ladders for f in _telling(ladder))
    classes = _classes(findings)
    return Outcome(
        status="refused" if refusals(classes) else "classified" if classes else "none",
        classes=classes,
        findings=findings,
        named=tuple(f for f in naming if f.met),
    )


def classify(candle: Mixture, rules: RuleSet) -> Classification:
    """Every hazard class of the finished candle, with the reasons and the limits that come next."""
    blind = tuple(_unknown(candle, rules))
    if blind:
        return Classification(
            status="unknown",
            classes=(),
            findings=(),
            named=(),
            unknown_percent=candle.unknown_percent,
            reasons=blind,
            next_limits=(),
        )
    all_ladders, naming = ladders(candle, rules), sensitisers_to_name(candle, rules)
    found = outcome_of(all_ladders, naming)
    return Classification(
        status=found.status,
        classes=found.classes,
        findings=found.findings,
        named=found.named,
        unknown_percent=candle.unknown_percent,
        reasons=(
            *refusals(found.classes),
            *map(why, (*found.findings, *found.named)),
            *_remarks(candle, all_ladders),
        ),
        next_limits=_next_limits(all_ladders, naming),
    )


def is_known(candle: Mixture, rules: RuleSet) -> bool:
    """Whether every fragrance has a sheet that is new enough to classify by."""
    return not any(_unknown(candle, rules))


def ladders(candle: Mixture, rules: RuleSet) -> tuple[Ladder, ...]:
    """Every endpoint of every hazard family."""
    return (
        *acute_toxicity(candle, rules),
        skin(candle, rules),
        eyes(candle, rules),
        respiratory_sensitisation(candle, rules),
        skin_sensitisation(candle, rules),
        *cmr(candle, rules),
        *target_organs(candle, rules),
        aspiration(candle, rules),
        aquatic_acute(candle, rules),
        aquatic_chronic(candle, rules),
        *new_classes(candle, rules),
    )


def _telling(ladder: Ladder) -> Iterator[Finding]:
    """All findings that reach the severest outcome of an endpoint."""
    decides = deciding(ladder)
    if decides is not None:
        yield from (f for f in ladder if f.met and f.outcome == decides.outcome)


def _classes(findings: Iterable[Finding]) -> tuple[HazardClass, ...]:
    classes = {finding.outcome for finding in findings}
    if any(outcome.kind == "Skin Corr." for outcome in classes):
        # What corrodes skin damages eyes, whatever the sum over the eye limits says.
        classes = {o for o in classes if not o.kind.startswith("Eye")} | {EYE_DAMAGE}
    return tuple(sorted(classes, key=lambda outcome: (_ORDER[outcome.name], outcome.code)))


def _unknown(candle: Mixture, rules: RuleSet) -> Iterator[Reason]:
    """What keeps the candle from being classified at all."""
    for oil in candle.without_sheet:
        yield _said("unknown", f"{oil}: no composition is recorded, so its hazards are unknown")
    for oil, dated in candle.sheets:
        if dated is not None and dated < rules.oldest_sheet:
            yield _said("unknown", _too_old(oil, dated, rules.oldest_sheet))


def _too_old(oil: str, dated: date, oldest: date) -> str:
    return (
        f"{oil}: its safety data sheet is of {dated}, and sheets before {oldest} are too old to classify by"
    )


def _remarks(candle: Mixture, endpoints: Iterable[Ladder]) -> Iterator[Reason]:
    """What a reader should know beside the limits that are met."""
    yield from (doubtful(f) for ladder in endpoints for f in ladder if f.to_judge)
    for name in candle.taken_for_harmless:
        yield _said("assumed", f"{name}: no composition is recorded; it is taken for harmless")
    for name in without_m_factor(candle):
        yield _said("assumed", f"{name}: its sheet gives no M-factor; 1 is used")
    for oil, dated in candle.sheets:
        if dated is None:
            yield _said("assumed", f"{oil}: its safety data sheet is undated; it is taken for current")


def _said(kind: Literal["unknown", "assumed"], text: str) -> Reason:
    return Reason(kind=kind, text=text, source="recorded composition", mark="CHOICE")


def _next_limits(endpoints: Iterable[Ladder], naming: Iterable[Finding]) -> tuple[NextLimit, ...]:
    """The nearest limit of each endpoint and of each name; nearest first."""
    to_come = (tuple(_to_come(ladder)) for ladder in endpoints)
    nearest = [max(findings, key=_reached) for findings in to_come if findings]
    nearest += [finding for finding in naming if finding.percent and not finding.met]
    return tuple(map(next_limit, sorted(nearest, key=_reached, reverse=True)))


def _to_come(ladder: Ladder) -> Iterator[Finding]:
    """Findings of a ladder that are severer than what is reached."""
    for finding in ladder:
        if finding.met:
            return
        if finding.percent:
            yield finding


def _reached(finding: Finding) -> float:
    """How much of a limit is reached; rounded, since it only puts sentences into an order."""
    return float(finding.percent) / float(finding.limit.percent)
