"""By which formula a lot was poured, from which suppliers' lots, and how that stands to its sheet."""

from collections.abc import Iterable
from datetime import date
from typing import Final

from generator.facts.gather import gather
from generator.ledgers.record import poured_of, record_of
from generator.making.load_shop import Known
from generator.making.report import Refusal
from generator.model.lots import Lot, PouredFormula, SupplierLotText
from generator.model.shop import Shop
from generator.reading.lot_book import LOTS, POURED
from generator.reading.validate import is_valid
from generator.rules.entries.lot_checks import first_issued, in_force

NO_LOT: Final = "no lot was added"


def formula_poured(shop: Shop, stock_code: str, day: date) -> PouredFormula | None:
    """Today's formula; that of the sheet of the day where others were issued since; None where there is none."""
    then = in_force(shop, stock_code, day) or first_issued(shop, stock_code)
    if then is not None and shop.ledgers[stock_code].present.on > day:
        return poured_of(then.record)
    records = (gathered.recorded for gathered in gather(shop))
    return next((poured_of(record_of(one)) for one in records if one.stock_code == stock_code), None)


def file_of(formula: PouredFormula) -> str:
    """Where a formula is kept, from the content folder."""
    return f"{POURED}/{formula.name}.yaml"


def drawn_refusal(
    drawn: Iterable[tuple[str, str]], stock_code: str, formula: PouredFormula
) -> Refusal | None:
    """Why one of the suppliers' lots cannot be written down, if one cannot."""
    for id_, number in drawn:
        if id_ not in formula.ids:
            holds = ", ".join(sorted(formula.ids))
            what = f"'{id_}' is not in the formula of {stock_code}"
            return Refusal(what=what, then=NO_LOT, write=f"write one of: {holds}")
        if not is_valid(SupplierLotText, f"{id_}:{number}"):
            write = "write letters and digits as on the package, without ';'"
            return Refusal(what=f"'{number}' cannot be a supplier's lot", then=NO_LOT, write=write)
    return None


def lot_told(known: Known, shop: Shop, lot: Lot, formula: PouredFormula) -> tuple[str, str]:
    """That a lot was added, under which sheet and by which formula."""
    added = f"added: lot {lot.lot}, {lot.made} of {lot.stock_code}, poured on {lot.poured_on}"
    return f"{added}, {_sheet(known, shop, lot)}", f"    {_formula(known, shop, lot, formula)}"


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


def _formula(known: Known, shop: Shop, lot: Lot, formula: PouredFormula) -> str:
    """Where the lot's formula is kept, and whether the sheet in force recorded the same one."""
    kept = f"its formula is kept as poured in {file_of(formula)}"
    issued, state = in_force(shop, lot.stock_code, lot.poured_on), known.sheets.get(lot.stock_code)
    if issued is None:
        first = first_issued(shop, lot.stock_code)
        return f"{kept}, as revision {first.revision} recorded it later" if first else kept
    if poured_of(issued.record).name == formula.name:
        return f"{kept}; revision {issued.revision} recorded the same one"
    says = ", and the sheet still says the same" if state and state.status == "issued" else ""
    told = f"{kept}; it is not the one that revision {issued.revision} recorded{says}"
    if lot.poured_on == shop.maker.as_of:
        return told
    return (
        f"{told}; if the lot was poured before it changed, empty its formula_fingerprint in {LOTS}: "
        f"it then counts as poured by the formula of revision {issued.revision}"
    )
