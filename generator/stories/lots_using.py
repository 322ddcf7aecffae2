"""``lots using ID``: every lot that a material, vessel or wick went into, how many candles, and who was sent some."""

from collections.abc import Iterator, Sequence
from typing import TypedDict

from generator.model.shop import Shop
from generator.problems import is_error
from generator.reading.lots import LOTS
from generator.revisions.lots_using import LotMade, lots_made
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT
from generator.stories.shop import know
from generator.stories.telling import Refusal, nearest_ids, refuse, say, tell
from generator.writing.store import Store


class Told(TypedDict):
    """One lot for other programs."""

    lot: str
    stock_code: str
    poured_on: str
    made: int
    sheet_revision: int | None
    formula: str
    certain: bool
    sent_to: list[str]


def run(asked: Asked, id_: str) -> int:
    """Exit code 0 when the lots are told, 1 when their book cannot be read, 2 for an id that nothing has."""
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
        unknown = Refusal(what=what, then="no lot was looked at", write=nearest_ids(id_, ids))
        return refuse(unknown, as_json=asked.as_data)
    using = [one for one in made if id_ in one.ids]
    perhaps = [one for one in made if id_ in one.perhaps or one.formula == "not known"]
    told = [_told(one, certain=id_ in one.ids) for one in (*using, *perhaps)]
    say(_lines(id_, using, perhaps), told, as_json=asked.as_data)
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
        certain=certain,
        sent_to=list(lot.sent_to),
    )


def _lines(id_: str, using: Sequence[LotMade], perhaps: Sequence[LotMade]) -> Iterator[str]:
    if using:
        yield f"'{id_}' went into {_counted(using)}:"
    elif not perhaps:
        yield f"'{id_}' went into no lot in {LOTS}"
    for one in using:
        yield from _lot_lines(one, _formula(one))
    if perhaps:
        yield f"'{id_}' may {'also ' if using else ''}have gone into {_counted(perhaps)}:"
    for one in perhaps:
        yield from _lot_lines(one, _doubt(one))


def _counted(some: Sequence[LotMade]) -> str:
    lots = "1 lot" if len(some) == 1 else f"{len(some)} lots"
    return f"{lots}, {sum(one.lot.made for one in some)} candles"


def _lot_lines(one: LotMade, formula: str) -> Iterator[str]:
    lot = one.lot
    yield f"    {lot.lot}: {lot.made} of {lot.stock_code}, poured on {lot.poured_on}"
    yield f"        {formula}"
    if lot.sent_to:
        yield f"        sent to {'; '.join(lot.sent_to)}"


def _formula(one: LotMade) -> str:
    revision = one.lot.sheet_revision
    if one.formula == "as issued":
        return f"by the formula recorded with revision {revision} of its sheet"
    if revision is None:
        return "by the present formula, since no revision of its sheet is named"
    return f"by the present formula, since revision {revision} of its sheet cannot be read"


def _doubt(one: LotMade) -> str:
    if one.formula == "as issued":
        return f"revision {one.lot.sheet_revision} of its sheet was recorded without it, and the next formula holds it"
    if one.formula == "not known":
        return "no formula is recorded any more"
    return (
        "the present formula is without it, and one that was recorded with a revision of its sheet holds it"
    )
