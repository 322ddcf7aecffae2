"""Checks of the book of lots: every lot must lead to the one sheet, and to the formula, that belong to it."""

from collections.abc import Iterable, Iterator
from datetime import date
from difflib import get_close_matches

from generator.model.accepted import check_of
from generator.model.ledger import Issued
from generator.model.lots import Lot, ids_in, plain_code
from generator.model.shop import Shop
from generator.problems import Fault, Path, warning
from generator.rules.references import IsBroken


def lot_faults(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """Lots that buyers could confuse, and lots that lead to no sheet or formula, or to the wrong one."""
    yield from _repeated(shop)
    yield from _edited_formulas(shop)
    for number, lot in enumerate(shop.lots):
        path = ("lots.csv", number)
        yield from _not_yet_poured(path, lot, shop)
        if lot.formula_fingerprint and not is_broken("poured", lot.formula_fingerprint):
            yield from _formula_faults((*path, "formula_fingerprint"), lot, lot.formula_fingerprint, shop)
        yield from _drawn_faults((*path, "drawn_from"), lot, shop)
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


def revision_on(shop: Shop, stock_code: str, day: date) -> Issued | None:
    """The last revision of a sheet issued by the end of a day, if any."""
    ledger = shop.ledgers.get(stock_code)
    issued = [one for one in ledger.revisions if one.on <= day] if ledger else []
    return issued[-1] if issued else None


def first_issued(shop: Shop, stock_code: str) -> Issued | None:
    """The first revision of a sheet, if one was ever issued."""
    ledger = shop.ledgers.get(stock_code)
    return ledger.revisions[0] if ledger else None


def unknown_stock_code(path: Path, written: str, shop: Shop) -> Fault:
    """The fault of a stock code that neither an entry nor a sheet knows."""
    known = sorted(stock_codes(shop))
    near = get_close_matches(written.upper(), known, n=1) or known[:5]
    return Fault(
        path=path,
        what=f"there is no stock code '{written}' in content/candles",
        why="anyone who looks up the lot would find no sheet",
        fix=", or ".join(near) if near else "use the stock code of an entry in content/candles",
    )


def _repeated(shop: Shop) -> Iterator[Fault]:
    """Two lots with one code, or with codes that a buyer would type alike."""
    first: dict[str, tuple[str, int]] = {}
    for number, lot in enumerate(shop.lots):
        earlier, row = first.setdefault(plain_code(lot.lot), (lot.lot, number))
        if row != number:
            what = (
                f"lot {lot.lot} is entered twice"
                if earlier == lot.lot
                else f"lots {lot.lot} and {earlier} differ only in capitals, dashes or spaces"
            )
            yield Fault(
                path=("lots.csv", number, "lot"),
                what=what,
                why=(
                    f"anyone who types it could be shown the other one's sheet (row {row + 1} "
                    "below the header)"
                ),
                fix="use a code that no other lot has",
            )


def _not_yet_poured(path: Path, lot: Lot, shop: Shop) -> Iterator[Fault]:
    if lot.poured_on > shop.as_of:
        yield warning(
            path=(*path, "poured_on"),
            what=f"lot {lot.lot} was poured on {lot.poured_on}, after as_of ({shop.as_of})",
            why="the year or month may be mistyped; if the day is right, as_of is out of date",
            fix="correct the day it was poured or, if that is right, as_of: a later day in maker.yaml",
            check=check_of("ahead", lot.lot),
        )


def _edited_formulas(shop: Shop) -> Iterator[Fault]:
    for name, formula in shop.poured.items():
        if formula.true_name != name:
            yield Fault(
                path=(f"poured/{name}.yaml",),
                what=f"the recipe is no longer what was poured: its name would be {formula.true_name}",
                why="in a recall, no one could say what went into its lots",
                fix="restore the file from a backup or version control",
            )


def _formula_faults(path: Path, lot: Lot, name: str, shop: Shop) -> Iterator[Fault]:
    """A formula that is not kept, or that is another stock code's."""
    formula = shop.poured.get(name)
    if formula is None:
        what = f"lot {lot.lot} was poured by recipe {name}, but poured/{name}.yaml is missing"
        fix = f"restore poured/{name}.yaml from a backup or version control"
    elif formula.true_name == name and formula.stock_code != lot.stock_code:
        what = f"lot {lot.lot} of {lot.stock_code} names recipe {name}, which belongs to {formula.stock_code}"
        fix = "restore the cell as `wickwright lots add` wrote it"
    else:
        return
    yield Fault(
        path=path,
        what=what,
        why="in a recall, no one could say what went into it",
        fix=(
            f"{fix}; or, if that is lost, empty the cell: the lot then counts as poured by its sheet's recipe"
        ),
    )


def _drawn_faults(path: Path, lot: Lot, shop: Shop) -> Iterator[Fault]:
    """Suppliers' lots of something not in the formula or, if the formula is unknown, in no entry."""
    formula = shop.poured.get(lot.formula_fingerprint or "")
    revisions = shop.ledgers[lot.stock_code].revisions if lot.stock_code in shop.ledgers else ()
    issued = next((one for one in revisions if one.revision == lot.sheet_revision), None)
    for drawn in lot.drawn_from:
        known = formula.ids if formula else ids_in(issued.record) if issued else ids_of_entries(shop)
        if drawn.id not in known:
            near = get_close_matches(drawn.id, known, n=1, cutoff=0.7)
            yield warning(
                path=path,
                what=f"lot {lot.lot} was drawn from a lot of '{drawn.id}', which is not in its recipe",
                why=f"in a recall, `lots using {near[0] if near else 'ID'}` searches by these ids",
                fix=", or ".join(near or sorted(known)) + "; leave it if it did go in",
                check=check_of("drawn-from", f"{lot.lot} {drawn.id}"),
            )


def ids_of_entries(shop: Shop) -> frozenset[str]:
    """Every id of something that may be in or around a candle."""
    return frozenset((*shop.ingredients, *shop.vessels, *shop.wicks))


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
            why="anyone who looks up the lot would find no sheet",
            fix=_one_of(by_number, f"sheets/{lot.stock_code}.yaml"),
        )
    elif by_number[lot.sheet_revision].on > lot.poured_on:
        yield _poured_before(path, lot, by_number[lot.sheet_revision])


