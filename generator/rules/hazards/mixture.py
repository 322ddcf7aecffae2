"""The finished candle as a mixture: every constituent with its exact share, added up across all oils."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cache
from math import lcm
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.model.markets import law_of
from generator.model.materials import Constituent, Wax
from generator.model.recorded import Role
from generator.model.sheet_values import Ate, Dose, MFactors, SpecificLimit
from generator.rules.wax.portions import Ingredient

ASPIRATION_C: Final = 40.0
"""Temperature at which a liquid's viscosity counts for aspiration, degC (CLP Annex I 3.10.3.3.1, FOUND)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Present:
    """One substance in the candle. ``most_percent`` adds what one step of the scale could move."""

    name: str
    cas: str | None
    percent: Fraction
    most_percent: Fraction
    hazards: tuple[HazardClass, ...]
    limits: tuple[SpecificLimit, ...]
    m_acute: int | None
    m_chronic: int | None
    doses: Mapping[str, Dose]

    def is_(self, name: str) -> bool:
        """Whether its sheet gives it this class."""
        return any(hazard.name == name for hazard in self.hazards)

    def own_limit(self, *names: str) -> Fraction | None:
        """Its specific limit for any of these classes, the lowest if there are several."""
        if not self.limits:
            return None
        own = [Fraction(limit.from_percent) for limit in self.limits if limit.hazard.name in names]
        return min(own, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixture:
    """The candle without its wick and vessel.

    ``by_no_law`` are the ingredients whose sheet is written for a market that has no law of hazard labels, with it.
    """

    substances: tuple[Present, ...]
    by_class: Mapping[str, tuple[Present, ...]]
    unknown_percent: Fraction
    without_sheet: tuple[str, ...]
    taken_for_harmless: tuple[str, ...]
    sheets: tuple[tuple[str, date | None], ...]
    by_no_law: tuple[tuple[str, str], ...]
    liquid_at_40_c: bool

    def having(self, *names: str) -> tuple[Present, ...]:
        """The substances of any of these classes, each once."""
        present = [name for name in names if name in self.by_class]
        if len(present) < 2:
            return self.by_class[present[0]] if present else ()
        found = {id(s): s for name in present for s in self.by_class[name]}
        return tuple(found.values())


def reaches(share: Fraction | int, limit: Fraction | int) -> bool:
    """Whether a share is at least so much; whole numbers compare several times as fast as fractions do."""
    return share.numerator * limit.denominator >= limit.numerator * share.denominator


def weighted_sum(terms: Iterable[tuple[Fraction, Fraction | int]], whole: int = 1) -> Fraction:
    """The exact sum of shares times their weights over a whole, reduced once: Fractions reduce at every step."""
    numerator, denominator = 0, 1
    for share, weight in terms:
        part = share.denominator * weight.denominator
        numerator = numerator * part + share.numerator * weight.numerator * denominator
        denominator *= part
    return Fraction(numerator, denominator * whole)


def composition(ingredient: Ingredient) -> tuple[Constituent, ...] | None:
    """Its composition by its safety data sheet, None where none was recorded.

    A fragrance is then unknown, a wax known and harmless, and an additive or a dye assumed harmless, which is
    stated (PRACTICE).
    """
    written = None if isinstance(ingredient.material, Wax) else ingredient.material.composition
    # The reader has replaced a table's file name with its rows.
    return written if isinstance(written, tuple) else None


def _undisclosed_percent(ingredient: Ingredient) -> Fraction:
    material = ingredient.material
    return Fraction(0 if isinstance(material, Wax) else material.undisclosed_percent or 0)


def _is_liquid_at_40_c(ingredient: Ingredient) -> bool:
    material = ingredient.material
    return (
        isinstance(material, Wax) and material.melts_at_c is not None and material.melts_at_c <= ASPIRATION_C
    )


def _sheets(ingredients: Iterable[Ingredient]) -> Iterator[tuple[str, date | None]]:
    for ingredient in ingredients:
        if not isinstance(ingredient.material, Wax) and composition(ingredient) is not None:
            yield ingredient.id, ingredient.material.sheet_dated


def _by_no_law(ingredients: Iterable[Ingredient]) -> Iterator[tuple[str, str]]:
    for ingredient in ingredients:
        market = None if isinstance(ingredient.material, Wax) else ingredient.material.sheet_for
        if market is not None and law_of(market) is None:
            yield ingredient.id, market


@dataclass(frozen=True, slots=True)
class _Line:
    """One line of a sheet: its ingredient, its content, and the share it counts with."""

    ingredient: int
    constituent: Constituent
    share: Fraction
    numbers: tuple[str, ...]


class _Scale:
    """Weights of a batch in whole units, and how far one step of the scale per ingredient could move a share."""

    def __init__(self, grams: Sequence[Fraction], step_g: Decimal) -> None:
        step = Fraction(step_g)
        per_g = lcm(step.denominator, *(g.denominator for g in grams))
        self.step = int(step * per_g)
        self.weights = [g.numerator * (per_g // g.denominator) for g in grams]
        self.total = sum(self.weights)
        if self.total <= 0:
            raise ValueError("a batch without weight has no shares")
        self._moved: dict[frozenset[int], list[int]] = {}

    def percent(self, held: Mapping[int, Fraction]) -> Fraction:
        """Share of the batch, given the percentage in each ingredient."""
        return _shared_out(held, self.weights, self.total)

    def most_percent(self, held: Mapping[int, Fraction], percent: Fraction) -> Fraction:
        """The same with richer ingredients a step heavier and all others a step lighter."""
        if not self.step:
            return percent
        weights = self._one_step(frozenset(at for at, share in held.items() if not reaches(percent, share)))
        return _shared_out(held, weights, sum(weights))

    def _one_step(self, richer: frozenset[int]) -> list[int]:
        """The weights of the ingredients, those a step heavier and the others a step lighter."""
        if richer not in self._moved:
            self._moved[richer] = [
                weight + self.step if at in richer else max(weight - self.step, 0)
                for at, weight in enumerate(self.weights)
            ]
        return self._moved[richer]


def _shared_out(held: Mapping[int, Fraction], weights: Sequence[int], total: int) -> Fraction:
    return weighted_sum(((percent, weights[at]) for at, percent in held.items()), total)


def mixture(ingredients: Sequence[Ingredient], scale_step_g: Decimal = Decimal(0)) -> Mixture:
    """What the candle is made of, nothing rounded.

    A range counts as its upper end (PRACTICE; FOUND in a Czech guidance example).
    """
    used = [ingredient for ingredient in ingredients if ingredient.exact_g > 0]
    scale = _Scale([ingredient.exact_g for ingredient in used], scale_step_g)
    lines = [
        _Line(at, constituent, _exact(constituent.share.high_percent), _numbers(constituent))
        for at, ingredient in enumerate(used)
        for constituent in composition(ingredient) or ()
    ]
    substances = sorted((_present(group, scale) for group in _same_substance(lines)), key=_by_share)
    undisclosed = {at: _undisclosed_percent(i) for at, i in enumerate(used)}
    blank = [i for i in used if composition(i) is None]
    return Mixture(
        substances=tuple(substances),
        by_class=by_class(substances),
        unknown_percent=scale.percent(undisclosed),
        without_sheet=tuple(sorted(i.id for i in blank if i.role is Role.FRAGRANCE)),
        taken_for_harmless=tuple(sorted(i.id for i in blank if i.role in (Role.ADDITIVE, Role.DYE))),
        sheets=tuple(sorted(_sheets(used))),
        by_no_law=tuple(sorted(_by_no_law(used))),
        liquid_at_40_c=any(map(_is_liquid_at_40_c, used)),
    )


def _by_share(substance: Present) -> tuple[float, str, str]:
    return -float(substance.percent), substance.name, substance.cas or ""


def by_class(substances: Iterable[Present]) -> dict[str, tuple[Present, ...]]:
    """The substances of each class, by the class's name."""
    found: dict[str, list[Present]] = {}
    for substance in substances:
        for name in dict.fromkeys(hazard.name for hazard in substance.hazards):
            found.setdefault(name, []).append(substance)
    return {name: tuple(held) for name, held in found.items()}


@cache
def _exact(percent: Decimal) -> Fraction:
    """Remembered, since sheets repeat a few round shares and every candle reads them again."""
    return Fraction(percent)


def _same_substance(lines: Iterable[_Line]) -> Iterable[list[_Line]]:
    """Lines of one substance together: by CAS number, else by EC number, else by name."""
    groups: dict[str, list[_Line]] = {}
    alias: dict[str, str] = {}
    for line in sorted(lines, key=_most_numbers_first):
        found = (alias[number] for number in line.numbers if number in alias)
        known = line.constituent.cas or next(found, line.numbers[0])
        groups.setdefault(known, []).append(line)
        for number in line.numbers:
            alias.setdefault(number, known)
    return groups.values()


def _numbers(constituent: Constituent) -> tuple[str, ...]:
    names = (constituent.cas, constituent.ec, constituent.substance.casefold())
    return tuple(name for name in names if name is not None)


def _most_numbers_first(line: _Line) -> tuple[bool, bool, tuple[str, ...]]:
    return line.constituent.cas is None, line.constituent.ec is None, line.numbers


def _present(lines: Sequence[_Line], scale: _Scale) -> Present:
    """One substance, with its share of the batch."""
    held: dict[int, Fraction] = {}
    for line in lines:
        before = held.get(line.ingredient)
        held[line.ingredient] = line.share if before is None else before + line.share
    percent = scale.percent(held)
    said = lines[0].constituent if len(lines) == 1 else _strictest([line.constituent for line in lines])
    return Present(
        name=said.substance,
        cas=said.cas,
        percent=percent,
        most_percent=scale.most_percent(held, percent),
        hazards=said.hazards,
        limits=said.limits,
        m_acute=said.m.acute if said.m else None,
        m_chronic=said.m.chronic if said.m else None,
        doses=_doses([line.constituent.ate for line in lines if line.constituent.ate]),
    )


def _strictest(said: Sequence[Constituent]) -> Constituent:
    """What several sheets say of one substance: every class counts, with the stricter numbers, in one order."""
    return replace(
        said[0],
        substance=min(c.substance for c in said),
        cas=min((c.cas for c in said if c.cas), default=None),
        hazards=tuple(sorted({hazard for c in said for hazard in c.hazards})),
        limits=tuple(limit for c in said for limit in c.limits),
        m=MFactors(
            acute=max((c.m.acute for c in said if c.m and c.m.acute), default=None),
            chronic=max((c.m.chronic for c in said if c.m and c.m.chronic), default=None),
        ),
    )


def _doses(estimates: Iterable[Ate]) -> dict[str, Dose]:
    """The lowest dose by each route."""
    doses: dict[str, Dose] = {}
    for ate in estimates:
        for route, dose in (
            ("oral", ate.oral_mg_per_kg),
            ("dermal", ate.dermal_mg_per_kg),
            ("gas", ate.gas_ppm),
            ("vapour", ate.vapour_mg_per_l),
            ("dust", ate.dust_mg_per_l),
        ):
            if dose is not None and (route not in doses or dose.value < doses[route].value):
                doses[route] = dose
    return doses
