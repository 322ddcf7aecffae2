"""``lots add STOCK_CODE --made N``: a row for the book of lots, with the revision of the sheet in force."""

import secrets
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from typing import Final

from generator.model.lots import UNAMBIGUOUS, Lot, LotCode, dated_code, plain_code
from generator.model.shop import Shop
from generator.problems import is_error
from generator.reading.lots import LOTS
from generator.reading.validate import is_valid
from generator.recording.lots import has_place_for, with_lot
from generator.rules.lots import first_issued, in_force, stock_codes
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT, WRONG_USE
from generator.stories.one_writer import writes_content
from generator.stories.shop import Known, know
from generator.stories.telling import tell
from generator.writing.store import Store
from generator.writing.whole_files import record

ENDING: Final = 4
"""How many random letters end a code: 22 to the fourth is 234,256, so a date and a stock code give nothing away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """What was poured; without a day it is the one the shop speaks for, without a code the program makes one."""

    stock_code: str
    made: int
    poured_on: date | None
    code: str | None


@writes_content("lots add")
def run(asked: Asked, pour: Pour) -> int:
    """Exit code 0 when the lot is written down, 1 when the book or the sheet is at fault, 2 for what cannot be one."""
    known = know(asked, Store(asked.output / ".store"))
    files = (known.places.shown(LOTS), known.places.shown(f"sheets/{pour.stock_code}.yaml"))
    in_the_way = [problem for problem in known.problems if is_error(problem) and problem.place.file in files]
    if known.shop is None or in_the_way:
        tell(in_the_way or known.problems, as_json=asked.as_data, then="no lot was added")
        return AT_FAULT
    refusal = _refusal(known.shop, pour)
    if refusal is not None:
        print(refusal)
        return WRONG_USE
    lot = _lot(known.shop, pour)
    path = asked.content / LOTS
    book = path.read_bytes() if path.exists() else b""
    if not has_place_for(book, lot):
        print(f"{LOTS} has no column sheet_revision; write it at the end of the first line; no lot was added")
        return AT_FAULT
    record(path, with_lot(book, lot))
    sheet = _sheet(known, known.shop, lot)
    print(f"added: lot {lot.lot}, {lot.made} of {lot.stock_code}, poured on {lot.poured_on}, {sheet}")
    return 0


def _refusal(shop: Shop, pour: Pour) -> str | None:
    if pour.stock_code not in stock_codes(shop):
        known = sorted(stock_codes(shop))
        near = get_close_matches(pour.stock_code.upper(), known, n=3, cutoff=0.5) or known[:5]
        return f"there is no stock code '{pour.stock_code}'; write one of: {', '.join(near)}"
    if pour.code is None:
        return None
    if not is_valid(LotCode, pour.code):
        return f"'{pour.code}' cannot be a lot code; write letters, digits and dashes"
    taken = {plain_code(lot.lot): lot.lot for lot in shop.lots}.get(plain_code(pour.code))
    return None if taken is None else f"lot {taken} is in {LOTS} already; write a code that no other lot has"


def _lot(shop: Shop, pour: Pour) -> Lot:
    poured_on = pour.poured_on or shop.maker.as_of
    issued = in_force(shop, pour.stock_code, poured_on)
    return Lot(
        lot=pour.code or _new_code(shop, pour.stock_code, poured_on),
        stock_code=pour.stock_code,
        poured_on=poured_on,
        made=pour.made,
        sheet_revision=None if issued is None else issued.revision,
    )


def _new_code(shop: Shop, stock_code: str, poured_on: date) -> str:
    """A code that no lot has yet; its ending is random, because whoever knows the day must not guess the rest."""
    taken = {plain_code(lot.lot) for lot in shop.lots}
    while True:
        code = dated_code(stock_code, poured_on, "".join(secrets.choice(UNAMBIGUOUS) for _ in range(ENDING)))
        if plain_code(code) not in taken:
            return code


def _sheet(known: Known, shop: Shop, lot: Lot) -> str:
    issue_it = f"`wickwright issue {lot.stock_code}` before you sell it"
    if lot.sheet_revision is None:
        first = first_issued(shop, lot.stock_code)
        if first is None:
            return f"while no sheet was issued: {issue_it}"
        return (
            f"before its first sheet was issued on {first.on}: "
            f"write {first.revision} as its sheet_revision into {LOTS} if its labels carry that one"
        )
    if lot.stock_code in known.sheets and known.sheets[lot.stock_code].status == "changed":
        return (
            f"with revision {lot.sheet_revision} of its sheet, and the candle has changed since: {issue_it}"
        )
    return f"with revision {lot.sheet_revision} of its sheet"