def _poured_without(path: Path, lot: Lot, shop: Shop) -> Fault:
    issued = revision_on(shop, lot.stock_code, lot.poured_on)
    on_labels = issued or first_issued(shop, lot.stock_code)
    what = f"lot {lot.lot} was poured while the sheet of {lot.stock_code} was a draft"
    if issued is not None:
        what = f"lot {lot.lot} names no revision of its sheet"
    return warning(
        path=path,
        what=what,
        why="no issued sheet belongs to it, and anyone who looks it up is told so",
        fix=(
            f"enter the revision on its labels; {on_labels.revision} was issued on {on_labels.on}"
            if on_labels is not None
            else (f"enter the revision on its labels, once `wickwright issue {lot.stock_code}` has made one")
        ),
        check=check_of("lot-without-sheet", lot.lot),
    )


def _poured_before(path: Path, lot: Lot, issued: Issued) -> Fault:
    return warning(
        path=path,
        what=(
            f"lot {lot.lot} was poured on {lot.poured_on}, while revision {issued.revision}, "
            f"issued on {issued.on}, was a draft"
        ),
        why="its labels may differ from the sheet shown to anyone who looks it up",
        fix="enter the revision on its labels, or correct the day it was poured",
        check=check_of("lot-before-sheet", lot.lot),
    )


def _one_of(revisions: Iterable[int], ledger: str) -> str:
    """The revisions there are, and where one may have been lost."""
    known = [str(revision) for revision in sorted(revisions, reverse=True)[:4]] or ["an empty cell"]
    return (
        f"{', or '.join(known)}; if there was such a revision, restore {ledger} from "
        "a backup or version control"
    )
