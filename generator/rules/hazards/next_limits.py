"""The loads at which a fragrance changes the label of a candle, solved exactly."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import zip_longest
from typing import Final, NamedTuple

from generator.model.burn_safety import HazardStatus
from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.classify import ClassifiedAs, is_known, ladders, outcome_of
from generator.rules.hazards.findings import Finding, Ladder, substance_names
from generator.rules.hazards.mixture import Mixture, mixture
from generator.rules.hazards.ruleset import RuleSet
from generator.rules.hazards.sensitisers import sensitisers_to_name
from generator.rules.wax.portions import Ingredient

WHOLE: Final = Fraction(100)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelChange:
    """From this load on the candle is so; lower loads keep what was before."""

    of_total_percent: Fraction
    of_wax_percent: Fraction
    status: HazardStatus
    classes: tuple[HazardClass, ...]
    named: tuple[str, ...]


def label_changes(fragrances: Sequence[Ingredient], rules: RuleSet) -> tuple[LabelChange, ...] | None:
    """Every change of classes or named sensitisers as the load in plain wax rises from nothing.

    Several oils keep their proportions. Every sum of the law grows with the load, so each limit is met from one
    load on, which is one division away. None where a sheet is missing or too old; ends where undisclosed
    constituents would become too many.
    """
    neat = mixture(fragrances)
    if not is_known(neat, rules):
        return None
    changes: list[LabelChange] = []
    last: _Told = ("none", (), ())
    for load_percent, found in _events(neat, rules):
        told = (found.status, found.classes, substance_names(found.named))
        if told != last:
            changes.append(_change(load_percent, told))
        last = told
    return tuple(changes)


_Told = tuple[HazardStatus, tuple[HazardClass, ...], tuple[str, ...]]


def _change(load_percent: Fraction, told: _Told) -> LabelChange:
    status, classes, named = told
    return LabelChange(
        of_total_percent=load_percent,
        of_wax_percent=WHOLE * load_percent / (WHOLE - load_percent),
        status=status,
        classes=classes,
        named=named,
    )


def _events(neat: Mixture, rules: RuleSet) -> Iterator[tuple[Fraction, ClassifiedAs]]:
    """What the candle is at every load that meets a limit, lowest load first."""
    most = _most_percent(neat, rules)
    # Below that load the undisclosed share moves no limit, so a load only scales what the neat oils hold.
    known = replace(neat, unknown_percent=Fraction(0))
    endpoints = [tuple(_met_below(most, ladder)) for ladder in ladders(known, rules)]
    naming = tuple(_met_below(most, sensitisers_to_name(known, rules)))
    loads = {met.from_percent for ladder in (*endpoints, naming) for met in ladder}
    for load_percent in sorted(loads):
        yield (
            load_percent,
            outcome_of((_at(load_percent, each) for each in endpoints), _at(load_percent, naming)),
        )


def _most_percent(neat: Mixture, rules: RuleSet) -> Fraction:
    """The load from which undisclosed constituents would be too many, or the whole."""
    if not neat.unknown_percent:
        return WHOLE
    counted = rules.limits["unknown acute toxicity counted"].percent
    return min(WHOLE, WHOLE * counted / neat.unknown_percent)


class _Met(NamedTuple):
    """The load in percent from which a limit is met, and the limit below and from there on."""

    from_percent: Fraction
    below: Finding
    from_there: Finding


def _met_below(most_percent: Fraction, ladder: Ladder) -> Iterator[_Met]:
    """The limits of a ladder that some load below the greatest one meets."""
    for finding in ladder:
        load_percent = _met_from_percent(finding)
        if load_percent is not None and load_percent < most_percent:
            yield _Met(load_percent, finding._replace(met=False), finding._replace(met=True))


def _met_from_percent(finding: Finding) -> Fraction | None:
    """The least load at which what counts of the neat oils reaches the limit; None where no load does."""
    parts = [part for part in (*finding.counted, *finding.left_out) if part.percent and part.weight]
    counted_from = sorted((WHOLE * part.from_percent / part.percent, n) for n, part in enumerate(parts))
    neat_percent = Fraction(0)
    for (load_percent, n), later in zip_longest(counted_from, counted_from[1:]):
        neat_percent += parts[n].percent * parts[n].weight
        reached = max(load_percent, WHOLE * finding.limit.percent / neat_percent)
        if later is None or reached < later[0]:
            return reached
    return None


def _at(load_percent: Fraction, ladder: Iterable[_Met]) -> Ladder:
    """The limits with their state at a load."""
    return tuple(one.from_there if one.from_percent <= load_percent else one.below for one in ladder)
