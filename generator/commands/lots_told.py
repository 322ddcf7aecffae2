"""The lots that something went into, for whoever must call them back."""

from collections.abc import Iterator, Sequence

from generator.ledgers.lot_traces import LotMade, Traced
from generator.reading.lot_book import LOTS


def lots_told(id_: str, number: str | None, found: Traced) -> Iterator[str]:
    """Those that surely hold it, those that may, and how many were made from other suppliers' lots of it."""
    what = f"'{id_}'" if number is None else f"lot {number} of '{id_}'"
    if found.using:
        yield f"{what} went into {_counted(found.using)}:"
    elif not found.perhaps:
        yield f"{what} went into no lot in {LOTS}"
    for one in found.using:
        yield from _lot_lines(one, id_, _formula(one))
    if found.perhaps:
        yield f"{what} may {'also ' if found.using else ''}have gone into {_counted(found.perhaps)}:"
    for one in found.perhaps:
        yield from _lot_lines(one, id_, _not_drawn(one, id_) if id_ in one.ids else _doubt(one))
    if found.others:
        numbers = dict.fromkeys(number for one in found.others for number in one.numbers(id_))
        yield f"other lots of '{id_}' went into {_counted(found.others)}: {', '.join(numbers)}"


def _counted(some: Sequence[LotMade]) -> str:
    lots = "1 lot" if len(some) == 1 else f"{len(some)} lots"
    return f"{lots}, {sum(one.lot.made for one in some)} candles"


def _lot_lines(one: LotMade, id_: str, formula: str) -> Iterator[str]:
    lot = one.lot
    yield f"    {lot.lot}: {lot.made} of {lot.stock_code}, poured on {lot.poured_on}"
    yield f"        {formula}"
    if one.numbers(id_):
        yield f"        from the supplier's lot {', '.join(one.numbers(id_))}"
    if lot.sent_to:
        yield f"        sent to {'; '.join(lot.sent_to)}"


def _formula(one: LotMade) -> str:
    revision = one.lot.sheet_revision
    if one.formula == "as poured":
        return f"by the formula it was poured by, {one.lot.formula_fingerprint}"
    if one.formula == "as issued":
        return f"by the formula recorded with revision {revision} of its sheet"
    if one.formula == "not known":
        return "by its row; no formula of it can be read"
    if revision is None:
        return "by the present formula, since no revision of its sheet is named"
    return f"by the present formula, since revision {revision} of its sheet cannot be read"


def _not_drawn(one: LotMade, id_: str) -> str:
    return f"{_formula(one)}; which lot of '{id_}' is not written down"


def _doubt(one: LotMade) -> str:
    if one.formula == "as issued":
        return f"revision {one.lot.sheet_revision} of its sheet was recorded without it, and another formula holds it"
    if one.formula == "not known" and one.lot.formula_fingerprint is not None:
        return f"its formula {one.lot.formula_fingerprint} is lost, or no longer what was recorded"
    if one.formula == "not known":
        return "no formula is recorded any more"
    return "the present formula is without it, and one that was recorded before holds it"
