"""``lots using ID``: every lot that a material, vessel or wick went into, how many candles, and who was sent some."""

from collections.abc import Iterator, Sequence
from typing import Final, TypedDict

from generator.arguments import CommandParser
from generator.ledgers.lot_traces import LotMade, Traced, lots_made, lots_traced
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop
from generator.making.options import CommandOptions
from generator.making.report import Refusal, nearest_ids, refuse, report_faults, say
from generator.model.lots import plain_number
from generator.model.shop import Shop
from generator.reading.lot_book import LOTS
from generator.rules.entries.lot_checks import ids_of_entries

_NOTHING: Final = "no lots were searched"


class Told(TypedDict):
    """One lot for other programs."""

    lot: str
    stock_code: str
    poured_on: str
    made: int
    sheet_revision: int | None
    formula: str
    formula_fingerprint: str | None
    drawn_from: list[str]
    certain: bool
    sent_to: list[str]


def add_arguments(words: CommandParser) -> None:
    """What went into lots, and from which of its supplier's lots."""
    words.add_argument("id_", metavar="ID", help="its file name without the ending")
    words.add_argument("--from", dest="number", metavar="LOT", help="only this supplier's lot")
    words.runs(run)


def run(options: CommandOptions, id_: str, number: str | None) -> int:
    """Exit code 0 when the lots are told, 1 when their book cannot be read, 2 for what nothing has or can be."""
    loaded = load_shop(options)
    faults = loaded.errors_in(LOTS)
    if not isinstance(loaded, LoadedShop) or (faults and not loaded.shop.lots):
        return report_faults(options, faults or loaded.problems, "no lots could be searched")
    shop = loaded.shop
    made = lots_made(shop, {gathered.recorded.stock_code: gathered.recorded for gathered, _ in loaded.facts})
    ids = _ids(shop, made)
    if id_ not in ids:
        what = f"there is no material, vessel or wick '{id_}'"
        unknown = Refusal(what=what, then=_NOTHING, fix=nearest_ids(id_, ids))
        return refuse(unknown, as_json=options.as_data)
    if number is not None and not plain_number(number):
        what, fix = f"'{number}' is not a supplier's lot", "copy it from the package"
        return refuse(Refusal(what=what, then=_NOTHING, fix=fix), as_json=options.as_data)
    found = lots_traced(made, id_, number)
    told = [_told(one, certain=True) for one in found.using]
    told += [_told(one, certain=False) for one in found.perhaps]
    say(_lines(id_, number, found), told, as_json=options.as_data)
    return 0


def _ids(shop: Shop, made: Sequence[LotMade]) -> frozenset[str]:
    """What may be options for: every entry's id, and those that only older formulas still name."""
    return ids_of_entries(shop).union(*(one.ids | one.perhaps for one in made))


def _told(one: LotMade, *, certain: bool) -> Told:
    lot = one.lot
    return Told(
        lot=lot.lot,
        stock_code=lot.stock_code,
        poured_on=lot.poured_on.isoformat(),
        made=lot.made,
        sheet_revision=lot.sheet_revision,
        formula=one.formula,
        formula_fingerprint=lot.formula_fingerprint,
        drawn_from=list(map(str, lot.drawn_from)),
        certain=certain,
        sent_to=list(lot.sent_to),
    )


def _lines(id_: str, number: str | None, found: Traced) -> Iterator[str]:
    """Those that surely hold it, those that may, and how many were made from other suppliers' lots of it."""
    what = f"'{id_}'" if number is None else f"lot {number} of '{id_}'"
    if found.using:
        yield f"{what} is in {_counted(found.using)}:"
    elif not found.perhaps:
        yield f"{what} is in no lot in {LOTS}"
    for one in found.using:
        yield from _lot_lines(one, id_, _formula(one))
    if found.perhaps:
        yield f"{what} may {'also ' if found.using else ''}be in {_counted(found.perhaps)}:"
    for one in found.perhaps:
        yield from _lot_lines(one, id_, _not_drawn(one, id_) if id_ in one.ids else _doubt(one))
    if found.others:
        numbers = dict.fromkeys(number for one in found.others for number in one.numbers(id_))
        yield f"other lots of '{id_}' are in {_counted(found.others)}: {', '.join(numbers)}"


def _counted(some: Sequence[LotMade]) -> str:
    lots = "1 lot" if len(some) == 1 else f"{len(some)} lots"
    return f"{lots}, {sum(one.lot.made for one in some)} candles"


def _lot_lines(one: LotMade, id_: str, formula: str) -> Iterator[str]:
    lot = one.lot
    yield f"    {lot.lot}: {lot.made} of {lot.stock_code}, poured on {lot.poured_on}"
    yield f"        {formula}"
    if one.numbers(id_):
        yield f"        supplier's lot {', '.join(one.numbers(id_))}"
    if lot.sent_to:
        yield f"        sent to {'; '.join(lot.sent_to)}"


def _formula(one: LotMade) -> str:
    revision = one.lot.sheet_revision
    if one.formula == "as poured":
        return f"recipe as poured, {one.lot.formula_fingerprint}"
    if one.formula == "as issued":
        return f"recipe of revision {revision} of its sheet"
    if one.formula == "not known":
        return "by its row in the table; its recipe cannot be read"
    if revision is None:
        return "current recipe, because its row names no sheet revision"
    return f"current recipe, because revision {revision} of its sheet cannot be read"


def _not_drawn(one: LotMade, id_: str) -> str:
    return f"{_formula(one)}; its lot of '{id_}' is not recorded"


def _doubt(one: LotMade) -> str:
    if one.formula == "as issued":
        return f"revision {one.lot.sheet_revision} of its sheet does not contain it, but another recipe does"
    if one.formula == "not known" and one.lot.formula_fingerprint is not None:
        return f"its recipe {one.lot.formula_fingerprint} is missing or has been altered"
    if one.formula == "not known":
        return "no recipe is on record"
    return "the current recipe does not contain it, but an earlier one does"
