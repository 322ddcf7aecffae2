"""Checks of the book of lots: every lot must lead to the one sheet that belongs to it."""

from collections.abc import Iterable, Iterator
from datetime import date
from difflib import get_close_matches

from generator.model.accepted import check_of
from generator.model.ledger import Issued
from generator.model.lots import Lot, plain_code
from generator.model.shop import Shop
from generator.problems import Fault, Path, Severity
from generator.rules.references import IsBroken


def lot_faults(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """Lots that two buyers could take for each other, and lots that lead to no sheet or to another one's."""
    yield from _repeated(shop)
    for number, lot in enumerate(shop.lots):
        path = ("lots.csv", number)
        if is_broken("stock-code", lot.stock_code) or is_broken("sheet", lot.stock_code):
            continue
        if lot.stock_code in stock_codes(shop):
            yield from _revision_faults((*path, "sheet_revision"), lot, shop)
        else:
            yield unknown_stock_code((*path, "stock_code"), lot.stock_code, shop)


def stock_codes(shop: Shop) -> frozenset[str]:
    """Every stock code that an entry or an issued sheet knows."""
    sold = (size.stock_code for candle in shop.candles.values() for size in candle.sizes)
    return frozenset((*sold, *shop.ledgers))


def in_force(shop: Shop, stock_code: str, day: date) -> Issued | None:
    """The revision of a sheet that was the last one issued by the end of a day, if any was."""
    ledger = shop.ledgers.get(stock_code)
    issued = [one for one in ledger.revisions if one.on <= day] if ledger else []
    return issued[-1] if issued else None


def first_issued(shop: Shop, stock_code: str) -> Issued | None:
    """The first revision of a sheet, if any was ever issued."""
    ledger = shop.ledgers.get(stock_code)
    return ledger.revisions[0] if ledger else None


def unknown_stock_code(path: Path, written: str, shop: Shop) -> Fault:
    """The fault of a stock code that neither an entry nor a sheet knows."""
    known = sorted(stock_codes(shop))
    near = get_close_matches(written.upper(), known, n=1) or known[:5]
    return Fault(
        path=path,
        what=f"there is no stock code '{written}' in content/candles",
        why="whoever looks the lot up would be led to no sheet",
        write=", or ".join(near) if near else "the stock code of an entry in content/candles",
    )


def _repeated(shop: Shop) -> Iterator[Fault]:
    """Two lots with one code, or with codes that a buyer would type alike."""
    first: dict[str, tuple[str, int]] = {}
    for number, lot in enumerate(shop.lots):
        earlier, row = first.setdefault(plain_code(lot.lot), (lot.lot, number))
        if row != number:
            what = (
                f"lot {lot.lot} is written twice"
                if earlier == lot.lot
                else f"lots {lot.lot} and {earlier} differ in capitals, dashes or spaces alone"
            )
            yield Fault(
                path=("lots.csv", number, "lot"),
                what=what,
                why=f"whoever types it could be shown the sheet of the other one (row {row + 1} below the header)",
                write="a code that no other lot has",
            )


def _revision_faults(path: Path, lot: Lot, shop: Shop) -> Iterator[Fault]:
    """A revision that does not exist, or that did not yet exist when the lot was poured."""
    ledger = shop.ledgers.get(lot.stock_code)
    by_number = {one.revision: one for one in ledger.revisions} if ledger else {}
    if lot.sheet_revision is None:
        yield _poured_without(path, lot, shop)
    elif lot.sheet_revision not in by_number:
        yield Fault(
            path=path,
            what=f"{lot.stock_code} has no sheet of revision {lot.sheet_revision}",
            why="whoever looks the lot up would be led to no sheet",
            write=_one_of(by_number, f"sheets/{lot.stock_code}.yaml"),
        )
    elif by_number[lot.sheet_revision].on > lot.poured_on:
        yield _poured_before(path, lot, by_number[lot.sheet_revision])


def _poured_without(path: Path, lot: Lot, shop: Shop) -> Fault:
    issued = in_force(shop, lot.stock_code, lot.poured_on)
    on_labels = issued or first_issued(shop, lot.stock_code)
    what = f"lot {lot.lot} was poured while the sheet of {lot.stock_code} was a draft"
    if issued is not None:
        what = f"lot {lot.lot} names no revision of its sheet"
    return Fault(
        path=path,
        what=what,
        why="no issued sheet belongs to it, and whoever looks it up is told so",
        write=(
            f"the revision that its labels carry; {on_labels.revision} was issued on {on_labels.on}"
            if on_labels is not None
            else f"the revision that its labels carry, once `wickwright issue {lot.stock_code}` has made one"
        ),
        severity=Severity.WARNING,
        check=check_of("lot-without-sheet", lot.lot),
    )


def _poured_before(path: Path, lot: Lot, issued: Issued) -> Fault:
    return Fault(
        path=path,
        what=(
            f"lot {lot.lot} was poured on {lot.poured_on} while revision {issued.revision} was a draft, "
            f"issued on {issued.on}"
        ),
        why="its labels may say something else than the sheet that whoever looks it up is shown",
        write="the revision that its labels carry, or the day on which it was poured",
        severity=Severity.WARNING,
        check=check_of("lot-before-sheet", lot.lot),
    )


def _one_of(revisions: Iterable[int], ledger: str) -> str:
    """The revisions there are, and where one may have been lost."""
    known = [str(revision) for revision in sorted(revisions, reverse=True)[:4]] or ["an empty cell"]
    return f"{', or '.join(known)}; if there was such a revision, {ledger} as it was, from version control or a copy"
