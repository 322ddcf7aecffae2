"""One stock code made ready for a label: which revision it says, which lot, in which sizes; or why it may have none."""

from dataclasses import dataclass
from pathlib import Path

from generator.commands.label_lacks import hazard_status, lacks_of
from generator.commands.label_measures import sizes_of
from generator.documents.house import SizeOf, Speech
from generator.documents.link_previews import absolute
from generator.documents.papers.label_text import LabelKind, Labelled
from generator.making.fronts import printable
from generator.making.load_for_papers import Ready
from generator.making.load_shop import places_of_codes
from generator.making.lot_hazards import WHY, how_to_mend, revision_of, says_other_hazards
from generator.model.label_stock import LabelStock
from generator.model.ledger import Issued, sheet_address
from generator.model.lots import Lot, plain_code
from generator.model.maker import Market
from generator.problems import Problem

_WHY_REFUSED = "the law of the market does not let it be sold to the public"
_WHY_SHEET = "the code on the label leads to its sheet, and both must say the same"


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelOrder:
    """Which labels are wanted: of which kind, for which market, in which words, for which lots.

    ``incomplete`` lets those that may not be used be printed, marked as proofs.
    """

    kind: LabelKind
    market: Market
    speech: Speech
    lots: tuple[str, ...]
    blank_lot: bool
    incomplete: bool
    content: Path


def labelled(
    shop: Ready, size: SizeOf, order: LabelOrder, stock: LabelStock
) -> Labelled | tuple[Problem, ...]:
    """All that its label is made from, or what stands in the way."""
    code = size.facts.stock_code
    lot = None if order.blank_lot or order.kind == "product" else _lot(shop, code, order)
    issued = _issued(shop, code, order, lot)
    if isinstance(issued, Problem):
        return (issued,)
    unusable = f"the {order.market} label of {code} may not be used"
    lacks = () if order.kind == "product" else tuple(lacks_of(shop, issued, order.market))
    if lacks and not order.incomplete:
        return tuple(
            _problem(
                shop, code, f"{unusable}: {lack.what}", lack.why, f"{lack.write}, or --incomplete for a proof"
            )
            for lack in lacks
        )
    artwork = _artwork(shop, size, order)
    if isinstance(artwork, Problem):
        return (artwork,)
    return Labelled(
        said=issued.value,
        market=order.market,
        lot=None if lot is None else lot.lot,
        address=_address(issued, code),
        sizes=sizes_of(size, order.market, stock, shop.house.as_of),
        scented=size.facts.fragrance_of_total_percent > 0,
        artwork=artwork,
        is_proof=bool(lacks),
    )


def _issued(shop: Ready, code: str, order: LabelOrder, lot: Lot | None) -> Issued | Problem:
    """The revision that the label says, or what keeps it from being true."""
    issued = _revision(shop, code, lot)
    if lot is None and order.kind == "warning" and not order.blank_lot:
        what = f"{code} has no lot to print on its label"
        write = f"wickwright lots add {code} --made N, or --blank-lot"
        return _problem(shop, code, what, "a candle without a lot code cannot be recalled", write)
    if issued is None:
        whose = code if lot is None else f"lot {lot.lot} of {code}"
        write = f'wickwright issue {code} --reason "...", and a lot poured since'
        return _problem(shop, code, f"{whose} has no issued sheet", _WHY_SHEET, write)
    if lot is None and shop.house.sheets[code].status == "changed":
        what = f"the sheet of {code} has changed since revision {issued.revision}"
        write = f'wickwright issue {code} --reason "...", or --lot with its lot'
        return _problem(shop, code, what, _WHY_SHEET, write)
    state, recorded = shop.house.sheets[code], shop.sizes[code].recorded
    if lot is not None and says_other_hazards(lot, issued, state, recorded, order.market):
        revision = f"revision {issued.revision}"
        what = f"lot {lot.lot} of {code} was poured by a formula with other hazards than {revision} says"
        return _problem(shop, code, what, WHY, how_to_mend(lot))
    if hazard_status(issued, order.market) == "refused":
        what = f"the hazards of {code} in {order.market} forbid its sale to the public"
        return _problem(shop, code, what, _WHY_REFUSED, "another fragrance, or less of it")
    return issued


def _lot(shop: Ready, code: str, order: LabelOrder) -> Lot | None:
    """The lot that was asked for, or the one poured last; of one day's lots, the one that was written down last."""
    lots = [lot for lot in reversed(shop.shop.lots) if lot.stock_code == code]
    asked = {plain_code(written) for written in order.lots}
    named = [lot for lot in lots if plain_code(lot.lot) in asked]
    return max(named or lots, key=lambda lot: lot.poured_on, default=None)


def _revision(shop: Ready, code: str, lot: Lot | None) -> Issued | None:
    """The revision that the lot was poured under; without a lot the one in force."""
    state = shop.house.sheets[code]
    if lot is None:
        return state.issued
    return revision_of(lot, state)


def _artwork(shop: Ready, size: SizeOf, order: LabelOrder) -> str | Problem | None:
    """The maker's own drawing for this stock code, or for all sizes of its scent; only a front has one."""
    names = (f"{size.facts.stock_code}.svg", f"{size.facts.candle}.svg")
    found = next((name for name in names if name in shop.shop.artwork), None)
    if found is None or order.kind == "warning":
        return None
    return printable(order.content / "artwork" / found, shop.known.places.shown(f"artwork/{found}"))


def _address(issued: Issued, code: str) -> str | None:
    web = issued.value.maker.web
    return None if web is None else absolute(web, sheet_address(code, issued.revision))


def _problem(shop: Ready, code: str, what: str, why: str, write: str) -> Problem:
    place = places_of_codes(shop.shop, shop.known.places)[code]
    return Problem(place=place, what=what, why=why, write=write)
