"""The loads at which a fragrance changes the label of a candle, solved exactly."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from generator.model.hazards import HazardClass
from generator.rules.hazards.classify import Outcome, Status, is_known, ladders, outcome_of
from generator.rules.hazards.findings import Finding, Ladder, diluted
from generator.rules.hazards.mixture import Ingredient, Mixture, mixture
from generator.rules.hazards.ruleset import RuleSet
from generator.rules.hazards.sensitisers import sensitisers_to_name

WHOLE: Final = Fraction(100)
_NEXT_TO_NOTHING: Final = Fraction(1, 10**9)
"""A load in percent below every limit there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelChange:
    """From this load on the candle is so; lower loads keep what was before."""

    of_total_percent: Fraction
    of_wax_percent: Fraction
    status: Status
    classes: tuple[HazardClass, ...]
    named: tuple[str, ...]


def label_changes(fragrances: Sequence[Ingredient], rules: RuleSet) -> tuple[LabelChange, ...]:
    """Every change of classes or named sensitisers as the load in plain wax rises from nothing.

    Several oils keep their proportions. Every sum of the law grows in step with the load until the next limit
    or relevance line, so that load is one division away; the sums are taken anew at exactly that load. Empty
    where a sheet is missing or too old; ends where undisclosed constituents would become too many.
    """
    neat = mixture(fragrances)
    if not is_known(neat, rules):
        return ()
    changes: list[LabelChange] = []
    last: _Told = ("none", (), ())
    for load_percent, found in _events(neat, rules):
        told = (found.status, found.classes, _names(found.named))
        if told != last:
            changes.append(_change(load_percent, told))
        last = told
    return tuple(changes)


_Told = tuple[Status, tuple[HazardClass, ...], tuple[str, ...]]


def _change(load_percent: Fraction, told: _Told) -> LabelChange:
    status, classes, named = told
    return LabelChange(
        of_total_percent=load_percent,
        of_wax_percent=WHOLE * load_percent / (WHOLE - load_percent),
        status=status,
        classes=classes,
        named=named,
    )


def _names(named: Iterable[Finding]) -> tuple[str, ...]:
    names = {counted.name for finding in named for counted in finding.counted}
    return tuple(sorted(names, key=str.casefold))


def _events(neat: Mixture, rules: RuleSet) -> Iterator[tuple[Fraction, Outcome]]:
    """Loads at which some sum reaches a limit, or some substance the share from which it counts."""
    most = _most_percent(neat, rules)
    # Below that load the undisclosed share moves no limit, so a load only scales what the neat oils hold.
    known = replace(neat, unknown_percent=Fraction(0))
    endpoints, naming = ladders(known, rules), sensitisers_to_name(known, rules)
    load_percent = _NEXT_TO_NOTHING
    while True:
        part = load_percent / WHOLE
        reached, named = [_diluted(ladder, part) for ladder in endpoints], _diluted(naming, part)
        if load_percent > _NEXT_TO_NOTHING:
            yield load_percent, outcome_of(reached, named)
        growths = [g for ladder in (*reached, named) for g in _growths(ladder) if g > 1]
        if not growths or load_percent * min(growths) >= most:
            return
        load_percent *= min(growths)


def _most_percent(neat: Mixture, rules: RuleSet) -> Fraction:
    """The load from which undisclosed constituents would be too many, or the whole."""
    if not neat.unknown_percent:
        return WHOLE
    counted = rules.limits["unknown acute toxicity counted"].percent
    return min(WHOLE, WHOLE * counted / neat.unknown_percent)


def _growths(ladder: Ladder) -> Iterator[Fraction]:
    """How many times the load would have to grow for each thing that could happen next."""
    for finding in ladder:
        if finding.percent:
            yield finding.limit.percent / finding.percent
        yield from (part.from_percent / part.percent for part in finding.left_out if part.percent)


def _diluted(ladder: Ladder, part: Fraction) -> Ladder:
    return tuple(diluted(finding, part) for finding in ladder)
