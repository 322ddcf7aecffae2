"""``papers file STOCK_CODE``: the maker's file on one candle for an officer, as one private page."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final, Protocol

from generator.documents.frame import frame
from generator.documents.house import SizeOf
from generator.documents.papers.officer_file import makers_file
from generator.ledgers.lot_traces import own_formula
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import ready, unknown_codes, write_papers
from generator.making.load_shop import Known
from generator.making.options import CommandOptions
from generator.making.report import refuse
from generator.model.burn_tests import TestNotes
from generator.model.shop import Shop
from generator.writing.store import Store
from generator.writing.templates import Templates

NOTHING: Final = "no file was written"


class _Noted(Protocol):
    """An entry that may hold the maker's private notes."""

    @property
    def notes(self) -> str | None: ...


def run(asked: CommandOptions, stock_code: str) -> int:
    """Exit code 0 when the file is written, 1 when entries are at fault, 2 for an unknown stock code."""
    shop = ready(asked, Store(asked.output / ".store"), NOTHING)
    if shop is None:
        return AT_FAULT
    if unknown := unknown_codes((stock_code,), shop.sizes, NOTHING):
        return refuse(*unknown, as_json=asked.as_data)
    size = shop.sizes[stock_code]
    risks = tuple(dict.fromkeys(_risks(shop.shop, size, shop.known)))
    own = ((lot.lot, own_formula(shop.shop, lot)) for lot in shop.shop.lots)
    document = makers_file(shop.house, size, risks, {code: formula for code, formula in own if formula})
    page = Templates(shop.presentation.theme).render(document, frame(shop.house))
    note = "it holds the formula, so give it to nobody but an officer who asks for it"
    write_papers(asked, {document.path: page}, note)
    return 0


def _risks(shop: Shop, size: SizeOf, known: Known) -> Iterator[str]:
    """The maker's own notes on all that the candle is, and every warning that stands against any of it today."""
    entries = tuple(_entries_of(shop, size))
    yield from (entry.notes for _, entry in entries if entry.notes)
    # An entry and the table that belongs to it differ in the ending of the file's name alone.
    shown = {known.places.shown(name) for name, _ in entries}
    for problem in known.problems:
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
    yield f"vessels/{build.vessel.id}", shop.vessels[build.vessel.id]
    yield from ((f"wicks/{use.wick.id}", shop.wicks[use.wick.id]) for use in build.wicks)
    kinds: tuple[tuple[str, Iterable[str], Mapping[str, _Noted]], ...] = (
        ("waxes", (one.material.id for one in build.formula.waxes), shop.waxes),
        ("fragrances", (one.material.id for one in build.formula.fragrances), shop.fragrances),
        ("additives", (one.material.id for one in build.formula.additives), shop.additives),
        ("dyes", (one.material.id for one in build.formula.dyes), shop.dyes),
    )
    for folder, ids, entries in kinds:
        yield from ((f"{folder}/{id_}", entries[id_]) for id_ in ids)
