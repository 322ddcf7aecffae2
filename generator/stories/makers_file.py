"""``papers file STOCK_CODE``: the maker's file on one candle for an officer, as one private page."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol

from generator.documents.frame import frame
from generator.documents.house import SizeOf
from generator.documents.makers_file import makers_file
from generator.model.burn_test import TestNotes
from generator.model.shop import Shop
from generator.problems import Problem, is_error
from generator.revisions.lots_using import own_formula
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT, WRONG_USE
from generator.stories.one_writer import alone_in_output
from generator.stories.papers import house_of
from generator.stories.setting import Setting, setting_of
from generator.stories.shop import Known, know
from generator.stories.telling import nearest_codes, tell
from generator.stories.verify import NO_PHOTOS
from generator.writing.store import Store
from generator.writing.templates import Templates
from generator.writing.whole_files import replace_file


class _Noted(Protocol):
    """An entry that may hold the maker's private notes."""

    @property
    def notes(self) -> str | None: ...


def run(asked: Asked, stock_code: str) -> int:
    """Exit code 0 when the file is written, 1 when entries are at fault, 2 for an unknown stock code."""
    known = know(asked, Store(asked.output / ".store"))
    errors = [problem for problem in known.problems if is_error(problem)]
    setting = setting_of(asked.content, known.shop, known.places) if known.shop else None
    if isinstance(setting, Problem):
        errors.append(setting)
    if known.shop is None or errors or not isinstance(setting, Setting):
        tell(errors, as_json=asked.as_data, then="no file was written")
        return AT_FAULT
    house = house_of(known.shop, known, NO_PHOTOS, setting.speeches)
    sizes = {size.facts.stock_code: size for scent in house.scents for size in scent.sizes}
    size = sizes.get(stock_code)
    if size is None:
        print(f"there is no stock code '{stock_code}'; {nearest_codes(stock_code, sizes)}")
        return WRONG_USE
    risks = tuple(dict.fromkeys(_risks(known.shop, size, known)))
    own = ((lot.lot, own_formula(known.shop, lot)) for lot in known.shop.lots)
    document = makers_file(house, size, risks, {code: formula for code, formula in own if formula})
    path = asked.output / document.path
    with alone_in_output(asked.output, "papers file"):
        path.parent.mkdir(parents=True, exist_ok=True)
        replace_file(path, Templates(setting.theme).render(document, frame(house)))
    print(
        f"wrote {path.as_posix()}; it holds the formula, so give it to nobody but an officer who asks for it"
    )
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
