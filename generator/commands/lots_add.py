"""``lots add STOCK_CODE --made N``: a row for the book of lots, with its formula and the sheet in force."""

import secrets
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import Final

from generator.arguments import CommandParser, count_argument, day_argument, id_with_lot
from generator.facts.gather import gather
from generator.ledgers.books import poured_file, with_lot
from generator.ledgers.record import poured_of, record_of
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.report import Refusal, refuse, report_faults, say, unknown_codes
from generator.model.lots import (
    UNAMBIGUOUS,
    Lot,
    LotCode,
    PouredFormula,
    SupplierLot,
    SupplierLotText,
    dated_code,
    plain_code,
)
from generator.model.shop import Shop
from generator.reading.lot_book import LOTS, POURED
from generator.reading.wording import is_valid
from generator.rules.entries.lot_checks import first_issued, revision_on, stock_codes
from generator.writing.whole_files import record

NO_LOT: Final = "no lot was added"
ENDING: Final = 4
"""How many random letters end a code: 22 to the fourth is 234,256, so a date and a stock code give nothing away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """What was poured; without a day it is the shop's, without a code the program makes one.

    ``drawn`` are ids of materials, vessels and wicks, each with the number of its supplier's lot.
    """

    stock_code: str
    made: int
    poured_on: date | None
    code: str | None
    drawn: tuple[tuple[str, str], ...] = ()


def add_arguments(words: CommandParser) -> None:
    """What was poured, and of what."""
    words.add_argument("stock_code", metavar="STOCK_CODE")
    words.add_argument(
        "--made", metavar="N", type=count_argument, required=True, help="how many candles you poured"
    )
    words.add_argument("--lot", dest="code", metavar="CODE", help="your own code, instead of a random one")
    words.add_argument(
        "--poured",
        dest="poured_on",
        metavar="YYYY-MM-DD",
        type=day_argument,
        help="the day you poured it, if it was not today",
    )
    words.add_argument(
        "--from", dest="drawn", metavar="ID=LOT", action="append", type=id_with_lot, default=[],
        help="the supplier's lot of a material, vessel or wick; repeat for each",
    )  # fmt: skip
    words.runs(lambda options, **pour: run(options, Pour(**pour)))


@writes_content("lots add")
def run(options: CommandOptions, pour: Pour) -> int:
    """Exit code 0 when the lot is written down, 1 when the book or the sheet is at fault, 2 for what cannot be one."""
    loaded = load_shop(options)
    if not isinstance(loaded, LoadedShop):
        book = (LOTS, f"sheets/{pour.stock_code}.yaml")
        return report_faults(options, loaded.errors_in(*book) or loaded.problems, NO_LOT)
    shop = loaded.shop
    formula = _formula_poured(shop, pour.stock_code, pour.poured_on or shop.as_of)
    names = (LOTS, f"sheets/{pour.stock_code}.yaml", *([_file_of(formula)] if formula else []))
    if in_the_way := loaded.errors_in(*names):
        return report_faults(options, in_the_way, NO_LOT)
    refusal = _refusal(shop, pour, formula)
    if refusal is not None:
        return refuse(refusal, as_json=options.as_data)
    if formula is None:
        return report_faults(options, loaded.errors, f"its recipe cannot be worked out; {NO_LOT}")
    lot = _lot(shop, pour, formula)
    _write(options.content, lot, formula)
    added = {key: str(value) if key == "poured_on" else value for key, value in asdict(lot).items()}
    told = _told(loaded, lot, formula)
    data = {"added": added, "notes": told[1:]}
    say(told, data, as_json=options.as_data, next_step=_next_step(loaded, lot))
    return 0


def _write(content: Path, lot: Lot, formula: PouredFormula) -> None:
    """The formula first, because a row must never name one that is not there."""
    kept, book = content / _file_of(formula), content / LOTS
    if not kept.exists():
        record(kept, poured_file(formula))
    record(book, with_lot(book.read_bytes() if book.exists() else b"", lot))


def _refusal(shop: Shop, pour: Pour, formula: PouredFormula | None) -> Refusal | None:
    if unknown := unknown_codes((pour.stock_code,), stock_codes(shop), NO_LOT):
        return unknown[0]
    if pour.poured_on is not None and pour.poured_on > shop.as_of:
        what = f"{pour.poured_on} is after {shop.as_of}, the shop's as_of"
        fix = "write the day it was poured, or add --date with today's date"
        return Refusal(what=what, then=NO_LOT, fix=fix)
    refusal = None if formula is None else _drawn_refusal(pour.drawn, pour.stock_code, formula)
    if refusal is not None or pour.code is None:
        return refusal
    if not is_valid(LotCode, pour.code):
        fix = "use letters, digits and dashes"
        return Refusal(what=f"'{pour.code}' is not a lot code", then=NO_LOT, fix=fix)
    taken = {plain_code(lot.lot): lot.lot for lot in shop.lots}.get(plain_code(pour.code))
    if taken is None:
        return None
    fix = "choose another code"
    return Refusal(what=f"{LOTS} already has lot {taken}", then=NO_LOT, fix=fix)


def _lot(shop: Shop, pour: Pour, formula: PouredFormula) -> Lot:
    poured_on = pour.poured_on or shop.as_of
    issued = revision_on(shop, pour.stock_code, poured_on)
    return Lot(
        lot=pour.code or _new_code(shop, pour.stock_code, poured_on),
        stock_code=pour.stock_code,
        poured_on=poured_on,
        made=pour.made,
        sheet_revision=None if issued is None else issued.revision,
        formula_fingerprint=formula.name,
        drawn_from=tuple(SupplierLot(id=id_, number=number) for id_, number in dict.fromkeys(pour.drawn)),
    )


def _new_code(shop: Shop, stock_code: str, poured_on: date) -> str:
    """A code that no lot has yet; its ending is random, because whoever knows the day must not guess the rest."""
    taken = {plain_code(lot.lot) for lot in shop.lots}
    while True:
        code = dated_code(stock_code, poured_on, "".join(secrets.choice(UNAMBIGUOUS) for _ in range(ENDING)))
        if plain_code(code) not in taken:
            return code


def _formula_poured(shop: Shop, stock_code: str, on: date) -> PouredFormula | None:
    """Today's formula; that of the sheet of the day where others were issued since; None where there is none."""
    then = revision_on(shop, stock_code, on) or first_issued(shop, stock_code)
    if then is not None and shop.ledgers[stock_code].present.on > on:
        return poured_of(then.record)
    records = (gathered.recorded for gathered in gather(shop))
    return next((poured_of(record_of(one)) for one in records if one.stock_code == stock_code), None)


