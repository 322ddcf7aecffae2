"""Why a candle is classified as it is, and how far the next limit is: findings as sentences."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.acute import acute_toxicity_estimate
from generator.rules.hazards.findings import Counted, DoseLimit, Finding
from generator.rules.hazards.ruleset import SourceMark
from generator.rules.hazards.sensitisers import NAMING


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One sentence behind a result, with the source of the rule and how it is known."""

    text: str
    source: str
    mark: SourceMark


@dataclass(frozen=True, slots=True, kw_only=True)
class NextLimit:
    """A limit not yet reached: all shares together would have to grow ``factor`` times."""

    outcome: HazardClass
    factor: Fraction
    text: str


def share_as_text(value: Fraction | int) -> str:
    """A number truncated to four decimals, so that it never reads as a limit it does not reach."""
    whole, places = divmod(value.numerator * 10**4 // value.denominator, 10**4)
    return f"{whole}.{places:04}".rstrip("0").rstrip(".")


def why(finding: Finding) -> Reason:
    """The sentence of a limit that is met."""
    return Reason(
        text=f"{_subject(finding)}: {_held(finding)}{_by_a_step(finding)}",
        source=finding.limit.source,
        mark=finding.limit.mark,
    )


def _by_a_step(finding: Finding) -> str:
    if not finding.near:
        return ""
    if finding.dose is not None:
        most = _estimate(finding, finding.dose, [c.most_percent for c in finding.counted])
    else:
        most = f"{share_as_text(finding.most_percent)} %"
    return f"; one step of the scale could make it {most}, so the limit counts as met"


def doubtful(finding: Finding) -> Reason:
    """The sentence of a sum that only substances below their relevance line would carry over the limit."""
    below = ", ".join(f"{c.name} {share_as_text(c.percent)} %" for c in finding.left_out)
    return Reason(
        text=f"{finding.outcome}: would be reached with {below}, below the share that counts",
        source=finding.limit.source,
        mark=finding.limit.mark,
    )


def next_limit(finding: Finding) -> NextLimit:
    """How far away an unmet limit is."""
    return NextLimit(
        outcome=finding.outcome,
        factor=finding.limit.percent / finding.percent,
        text=f"{_subject(finding)}: {_held(finding)}",
    )


def _subject(finding: Finding) -> str:
    return "to be named" if finding.outcome == NAMING else str(finding.outcome)


def _held(finding: Finding) -> str:
    """What counts, and the limit it is compared with."""
    if finding.dose is not None:
        estimate = _estimate(finding, finding.dose, [c.percent for c in finding.counted])
        names = ", ".join(_share(c) for c in finding.counted)
        most = f"{share_as_text(finding.dose.most)} {finding.dose.unit}"
        return f"an estimate of {estimate} from {names}; the limit is {most}"
    limit = share_as_text(finding.limit.percent)
    if len(finding.counted) == 1 and finding.counted[0].weight == 1:
        return f"{_share(finding.counted[0])} of the candle; the limit is {limit} %"
    total = " + ".join(_times(c) for c in finding.counted)
    return f"{total} = {share_as_text(finding.percent)} %; the limit is {limit} %"


def _estimate(finding: Finding, dose: DoseLimit, percents: Iterable[Fraction]) -> str:
    """The acute toxicity estimate that shares over doses stand for."""
    doses = ((percent, 1 / Fraction(c.weight)) for c, percent in zip(finding.counted, percents, strict=True))
    estimate = acute_toxicity_estimate(doses, dose.unknown_percent)
    return "nothing" if estimate is None else f"{share_as_text(estimate)} {dose.unit}"


def _share(counted: Counted) -> str:
    return f"{counted.name} {share_as_text(counted.percent)} %"


def _times(counted: Counted) -> str:
    return _share(counted) if counted.weight == 1 else f"{share_as_text(counted.weight)} × {_share(counted)}"


BANNED: Final = frozenset({"Muta. 1A", "Muta. 1B", "Carc. 1A", "Carc. 1B", "Repr. 1A", "Repr. 1B"})
AIRWAYS: Final = frozenset({"Resp. Sens. 1", "Resp. Sens. 1A", "Resp. Sens. 1B"})
TACTILE: Final = frozenset({
    "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Acute Tox. 4", "Asp. Tox. 1", "Carc. 2", "Muta. 2",
    "Repr. 2", "Skin Corr. 1", "Skin Corr. 1A", "Skin Corr. 1B", "Skin Corr. 1C", "STOT RE 1", "STOT RE 2",
    "STOT SE 1", "STOT SE 2",
})  # fmt: skip


def refusals(classes: Iterable[HazardClass]) -> tuple[Reason, ...]:
    """Why a candle of these classes is refused; empty where it may be sold with a label."""
    return tuple(reason for outcome in classes for reason in _refusal(outcome))


def _refusal(outcome: HazardClass) -> tuple[Reason, ...]:
    if outcome.name in BANNED:
        text = f"{outcome}: may not be sold to consumers at all"
        return (Reason(text=text, source="REACH Annex XVII entries 28 to 30", mark="MEMORY"),)
    if outcome.name in AIRWAYS:
        text = f"{outcome}: a candle is breathed; ask a safety adviser before it is sold"
        return (Reason(text=text, source="CLP Annex I Table 3.4.5", mark="PRACTICE"),)
    if outcome.name in TACTILE:
        text = f"{outcome}: needs a mark for the blind or a child-proof lid; ask a safety adviser first"
        return (Reason(text=text, source="CLP Annex II Part 3", mark="MEMORY"),)
    return ()
