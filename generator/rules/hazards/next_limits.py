"""The loads at which a fragrance changes the label of a candle, solved exactly."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate, zip_longest
from operator import itemgetter
from typing import Final, NamedTuple

from generator.model.burn_safety import HazardStatus
from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.classify import ClassifiedAs, is_known, ladders, outcome_of
from generator.rules.hazards.findings import Counted, Finding, Ladder, substance_names
from generator.rules.hazards.mixture import Mixture, mixture
from generator.rules.hazards.ruleset import RuleSet
from generator.rules.hazards.sensitisers import sensitisers_to_name
from generator.rules.wax.portions import Ingredient

_WHOLE: Final = Fraction(1)
"""The load of neat oils: loads are shares of the total until they are told in percent."""

_NOTHING: Final = Fraction(0)


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
    for load, found in _events(neat, rules):
        told = (found.status, found.classes, substance_names(found.named))
        if told != last:
            changes.append(_change(load, told))
        last = told
    return tuple(changes)


_Told = tuple[HazardStatus, tuple[HazardClass, ...], tuple[str, ...]]


def _change(load: Fraction, told: _Told) -> LabelChange:
    status, classes, named = told
    return LabelChange(
        of_total_percent=100 * load,
        of_wax_percent=100 * load / (1 - load),
        status=status,
        classes=classes,
        named=named,
    )


def _events(neat: Mixture, rules: RuleSet) -> Iterator[tuple[Fraction, ClassifiedAs]]:
    """What the candle is at every load that meets a limit, lowest load first."""
    most = _most(neat, rules)
    # Below that load the undisclosed share moves no limit, so a load only scales what the neat oils hold.
    known = replace(neat, unknown_percent=Fraction(0))
    met = (tuple(_met_below(most, ladder)) for ladder in ladders(known, rules) if ladder)
    endpoints = [ladder for ladder in met if ladder]
    naming = tuple(_met_below(most, sensitisers_to_name(known, rules)))
    loads = {one.load for ladder in (*endpoints, naming) for one in ladder}
    for load in sorted(loads):
        yield load, outcome_of((_at(load, each) for each in endpoints), _at(load, naming))


def _most(neat: Mixture, rules: RuleSet) -> Fraction:
    """The load from which undisclosed constituents would be too many, or the whole."""
    if not neat.unknown_percent:
        return _WHOLE
    return min(_WHOLE, rules.limits["unknown acute toxicity counted"].percent / neat.unknown_percent)


class _Met(NamedTuple):
    """The load from which a limit is met, and the limit below and from there on."""

    load: Fraction
    below: Finding
    from_there: Finding


def _met_below(most: Fraction, ladder: Ladder) -> Iterator[_Met]:
    """The limits of a ladder that some load below the greatest one meets."""
    for finding in ladder:
        load = _met_from(finding)
        if load is not None and load < most:
            yield _Met(load, finding._replace(met=False), finding._replace(met=True))


def _met_from(finding: Finding) -> Fraction | None:
    """The least load at which what counts of the neat oils reaches the limit; None where no load does."""
    parts = [part for part in (*finding.counted, *finding.left_out) if part.percent and part.weight]
    counted_from = sorted(((_counted_from(part), part) for part in parts), key=itemgetter(0))
    neat_percent = accumulate(part.percent * part.weight for _, part in counted_from)
    for (load, _), neat, later in zip_longest(counted_from, neat_percent, counted_from[1:]):
        reached = max(load, finding.limit.percent / neat)
        if later is None or reached < later[0]:
            return reached
    return None


def _counted_from(part: Counted) -> Fraction:
    """The load from which a part of the neat oils counts."""
    return part.from_percent / part.percent if part.from_percent else _NOTHING


def _at(load: Fraction, ladder: Iterable[_Met]) -> Ladder:
    """The limits with their state at a load."""
    return tuple(one.from_there if one.load <= load else one.below for one in ladder)
