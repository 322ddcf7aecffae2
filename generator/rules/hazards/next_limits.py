"""The loads at which a fragrance changes the label of a candle, solved exactly."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate, groupby
from operator import attrgetter, itemgetter
from typing import Final, NamedTuple

from generator.model.burn_safety import HazardStatus
from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.classify import classes_of, is_known, ladders, status_of
from generator.rules.hazards.findings import Counted, Finding, Ladder, substance_names
from generator.rules.hazards.mixture import Mixture, mixture, reaches
from generator.rules.hazards.ruleset import RuleSet
from generator.rules.hazards.sensitisers import sensitisers_to_name
from generator.rules.wax.portions import Ingredient

_WHOLE: Final = Fraction(1)
"""The load of neat oils: loads are shares of the total until they are given in percent."""

_NOTHING: Final = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelChange:
    """The candle's result from this load on."""

    of_total_percent: Fraction
    of_wax_percent: Fraction
    status: HazardStatus
    classes: tuple[HazardClass, ...]
    named: tuple[str, ...]


def label_changes(fragrances: Sequence[Ingredient], rules: RuleSet) -> tuple[LabelChange, ...] | None:
    """Every change of classes or named sensitisers as the load in plain wax rises from nothing.

    Several oils keep their proportions. Every sum of the law grows with the load: each limit is met from one
    load on, which one division gives. None where a sheet is missing or too old; ends where undisclosed
    constituents would become too many.
    """
    neat = mixture(fragrances)
    if not is_known(neat, rules):
        return None
    changes: list[LabelChange] = []
    last: _Told = ("none", (), ())
    for load, told in _events(neat, rules):
        if told != last:
            changes.append(_change(load, told))
        last = told
    return tuple(changes)


_Told = tuple[HazardStatus, tuple[HazardClass, ...], tuple[str, ...]]


def _change(load: Fraction, told: _Told) -> LabelChange:
    status, classes, named = told
    part, whole = load.as_integer_ratio()
    return LabelChange(
        of_total_percent=Fraction(100 * part, whole),
        of_wax_percent=Fraction(100 * part, whole - part),
        status=status,
        classes=classes,
        named=named,
    )


def _events(neat: Mixture, rules: RuleSet) -> Iterator[tuple[Fraction, _Told]]:
    """The candle's result at every load that meets a limit, lowest load first."""
    most = _most(neat, rules)
    # Below that load the undisclosed share moves no limit, so a load only scales what the neat oils hold.
    known = replace(neat, unknown_percent=Fraction(0))
    endpoints = (*ladders(known, rules), sensitisers_to_name(known, rules))
    naming = len(endpoints) - 1
    severest: dict[int, _Met] = {}
    named: list[Finding] = []
    for load, met in groupby(sorted(_met_below(most, endpoints), key=_in_order), key=attrgetter("load")):
        for one in met:
            if one.endpoint == naming:
                named.append(one.finding)
            elif one.endpoint not in severest or one.place < severest[one.endpoint].place:
                severest[one.endpoint] = one
        classes = classes_of(one.finding.outcome for one in severest.values())
        yield load, (status_of(classes), classes, substance_names(named))


def _most(neat: Mixture, rules: RuleSet) -> Fraction:
    """The load from which undisclosed constituents would be too many, or the whole."""
    if not neat.unknown_percent:
        return _WHOLE
    return min(_WHOLE, rules.limits["unknown acute toxicity counted"].percent / neat.unknown_percent)


class _Met(NamedTuple):
    """The load from which a limit is met, the number of its endpoint, and its place there; the severest is first."""

    load: Fraction
    endpoint: int
    place: int
    finding: Finding


def _in_order(met: _Met) -> tuple[float, Fraction]:
    """By the load: floats are in the same order as fractions but for those that are equal, and quicker to compare."""
    return float(met.load), met.load


def _met_below(most: Fraction, endpoints: Iterable[Ladder]) -> Iterator[_Met]:
    """The limits that some load below the greatest one meets."""
    for endpoint, ladder in enumerate(endpoints):
        for place, finding in enumerate(ladder):
            # What the neat oils do not meet, no lower load meets.
            if finding.met and not reaches(load := _met_from(finding), most):
                yield _Met(load, endpoint, place, finding)


def _met_from(finding: Finding) -> Fraction:
    """The least load at which the limit is met; the neat oils do meet it."""
    parts = [(_counted_from(part), part) for part in finding.counted if part.percent and part.weight]
    parts.sort(key=itemgetter(0))
    neat_percent = accumulate(part.weighed_percent for _, part in parts)
    # From where its last part counts, as many parts reach the limit together as soon as they make it up.
    return min(
        max(load, finding.limit.percent / neat) for (load, _), neat in zip(parts, neat_percent, strict=True)
    )


def _counted_from(part: Counted) -> Fraction:
    """The load from which a part of the neat oils counts."""
    return part.from_percent / part.percent if part.from_percent else _NOTHING
