"""What the maker's file on one candle holds besides its figures: notes and warnings on all that it is made of."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol

from generator.document import Document
from generator.documents.house import SizeOf
from generator.documents.papers.officer_file import makers_file
from generator.ledgers.lot_traces import own_formula
from generator.making.loaded_shop import LoadedShop, SoundShop
from generator.model.burn_tests import TestNotes
from generator.model.shop import Shop


class _Noted(Protocol):
    """An entry that may hold the maker's private notes."""

    @property
    def notes(self) -> str | None: ...


def makers_file_of(shop: SoundShop, size: SizeOf) -> Document:
    """The file on one stock code, with the maker's notes and all warnings on what it is made of."""
    risks = tuple(dict.fromkeys(_risks(shop.shop, size, shop.loaded)))
    own = ((lot.lot, own_formula(shop.shop, lot)) for lot in shop.shop.lots)
    return makers_file(shop.house, size, risks, {code: formula for code, formula in own if formula})


def _risks(shop: Shop, size: SizeOf, loaded: LoadedShop) -> Iterator[str]:
    """The maker's own notes on all that the candle is, and every warning that stands against any of it today."""
    entries = tuple(_entries_of(shop, size))
    yield from (entry.notes for _, entry in entries if entry.notes)
    # An entry and the table that belongs to it differ in the ending of the file's name alone.
    shown = {loaded.places.shown(name) for name, _ in entries}
    for problem in loaded.problems:
        if problem.place.file.rpartition(".")[0] in shown:
            accepted = f" ({problem.accepted})" if problem.accepted else ""
            yield f"{problem.what}: {problem.why}{accepted}"


def _entries_of(shop: Shop, size: SizeOf) -> Iterator[tuple[str, _Noted]]:
    """Every entry that has a say in the candle, by its file's name without the ending."""
    candle, code, build = shop.candles[size.recorded.candle], size.facts.stock_code, size.recorded.build
    entry = next(one for one in candle.sizes if one.stock_code == code)
    yield f"candles/{candle.id}", candle
    yield f"candles/{candle.id}", entry
    if entry.format is not None:
        yield f"formats/{entry.format}", shop.formats[entry.format]
    tested = {test.file for test in size.recorded.tests}
    for test in shop.burn_tests.values():
        if test.file in tested:
            yield test.file.rpartition(".")[0], test.notes or TestNotes()
    yield f"vessels/{build.shape.id}", shop.vessels[build.shape.id]
    yield from ((f"wicks/{use.wick.id}", shop.wicks[use.wick.id]) for use in build.wicks)
    kinds: tuple[tuple[str, Iterable[str], Mapping[str, _Noted]], ...] = (
        ("waxes", (one.material.id for one in build.formula.waxes), shop.waxes),
        ("fragrances", (one.material.id for one in build.formula.fragrances), shop.fragrances),
        ("additives", (one.material.id for one in build.formula.additives), shop.additives),
        ("dyes", (one.material.id for one in build.formula.dyes), shop.dyes),
    )
    for folder, ids, entries in kinds:
        yield from ((f"{folder}/{id_}", entries[id_]) for id_ in ids)