def _file_of(formula: PouredFormula) -> str:
    """Where a formula is kept, from the content folder."""
    return f"{POURED}/{formula.name}.yaml"


def _drawn_refusal(
    lots: Iterable[tuple[str, str]], stock_code: str, formula: PouredFormula
) -> Refusal | None:
    """Why one of the suppliers' lots cannot be written down, if one cannot."""
    for id_, number in lots:
        if id_ not in formula.ids:
            holds = ", ".join(sorted(formula.ids))
            what = f"'{id_}' is not in the recipe of {stock_code}"
            return Refusal(what=what, then=NO_LOT, fix=f"write one of: {holds}")
        if not is_valid(SupplierLotText, f"{id_}:{number}"):
            fix = "copy it from the package, without ';'"
            return Refusal(what=f"'{number}' is not a supplier's lot", then=NO_LOT, fix=fix)
    return None


def _next_step(loaded: LoadedShop, lot: Lot) -> str | None:
    """A sheet before labels; a lot older than its sheet has labels already."""
    state = loaded.sheets.get(lot.stock_code)
    if state is None or state.status != "issued":
        return f'wickwright issue {lot.stock_code} --reason "..."'
    if lot.sheet_revision is None:
        return None
    return f"wickwright papers labels {lot.stock_code}={lot.made} --lot {lot.lot} --stock ID"


def _told(loaded: LoadedShop, lot: Lot, formula: PouredFormula) -> tuple[str, str]:
    """That a lot was added, under which sheet and by which formula."""
    added = f"added lot {lot.lot}: {lot.made} of {lot.stock_code}, poured on {lot.poured_on}"
    return f"{added}, {_sheet(loaded, lot)}", f"    {_formula(loaded, lot, formula)}"


def _sheet(loaded: LoadedShop, lot: Lot) -> str:
    shop = loaded.shop
    issue_it = f"`wickwright issue {lot.stock_code}` before you sell it"
    if lot.sheet_revision is None:
        first = first_issued(shop, lot.stock_code)
        if first is None:
            return f"but no sheet has been issued: {issue_it}"
        return (
            f"before its first sheet was issued on {first.on}. "
            f"If its labels carry revision {first.revision}, write that as its sheet_revision in {LOTS}"
        )
    if lot.stock_code in loaded.sheets and loaded.sheets[lot.stock_code].status == "changed":
        return f"with revision {lot.sheet_revision} of its sheet. The candle has changed since: {issue_it}"
    return f"with revision {lot.sheet_revision} of its sheet"


def _formula(loaded: LoadedShop, lot: Lot, formula: PouredFormula) -> str:
    """Where the lot's formula is kept, and whether the sheet in force recorded the same one."""
    shop = loaded.shop
    kept = f"Its recipe is recorded in {_file_of(formula)}"
    issued, state = revision_on(shop, lot.stock_code, lot.poured_on), loaded.sheets.get(lot.stock_code)
    if issued is None:
        first = first_issued(shop, lot.stock_code)
        return f"{kept}, and later in revision {first.revision}" if first else kept
    if poured_of(issued.record).name == formula.name:
        return f"{kept}, the same as in revision {issued.revision}"
    says = ", though the sheet reads the same" if state and state.status == "issued" else ""
    told = f"{kept}. It differs from that of revision {issued.revision}{says}"
    if lot.poured_on == shop.as_of:
        return told
    return (
        f"{told}. If you poured the lot before the change, clear its formula_fingerprint in {LOTS}: "
        f"it then counts as poured by the recipe of revision {issued.revision}"
    )
