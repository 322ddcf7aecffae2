"""The finished candle's classification: the severest result of each endpoint, over all families."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from generator.model.burn_safety import HazardStatus
from generator.model.hazard_classes import CODES, UNKNOWN, HazardClass
from generator.rules.hazards.acute import acute_toxicity
from generator.rules.hazards.aquatic import aquatic_acute, aquatic_chronic, without_m_factor
from generator.rules.hazards.cmr_target_organs import aspiration, cmr, new_classes, target_organs
from generator.rules.hazards.findings import Finding, Ladder, deciding
from generator.rules.hazards.mixture import Mixture
from generator.rules.hazards.reasons import NextLimit, Reason, doubtful, next_limit, refusals, why
from generator.rules.hazards.ruleset import RuleSet
from generator.rules.hazards.sensitisers import (
    respiratory_sensitisation,
    sensitisers_to_name,
    skin_sensitisation,
)
from generator.rules.hazards.skin_eye import EYE_DAMAGE, eyes, skin

_ORDER: Final = {name: place for place, name in enumerate(CODES)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Classification:
    """The candle's classification in one market.

    ``findings`` are the limits that are met and tell, ``named`` the sensitisers that a label names,
    ``to_judge`` the sums that only shares too small to count would carry over a limit, ``to_come`` the
    nearest limit of each endpoint, nearest first.
    """

    status: HazardStatus
    classes: tuple[HazardClass, ...] = ()
    findings: tuple[Finding, ...] = ()
    named: tuple[Finding, ...] = ()
    to_judge: tuple[Finding, ...] = ()
    to_come: tuple[Finding, ...] = ()
    unknown_percent: Fraction
    remarks: tuple[Reason, ...]

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """The reasons, as sentences."""
        met = (*self.findings, *self.named)
        return (*refusals(self.classes), *map(why, met), *map(doubtful, self.to_judge), *self.remarks)

    @property
    def next_limits(self) -> tuple[NextLimit, ...]:
        """How far each limit is that is not met, as sentences; nearest first."""
        return tuple(map(next_limit, self.to_come))


def classify(candle: Mixture, rules: RuleSet) -> Classification:
    """Every hazard class of the finished candle, with the reasons and the limits that come next."""
    blind = tuple(_unknown(candle, rules))
    if blind:
        return Classification(status="unknown", unknown_percent=candle.unknown_percent, remarks=blind)
    all_ladders, naming = ladders(candle, rules), sensitisers_to_name(candle, rules)
    findings = tuple(finding for ladder in all_ladders for finding in _telling(ladder))
    classes = classes_of(finding.outcome for finding in findings)
    return Classification(
        status=status_of(classes),
        classes=classes,
        findings=findings,
        named=tuple(finding for finding in naming if finding.met),
        to_judge=tuple(finding for ladder in all_ladders for finding in ladder if finding.to_judge),
        to_come=_to_come(all_ladders, naming),
        unknown_percent=candle.unknown_percent,
        remarks=tuple(_remarks(candle)),
    )


def is_known(candle: Mixture, rules: RuleSet) -> bool:
    """Whether every fragrance has a recent enough sheet, and every constituent its hazards."""
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


def status_of(classes: tuple[HazardClass, ...]) -> HazardStatus:
    """The status of a candle of known hazards, by its classes."""
    return "refused" if refusals(classes) else "classified" if classes else "none"


def classes_of(severest: Iterable[HazardClass]) -> tuple[HazardClass, ...]:
    """The classes of a candle by the severest outcome of each endpoint, in the order of the law."""
    classes = set(severest)
    if any(outcome.kind == "Skin Corr." for outcome in classes):
        # What corrodes skin damages eyes, whatever the sum for eyes is.
        classes = {o for o in classes if not o.kind.startswith("Eye")} | {EYE_DAMAGE}
    return tuple(sorted(classes, key=lambda outcome: (_ORDER[outcome.name], outcome.code)))


def _unknown(candle: Mixture, rules: RuleSet) -> Iterator[Reason]:
    """What prevents classifying the candle at all."""
    for oil in candle.without_sheet:
        yield _said(f"{oil}: no composition is recorded, so its hazards are unknown")
    for substance in candle.having(UNKNOWN.name):
        yield _said(f"{substance.name}: no sheet says whether it has hazards")
    for oil, market in candle.by_no_law:
        yield _said(f"{oil}: its safety data sheet is for the {market} and names no class of {rules.law}")
    for oil, dated in candle.sheets:
        if dated is not None and dated < rules.oldest_sheet:
            oldest = f"sheets from before {rules.oldest_sheet} are too old to classify by"
            yield _said(f"{oil}: its safety data sheet is dated {dated}; {oldest}")


def _remarks(candle: Mixture) -> Iterator[Reason]:
    """What a reader should know beside the limits that are met."""
    for name in candle.taken_for_harmless:
        yield _said(f"{name}: no composition is recorded, so it is assumed unclassified")
    for name in without_m_factor(candle):
        yield _said(f"{name}: its sheet gives no M-factor, so 1 is assumed")
    for oil, dated in candle.sheets:
        if dated is None:
            yield _said(f"{oil}: its safety data sheet is undated and assumed current")


def _said(text: str) -> Reason:
    return Reason(text=text, source="recorded composition", mark="CHOICE")


def _to_come(endpoints: Iterable[Ladder], naming: Iterable[Finding]) -> tuple[Finding, ...]:
    """The nearest limit of each endpoint and of each name; nearest first."""
    severer = (tuple(_severer(ladder)) for ladder in endpoints)
    nearest = [max(findings, key=_reached) for findings in severer if findings]
    nearest += [finding for finding in naming if finding.percent and not finding.met]
    return tuple(sorted(nearest, key=_reached, reverse=True))


def _severer(ladder: Ladder) -> Iterator[Finding]:
    """Findings of a ladder more severe than what is reached."""
    for finding in ladder:
        if finding.met:
            return
        if finding.percent:
            yield finding


def _reached(finding: Finding) -> float:
    """How much of a limit is reached; rounded, since it only orders sentences."""
    return float(finding.percent) / float(finding.limit.percent)
