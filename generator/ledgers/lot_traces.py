"""Which lots a material, a vessel or a wick went into, in case its supplier recalls it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from generator.ledgers.record import record_of
from generator.model.lots import Lot, PouredFormula, ids_in, plain_number
from generator.model.recorded import Recorded
from generator.model.shop import Shop

_Formula = Literal["as poured", "as issued", "present", "not known"]
"""Which formula was examined: the lot's own, the one recorded with its sheet, today's, or none, if none is left."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotMade:
    """A lot, the formula it is assumed to be made by, and every id in it.

    ``perhaps`` are ids found only in a neighbouring formula, or in one poured for another lot: a sheet stays in force
    until the next one is issued, whatever is poured meanwhile. A lot with its own formula has none.
    """

    lot: Lot
    formula: _Formula
    ids: frozenset[str]
    perhaps: frozenset[str] = frozenset()

    def numbers(self, id_: str) -> tuple[str, ...]:
        """The suppliers' lots recorded for it."""
        return tuple(drawn.number for drawn in self.lot.drawn_from if drawn.id == id_)


@dataclass(frozen=True, slots=True, kw_only=True)
class Traced:
    """The lots that something went into, those it may have gone into, and those made from other supplier lots."""

    using: Sequence[LotMade]
    perhaps: Sequence[LotMade]
    others: Sequence[LotMade] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """The ids in every formula: issued ones by stock code and revision, today's and poured ones by stock code."""

    issued: Mapping[tuple[str, int], frozenset[str]]
    today: Mapping[str, frozenset[str]]
    poured: Mapping[str, frozenset[str]]


def lots_traced(made: Sequence[LotMade], id_: str, number: str | None) -> Traced:
    """The lots something went into; ``number`` restricts it to one of its supplier's lots."""
    using = [one for one in made if id_ in one.ids]
    perhaps = [
        one for one in made if id_ not in one.ids and (id_ in one.perhaps or one.formula == "not known")
    ]
    if number is None:
        return Traced(using=using, perhaps=perhaps)
    wanted = plain_number(number)
    said = [(one, {plain_number(drawn) for drawn in one.numbers(id_)}) for one in (*using, *perhaps)]
    return Traced(
        using=[one for one, numbers in said if wanted in numbers],
        perhaps=[one for one, numbers in said if not numbers],
        others=[one for one, numbers in said if numbers and wanted not in numbers],
    )


def lots_made(shop: Shop, present: Mapping[str, Recorded]) -> tuple[LotMade, ...]:
    """Every lot with what went into it; ``present`` are today's records by stock code."""
    today = {code: ids_in(record_of(recorded)) for code, recorded in present.items()}
    issued = {
        (code, one.revision): ids_in(one.record)
        for code, ledger in shop.ledgers.items()
        for one in ledger.revisions
    }
    kept: dict[str, frozenset[str]] = {}
    for formula in shop.poured.values():
        kept[formula.stock_code] = kept.get(formula.stock_code, frozenset()) | formula.ids
    known = _Known(issued=issued, today=today, poured=kept)
    made = (_made(lot, own_formula(shop, lot), known) for lot in shop.lots)
    return tuple(_with_named(one) for one in made)


def own_formula(shop: Shop, lot: Lot) -> PouredFormula | None:
    """The formula recorded when a lot was poured; None where there is none, or none that can be trusted."""
    formula = shop.poured.get(lot.formula_fingerprint or "")
    if formula is None or formula.true_name != formula.name or formula.stock_code != lot.stock_code:
        return None
    return formula


def _with_named(one: LotMade) -> LotMade:
    """A material with a recorded supplier's lot went in, whatever the formula says."""
    named = frozenset(drawn.id for drawn in one.lot.drawn_from)
    return replace(one, ids=one.ids | named, perhaps=one.perhaps - named)


def _made(lot: Lot, own: PouredFormula | None, known: _Known) -> LotMade:
    nothing = frozenset[str]()
    if lot.formula_fingerprint is not None:
        # A lost or edited record is no reason to assign the lot to another formula.
        return LotMade(lot=lot, formula="as poured" if own else "not known", ids=own.ids if own else nothing)
    code, revision, present = lot.stock_code, lot.sheet_revision, known.today.get(lot.stock_code)
    poured = known.poured.get(code, nothing)
    if revision is not None and (code, revision) in known.issued:
        ids = known.issued[code, revision]
        following = known.issued.get((code, revision + 1), present or nothing)
        return LotMade(lot=lot, formula="as issued", ids=ids, perhaps=(following | poured) - ids)
    if present is not None:
        recorded = poured.union(*(ids for (of, _), ids in known.issued.items() if of == code))
        return LotMade(lot=lot, formula="present", ids=present, perhaps=recorded - present)
    return LotMade(lot=lot, formula="not known", ids=nothing)
