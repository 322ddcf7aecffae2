"""``lots using ID``: every lot that a material, vessel or wick went into, how many candles, and who was sent some."""

from collections.abc import Sequence
from typing import Final, TypedDict

from generator.commands.lots_told import lots_told
from generator.ledgers.lot_traces import LotMade, lots_made, traced
from generator.making.exit_codes import AT_FAULT
from generator.making.load_shop import know
from generator.making.options import CommandOptions
from generator.making.report import Refusal, nearest_ids, refuse, say, tell
from generator.model.lots import plain_number
from generator.model.shop import Shop
from generator.problems import is_error
from generator.reading.lot_book import LOTS
from generator.writing.store import Store

NOTHING: Final = "no lot was looked at"


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


def run(asked: CommandOptions, id_: str, number: str | None) -> int:
    """Exit code 0 when the lots are told, 1 when their book cannot be read, 2 for what nothing has or can be."""
    known = know(asked, Store(asked.output / ".store"))
    shop, book = known.shop, known.places.shown(LOTS)
    faults = [problem for problem in known.problems if is_error(problem) and problem.place.file == book]
    if shop is None or (faults and not shop.lots):
        tell(faults or known.problems, as_json=asked.as_data, then="no lot could be looked at")
        return AT_FAULT
    made = lots_made(shop, {gathered.recorded.stock_code: gathered.recorded for gathered, _ in known.facts})
    ids = _ids(shop, made)
    if id_ not in ids:
        what = f"there is no material, vessel or wick '{id_}'"
        unknown = Refusal(what=what, then=NOTHING, write=nearest_ids(id_, ids))
        return refuse(unknown, as_json=asked.as_data)
    if number is not None and not plain_number(number):
        what, write = f"'{number}' cannot be a supplier's lot", "write the letters and digits on the package"
        return refuse(Refusal(what=what, then=NOTHING, write=write), as_json=asked.as_data)
    found = traced(made, id_, number)
    told = [_told(one, certain=True) for one in found.using]
    told += [_told(one, certain=False) for one in found.perhaps]
    say(lots_told(id_, number, found), told, as_json=asked.as_data)
    return 0


def _ids(shop: Shop, made: Sequence[LotMade]) -> frozenset[str]:
    """What may be asked for: every entry's id, and those that only older formulas still name."""
    entries = (shop.waxes, shop.fragrances, shop.additives, shop.dyes, shop.vessels, shop.wicks)
    return frozenset(id_ for some in entries for id_ in some).union(*(one.ids | one.perhaps for one in made))


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
