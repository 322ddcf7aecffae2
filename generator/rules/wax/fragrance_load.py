"""How much fragrance there is, on the wax and on the total, and how much the wax and its supplier allow."""

from collections.abc import Iterator, Mapping
from decimal import ROUND_FLOOR, Context, Decimal
from fractions import Fraction
from typing import Final

from generator.model.amounts import Basis, Share
from generator.model.recorded import Formula
from generator.problems import Fault
from generator.rules.calculation import Calculation

_PERCENT: Final = Context(prec=20)
_MIXED_BASIS: Final = Basis.OF_WAX
_HUNDREDTH: Final = Decimal("0.01")
_ROOM: Final = Context(prec=60)


def share(part: str, part_g: Decimal, whole: str, whole_g: Decimal) -> Calculation:
    """What a part is of the whole, in percent; ``part`` and ``whole`` are what they are called in the formula.

    s = 100 part / whole

    part_g: g.
    whole_g: g.
    Holds for a whole above 0.
    Source: the definition of a percentage (COMPUTED).

    >>> share("oil_g", Decimal(30), "total_g", Decimal(1000)).value
    3.0
    """
    return Calculation(f"100 * {part} / {whole}", {part: Fraction(part_g), whole: Fraction(whole_g)})


def share_percent(part_g: Decimal, whole_g: Decimal) -> Decimal:
    """`share` to 20 digits, so that it comes back exactly as it was written.

    >>> share_percent(Decimal(30) / Decimal("0.97"), Decimal(1000) / Decimal("0.97")) == Decimal(3)
    True
    """
    exact = Fraction(share("part_g", part_g, "whole_g", whole_g).exact)
    return _PERCENT.divide(Decimal(exact.numerator), Decimal(exact.denominator))


def load_faults(formula: Formula, grams: Mapping[str, Decimal]) -> Iterator[Fault]:
    """More fragrance than the waxes take, or than a fragrance's certificate allows; exactly at a limit is allowed."""
    yield from _over_the_wax(formula, grams)
    yield from _over_the_certificate(formula, grams)


def _over_the_wax(formula: Formula, grams: Mapping[str, Decimal]) -> Iterator[Fault]:
    """Each wax takes its own share of fragrance; nothing is said where one of them records no limit."""
    fragrances = [portion.material.id for portion in formula.fragrances]
    limits = {portion.material.id: portion.material.most_fragrance for portion in formula.waxes}
    known = {id_: limit for id_, limit in limits.items() if limit is not None}
    if not fragrances or len(known) < len(limits):
        return
    bases = {limit.basis for limit in known.values()}
    basis = bases.pop() if len(bases) == 1 else _MIXED_BASIS
    whole_g = _whole_g(basis, formula, grams)
    taken_g = sum((_taken_g(id_, limit, formula, grams) for id_, limit in known.items()), start=Decimal())
    most = share_percent(taken_g, whole_g)
    load = share_percent(sum((grams[id_] for id_ in fragrances), start=Decimal()), whole_g)
    if load > most:
        heaviest = max(fragrances, key=lambda id_: grams[id_])
        together, verb = ("", "is") if len(fragrances) == 1 else (" together", "are")
        yield Fault(
            path=("formula", heaviest),
            what=f"{' and '.join(fragrances)}{together} {verb} {float(load):.6g} % {basis.value}, "
            f"more than the {float(most):.6g} % {basis.value} that {' and '.join(known)} can hold",
            why="oil beyond that sweats out of the wax and can flare",
            write=f"{heaviest}: at most {_floored(most)} % {basis.value}{together}",
        )


def _over_the_certificate(formula: Formula, grams: Mapping[str, Decimal]) -> Iterator[Fault]:
    for portion in formula.fragrances:
        id_, most = portion.material.id, portion.material.ifra_category_12
        if not isinstance(most, Share):
            continue
        load = share_percent(grams[id_], _whole_g(most.basis, formula, grams))
        if load > most.percent:
            basis = most.basis.value
            yield Fault(
                path=("formula", id_),
                what=f"{id_} is {float(load):.6g} % {basis}, "
                f"more than the {most.percent} % {basis} of its IFRA certificate for category 12",
                why="the supplier vouches for the oil in a candle only up to that share",
                write=f"{id_}: at most {most.percent} % {basis}",
            )


def _taken_g(id_: str, limit: Share, formula: Formula, grams: Mapping[str, Decimal]) -> Decimal:
    """What one wax can hold: its share of its own weight, or of the part of the total that it stands for."""
    wax_g = _whole_g(Basis.OF_WAX, formula, grams)
    return limit.percent / 100 * grams[id_] * _whole_g(limit.basis, formula, grams) / wax_g


def _whole_g(basis: Basis, formula: Formula, grams: Mapping[str, Decimal]) -> Decimal:
    waxes = (portion.material.id for portion in formula.waxes)
    counted = waxes if basis is Basis.OF_WAX else grams
    return sum((grams[id_] for id_ in counted), start=Decimal())


def _floored(percent: Decimal) -> str:
    """Two places at most, never above: pasted back, it must lie within the limit."""
    return f"{percent.quantize(_HUNDREDTH, rounding=ROUND_FLOOR, context=_ROOM).normalize(_ROOM):f}"
