"""Which lots a material, a vessel or a wick went into, for the day on which its supplier calls it back."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from generator.model.ledger import Plain
from generator.model.lots import Lot
from generator.model.recorded import Recorded
from generator.model.shop import Shop
from generator.revisions.record import record_of

Formula = Literal["as issued", "present", "not known"]
"""Whose formula was looked at: the one recorded with the lot's sheet, today's, or none, since there is none left."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotMade:
    """A lot, the formula it is taken to be made by, and every id that stands in that.

    ``perhaps`` are ids that only a neighbouring formula holds: a sheet stays in force until the next one is issued,
    whatever is stirred into the kettle meanwhile.
    """

    lot: Lot
    formula: Formula
    ids: frozenset[str]
    perhaps: frozenset[str] = frozenset()


def lots_made(shop: Shop, present: Mapping[str, Recorded]) -> tuple[LotMade, ...]:
    """Every lot with what went into it; ``present`` are today's records by stock code."""
    today = {code: ids_in(record_of(recorded)) for code, recorded in present.items()}
    issued = {
        (code, one.revision): ids_in(one.record)
        for code, ledger in shop.ledgers.items()
        for one in ledger.revisions
    }
    return tuple(_made(lot, issued, today) for lot in shop.lots)


def ids_in(record: Mapping[str, Plain]) -> frozenset[str]:
    """The ids of the vessel, the wicks and every material in a private record."""
    return frozenset(_ids(_part(record, "build")))


def _made(
    lot: Lot, issued: Mapping[tuple[str, int], frozenset[str]], today: Mapping[str, frozenset[str]]
) -> LotMade:
    code, revision, present = lot.stock_code, lot.sheet_revision, today.get(lot.stock_code)
    if revision is not None and (code, revision) in issued:
        ids, nothing = issued[code, revision], frozenset[str]()
        following = issued.get((code, revision + 1), present or nothing)
        return LotMade(lot=lot, formula="as issued", ids=ids, perhaps=following - ids)
    if present is not None:
        recorded = frozenset[str]().union(*(ids for (of, _), ids in issued.items() if of == code))
        return LotMade(lot=lot, formula="present", ids=present, perhaps=recorded - present)
    return LotMade(lot=lot, formula="not known", ids=frozenset())


def _ids(build: Mapping[str, Plain]) -> Iterator[str]:
    vessel = _part(build, "vessel").get("id")
    if isinstance(vessel, str):
        yield vessel
    yield from _part(build, "wicks")
    for group in _part(build, "formula").values():
        if isinstance(group, Mapping):
            yield from group


def _part(whole: Mapping[str, Plain], key: str) -> Mapping[str, Plain]:
    part = whole.get(key)
    return part if isinstance(part, Mapping) else {}
