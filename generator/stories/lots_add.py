"""``lots add STOCK_CODE --made N``: a row for the book of lots, with the revision of the sheet in force."""

import secrets
from dataclasses import asdict, dataclass
from datetime import date
from typing import Final

from generator.model.lots import UNAMBIGUOUS, Lot, LotCode, dated_code, plain_code
from generator.model.shop import Shop
from generator.problems import is_error
from generator.reading.lots import LOTS
from generator.reading.validate import is_valid
from generator.recording.lots import has_place_for, with_lot
from generator.rules.lots import first_issued, in_force, stock_codes
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT
from generator.stories.ready import unknown_codes
from generator.stories.shop import Known, know
from generator.stories.telling import Refusal, refuse, say, tell
from generator.writing.store import Store
from generator.writing.whole_files import replace_file

ENDING: Final = 4
"""How many random letters end a code: 22 to the fourth is 234,256, so a date and a stock code give nothing away."""

NOTHING: Final = "no lot was added"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """What was poured; without a day it is the one the shop speaks for, without a code the program makes one."""

    stock_code: str
    made: int
    poured_on: date | None
    code: str | None


def run(asked: Asked, pour: Pour) -> int:
    """Exit code 0 when the lot is written down, 1 when the book or the sheet is at fault, 2 for what cannot be one."""
    known = know(asked, Store(asked.output / ".store"))
    files = (known.places.shown(LOTS), known.places.shown(f"sheets/{pour.stock_code}.yaml"))
    in_the_way = [problem for problem in known.problems if is_error(problem) and problem.place.file in files]
    if known.shop is None or in_the_way:
        tell(in_the_way or known.problems, as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    refusal = _refusal(known.shop, pour)
    if refusal is not None:
        return refuse(refusal, as_json=asked.as_data)
    lot = _lot(known.shop, pour)
    path = asked.content / LOTS
    book = path.read_bytes() if path.exists() else b""
    if not has_place_for(book, lot):
        what, write = f"{LOTS} has no column sheet_revision", "write it at the end of the first line"
        refusal = Refusal(what=what, then=NOTHING, write=write, exit_code=AT_FAULT)
        return refuse(refusal, as_json=asked.as_data)
    replace_file(path, with_lot(book, lot), durable=True)
    sheet = _sheet(known, known.shop, lot)
    told = f"added: lot {lot.lot}, {lot.made} of {lot.stock_code}, poured on {lot.poured_on}, {sheet}"
    added = {**asdict(lot), "poured_on": lot.poured_on.isoformat()}
    say((told,), {"added": added, "notes": [sheet]}, as_json=asked.as_data)
    return 0


def _refusal(shop: Shop, pour: Pour) -> Refusal | None:
    codes = stock_codes(shop)
    if unknown := unknown_codes((pour.stock_code,), codes, NOTHING):
        return unknown[0]
    if pour.code is None:
        return None
    if not is_valid(LotCode, pour.code):
        write = "write letters, digits and dashes, such as SS-30-2026305-K7QX"
        return Refusal(what=f"'{pour.code}' cannot be a lot code", then=NOTHING, write=write)
    taken = {plain_code(lot.lot): lot.lot for lot in shop.lots}.get(plain_code(pour.code))
    if taken is None:
        return None
    write = "write a code that no other lot has"
    return Refusal(what=f"lot {taken} is in {LOTS} already", then=NOTHING, write=write)


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
