"""One stock code made ready for a label: which revision it says, which lot, in which sizes; or why it may have none."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.documents.house import LanguagePack, SizeOf
from generator.documents.link_previews import absolute
from generator.documents.papers.label_text import LabelKind, Labelled, LabelSizes
from generator.making.loaded_shop import SoundShop
from generator.making.lot_hazards import WHY_OF_OTHER_HAZARDS, how_to_mend, says_other_hazards
from generator.making.pictures import printable
from generator.model.label_stock import LabelStock
from generator.model.ledger import Issued, sheet_address
from generator.model.lots import Lot, plain_code
from generator.model.markets import MARKETS, Market, Particular
from generator.problems import Problem
from generator.rules.hazards.label import identifier_due
from generator.rules.labels.label_duties import Lack, lacking
from generator.rules.labels.label_sizes import (
    LEAST_SIGN_MM,
    caution_type,
    quantity_type,
    round_panel_in2,
    small_letters_mm,
)

LEAST_DIAMOND_MM, USUAL_DIAMOND_MM = 10, 16
"""Side of a red diamond where no capacity says more (CLP Annex I table 1.3: standards.md C2, FOUND)."""

_WHY_REFUSED = "the law there forbids its sale to the public"
_WHY_SHEET = "the code on the label leads to its sheet, and the two must match"


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelOrder:
    """Which labels are wanted: of which kind, for which market, in which words, for which lots.

    ``incomplete`` lets those that may not be used be printed, marked as proofs.
    """

    kind: LabelKind
    market: Market
    pack: LanguagePack
    lots: tuple[str, ...]
    blank_lot: bool
    incomplete: bool


def labelled(
    shop: SoundShop, size: SizeOf, order: LabelOrder, stock: LabelStock
) -> Labelled | tuple[Problem, ...]:
    """All that its label is made from, or what stands in the way."""
    code = size.facts.stock_code
    lot = None if order.blank_lot or order.kind == "product" else _lot(shop, code, order)
    issued = _issued(shop, code, order, lot)
    if isinstance(issued, Problem):
        return (issued,)
    unusable = f"the {order.market} label of {code} may not be used"
    lacks = () if order.kind == "product" else tuple(_lacks_of(shop, issued, order.market))
    if lacks and not order.incomplete:
        return tuple(
            _problem(
                shop, code, f"{unusable}: {lack.what}", lack.why, f"{lack.fix}, or --incomplete for a proof"
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


def _issued(shop: SoundShop, code: str, order: LabelOrder, lot: Lot | None) -> Issued | Problem:
    """The revision that the label says, without a lot the one in force; or what keeps it from being true."""
    state, recorded = shop.house.sheets[code], shop.sizes[code].recorded
    issued = state.issued if lot is None else state.revision(lot.sheet_revision)
    if lot is None and order.kind == "warning" and not order.blank_lot:
        what = f"{code} has no lot to print on its label"
        fix = f"wickwright lots add {code} --made N, or --blank-lot"
        return _problem(shop, code, what, "a candle without a lot code cannot be recalled", fix)
    if issued is None:
        whose = code if lot is None else f"lot {lot.lot} of {code}"
        fix = f'wickwright issue {code} --reason "...", and a lot poured after that'
        return _problem(shop, code, f"{whose} has no issued sheet", _WHY_SHEET, fix)
    if lot is None and state.status == "changed":
        what = f"the sheet of {code} has changed since revision {issued.revision}"
        fix = f'wickwright issue {code} --reason "...", or --lot and its lot'
        return _problem(shop, code, what, _WHY_SHEET, fix)
    if lot is not None and says_other_hazards(lot, issued, state, recorded, order.market):
        revision = f"revision {issued.revision}"
        what = f"lot {lot.lot} of {code} was poured by a recipe with other hazards than {revision} states"
        return _problem(shop, code, what, WHY_OF_OTHER_HAZARDS, how_to_mend(lot))
    if _hazard_status(issued, order.market) == "refused":
        what = f"the hazards of {code} in {order.market} forbid its sale to the public"
        return _problem(shop, code, what, _WHY_REFUSED, "another fragrance, or less of it")
    return issued


def _lot(shop: SoundShop, code: str, order: LabelOrder) -> Lot | None:
    """The lot that was asked for, or the one poured last; of one day's lots, the one that was written down last."""
    lots = [lot for lot in reversed(shop.shop.lots) if lot.stock_code == code]
    asked = {plain_code(written) for written in order.lots}
    named = [lot for lot in lots if plain_code(lot.lot) in asked]
    return max(named or lots, key=lambda lot: lot.poured_on, default=None)


def _artwork(shop: SoundShop, size: SizeOf, order: LabelOrder) -> str | Problem | None:
    """The maker's own drawing for this stock code, or for all sizes of its scent; only a front has one."""
    names = (f"{size.facts.stock_code}.svg", f"{size.facts.candle}.svg")
    found = next((name for name in names if name in shop.shop.artwork), None)
    if found is None or order.kind == "warning":
        return None
    shown = shop.loaded.places.shown(f"artwork/{found}")
    return printable(Path(shown), shown)


def _address(issued: Issued, code: str) -> str | None:
    web = issued.value.maker.web
    return None if web is None else absolute(web, sheet_address(code, issued.revision))


def _problem(shop: SoundShop, code: str, what: str, why: str, fix: str) -> Problem:
    return Problem(place=shop.loaded.places_of_codes[code], what=what, why=why, fix=fix)


def _lacks_of(shop: SoundShop, issued: Issued, market: Market) -> Iterator[Lack]:
    """What keeps the label of this revision from being used there."""
    absent = frozenset(_absent(shop, issued, market))
    yield from lacking(market, _hazard_status(issued, market), absent, shop.house.as_of)


def _hazard_status(issued: Issued, market: Market) -> str:
    """``classified``, ``none``, ``unknown`` or ``refused``; nothing where the market knows no such labels."""
    printed = issued.value.hazards.get(market)
    return printed.status if printed else ""


def _absent(shop: SoundShop, issued: Issued, market: Market) -> Iterator[Particular]:
    said = issued.value
    printed = said.hazards.get(market)
    if printed and identifier_due(printed.h) and not said.ufi:
        yield "identifier"
    if said.net_quantity_basis != "proven":
        yield "quantity"
    at_home = shop.shop.maker.country in MARKETS[market].countries
    if not at_home and market not in said.contacts:
        yield "supplier"


def sizes_of(size: SizeOf, market: Market, stock: LabelStock, on: date) -> LabelSizes:
    """The least letters and signs on a label of this stock for this candle."""
    facts, wall_mm = size.facts, size.recorded.build.wall_mm or 0.0
    type_ = caution_type(stock.area_mm2, market)
    found = facts.hazards.get(market)
    label_size = None if found is None else found.size
    panel_in2 = round_panel_in2(facts.shape.depth_mm, facts.shape.diameter_mm + 2 * wall_mm)
    quantity = quantity_type(market, facts.net_weight_g, panel_in2)
    return LabelSizes(
        signal_mm=type_.signal_mm,
        statement_mm=type_.statement_mm,
        other_mm=type_.other_mm,
        hazard_small_letter_mm=small_letters_mm(market, facts.shape.brimful_ml, on),
        sign_mm=LEAST_SIGN_MM,
        diamond_least_mm=label_size.pictogram_least_mm if label_size else LEAST_DIAMOND_MM,
        diamond_mm=label_size.pictogram_mm if label_size else USUAL_DIAMOND_MM,
        quantity_mm=quantity.height_mm,
        quantity_of_small_letters=quantity.of_small_letters,
        quantity_stands_low=quantity.stands_low,
    )
