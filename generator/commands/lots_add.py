"""``lots add STOCK_CODE --made N``: a row for the book of lots, with its formula and the sheet in force."""

import secrets
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import Final

from generator.commands.poured import NO_LOT, drawn_refusal, file_of, formula_poured, lot_told
from generator.ledgers.poured_lots import poured_file, with_lot
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import unknown_codes
from generator.making.load_shop import know
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.report import Refusal, refuse, say, tell
from generator.model.lots import UNAMBIGUOUS, Lot, LotCode, PouredFormula, SupplierLot, dated_code, plain_code
from generator.model.shop import Shop
from generator.problems import is_error
from generator.reading.lot_book import LOTS
from generator.reading.validate import is_valid
from generator.rules.entries.lot_checks import in_force, stock_codes
from generator.writing.store import Store
from generator.writing.whole_files import record

ENDING: Final = 4
"""How many random letters end a code: 22 to the fourth is 234,256, so a date and a stock code give nothing away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """What was poured; without a day it is the one the shop speaks for, without a code the program makes one.

    ``drawn`` are ids of materials, vessels and wicks, each with the number of its supplier's lot.
    """

    stock_code: str
    made: int
    poured_on: date | None
    code: str | None
    drawn: tuple[tuple[str, str], ...] = ()


@writes_content("lots add")
def run(asked: CommandOptions, pour: Pour) -> int:
    """Exit code 0 when the lot is written down, 1 when the book or the sheet is at fault, 2 for what cannot be one."""
    known = know(asked, Store(asked.output / ".store"))
    shop = known.shop
    formula = None
    if shop is not None:
        formula = formula_poured(shop, pour.stock_code, pour.poured_on or shop.maker.as_of)
    errors = [problem for problem in known.problems if is_error(problem)]
    names = (LOTS, f"sheets/{pour.stock_code}.yaml", *([file_of(formula)] if formula else []))
    files = tuple(map(known.places.shown, names))
    in_the_way = [problem for problem in errors if problem.place.file in files]
    if shop is None or in_the_way:
        tell(in_the_way or known.problems, as_json=asked.as_data, then=NO_LOT)
        return AT_FAULT
    refusal = _refusal(shop, pour, formula)
    if refusal is not None:
        return refuse(refusal, as_json=asked.as_data)
    if formula is None:
        tell(errors, as_json=asked.as_data, then=f"its formula cannot be told, so {NO_LOT}")
        return AT_FAULT
    lot = _lot(shop, pour, formula)
    _write(asked.content, lot, formula)
    added = {key: str(value) if key == "poured_on" else value for key, value in asdict(lot).items()}
    told = lot_told(known, shop, lot, formula)
    say(told, {"added": added, "notes": told[1:]}, as_json=asked.as_data)
    return 0


def _write(content: Path, lot: Lot, formula: PouredFormula) -> None:
    """The formula first, because a row must never name one that is not there."""
    kept, book = content / file_of(formula), content / LOTS
    if not kept.exists():
        record(kept, poured_file(formula))
    record(book, with_lot(book.read_bytes() if book.exists() else b"", lot))


def _refusal(shop: Shop, pour: Pour, formula: PouredFormula | None) -> Refusal | None:
    if unknown := unknown_codes((pour.stock_code,), stock_codes(shop), NO_LOT):
        return unknown[0]
    if pour.poured_on is not None and pour.poured_on > shop.maker.as_of:
        what = f"{pour.poured_on} comes after {shop.maker.as_of}, the day the shop speaks for"
        write = "write the day on which it was poured, or --date and today's date as well"
        return Refusal(what=what, then=NO_LOT, write=write)
    drawn = None if formula is None else drawn_refusal(pour.drawn, pour.stock_code, formula)
    if drawn is not None or pour.code is None:
        return drawn
    if not is_valid(LotCode, pour.code):
        write = "write letters, digits and dashes"
        return Refusal(what=f"'{pour.code}' cannot be a lot code", then=NO_LOT, write=write)
    taken = {plain_code(lot.lot): lot.lot for lot in shop.lots}.get(plain_code(pour.code))
    if taken is None:
        return None
    write = "write a code that no other lot has"
    return Refusal(what=f"lot {taken} is in {LOTS} already", then=NO_LOT, write=write)


def _lot(shop: Shop, pour: Pour, formula: PouredFormula) -> Lot:
    poured_on = pour.poured_on or shop.maker.as_of
    issued = in_force(shop, pour.stock_code, poured_on)
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
