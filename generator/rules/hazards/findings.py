"""One limit compared with what counts towards it: the step every hazard family is made of."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, NamedTuple

from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.mixture import Present, reaches, weighted_sum
from generator.rules.hazards.ruleset import Limit


# A candle makes more than a hundred of these, so they are tuples: a frozen dataclass takes 2.5 times as long to make.
class Counted(NamedTuple):
    """A substance's share, its weight, and the share from which it counts at all."""

    name: str
    percent: Fraction
    most_percent: Fraction
    weight: Fraction | int = 1
    from_percent: Fraction | int = 0

    @property
    def weighed_percent(self) -> Fraction:
        """The share times its weight."""
        return self.percent if self.weight == 1 else self.percent * self.weight


def counted_part(substance: Present, weight: Fraction | int = 1, from_percent: Fraction | int = 0) -> Counted:
    """A substance with its share of the candle."""
    return Counted(substance.name, substance.percent, substance.most_percent, weight, from_percent)


class Sum(NamedTuple):
    """What counts together, what is below its relevance line, and the sum."""

    counted: tuple[Counted, ...]
    left_out: tuple[Counted, ...]
    percent: Fraction
    most_percent: Fraction


@dataclass(frozen=True, slots=True)
class DoseLimit:
    """The upper dose of a category of acute toxicity, its unit, and the unknown share that counts."""

    most: Fraction
    unit: str
    unknown_percent: Fraction


class Finding(NamedTuple):
    """What the candle becomes at a limit, and how much of it counts towards that.

    ``met`` is whether the limit is reached, or so near that one step of the scale could reach it. ``dose`` is
    for acute toxicity, where shares are divided by doses.
    """

    outcome: HazardClass
    limit: Limit
    counted: tuple[Counted, ...]
    left_out: tuple[Counted, ...]
    percent: Fraction
    most_percent: Fraction
    met: bool
    dose: DoseLimit | None = None

    @property
    def near(self) -> bool:
        """Whether only a step of the scale reaches the limit."""
        return self.met and self.percent < self.limit.percent

    @property
    def to_judge(self) -> bool:
        """Whether substances below their own relevance line would carry the sum over the limit."""
        if self.met or not self.left_out:
            return False
        below = weighted_sum((part.percent, part.weight) for part in self.left_out)
        return bool(below) and self.percent + below >= self.limit.percent


_NOTHING: Final = Fraction(0)

Ladder = tuple[Finding, ...]
"""The findings of one endpoint, severest outcome first: the first that is met decides."""


def sum_of_parts(parts: Iterable[Counted]) -> Sum:
    """All parts that reach their relevance line, each times its weight."""
    counted: list[Counted] = []
    left_out: list[Counted] = []
    for part in parts:
        relevant = not part.from_percent or reaches(part.most_percent, part.from_percent)
        (counted if relevant else left_out).append(part)
    if not counted:
        # Most sums of a candle are empty, and fractions are slow even at nothing.
        return Sum(counted=(), left_out=tuple(left_out), percent=_NOTHING, most_percent=_NOTHING)
    return Sum(
        counted=tuple(counted),
        left_out=tuple(left_out),
        percent=weighted_sum((part.percent, part.weight) for part in counted),
        most_percent=weighted_sum((part.most_percent, part.weight) for part in counted),
    )


def weighed(outcome: HazardClass, limit: Limit, parts: Iterable[Counted]) -> Ladder:
    """The sum of the parts compared with a limit; no finding where there are no parts."""
    sum_ = sum_of_parts(parts)
    return (against(outcome, limit, sum_),) if sum_.counted or sum_.left_out else ()


def against(outcome: HazardClass, limit: Limit, sum_: Sum, dose: DoseLimit | None = None) -> Finding:
    """A sum compared with a limit."""
    return Finding(
        outcome=outcome,
        limit=limit,
        counted=sum_.counted,
        left_out=sum_.left_out,
        percent=sum_.percent,
        most_percent=sum_.most_percent,
        met=bool(sum_.counted) and reaches(sum_.most_percent, limit.percent),
        dose=dose,
    )


def alone(outcome: HazardClass, limit: Limit, substance: Present) -> Finding:
    """One substance compared with a limit by itself."""
    return against(
        outcome, limit, Sum((counted_part(substance),), (), substance.percent, substance.most_percent)
    )


def own_or(limit: Limit, substance: Present, *names: str) -> Limit:
    """The substance's specific limit for these classes where its sheet gives one, else the general one."""
    own = substance.own_limit(*names)
    return limit if own is None else Limit(own, "specific limit of the safety data sheet", "SHEET")


def deciding(ladder: Ladder) -> Finding | None:
    """The severest finding that is met."""
    return next((finding for finding in ladder if finding.met), None)


def substance_names(findings: Iterable[Finding]) -> tuple[str, ...]:
    """Every substance that counts, in alphabetical order: the order of shares stays private."""
    names = {part.name for finding in findings for part in finding.counted}
    return tuple(sorted(names, key=str.casefold))
