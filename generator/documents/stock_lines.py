"""The lines of buyers' sheets: what buyers share is worked out once, because there may be hundreds of them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cached_property
from typing import Final

from generator.document import Value
from generator.documents.house import House, SizeOf
from generator.documents.link_previews import absolute
from generator.documents.outlines import outline_of
from generator.documents.printed import measured, money, parcel, percent
from generator.documents.stock import ShelvedScent, estimate, hours_for_shops, listed_sizes, remark_for_shops
from generator.drawing.drawings import Outline, Symbol, stamp
from generator.facts.facts import Facts
from generator.model.markets import MARKETS, Market
from generator.model.money import in_coins, rounded
from generator.model.trade import Buyer, Offer

NEW_FOR: Final = timedelta(days=120)
"""How long a candle counts as new: about one season of a shop's orders. (CHOICE)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLine:
    """One stock code as every buyer in a market sees it, with the drawing of its candle."""

    listed: ShelvedScent
    size: SizeOf
    drawn: Symbol
    printed: Mapping[str, Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferedLine:
    """One line of one buyer's sheet: what it says, and what the buyer pays; ``row`` holds both and the drawing.

    Buyers with the same offer share one, so that its row is printed once.
    """

    line: StockLine
    offer: Offer
    printed: Mapping[str, Value]
    row: Mapping[str, Value]


@dataclass(frozen=True, kw_only=True)
class Stock:
    """Everything shops can order on a day; the house is as buyers may see it."""

    house: House

    def offered(self, buyer: Buyer, offers: Sequence[Offer]) -> Iterator[OfferedLine]:
        """The lines of one buyer's sheet, shelf by shelf."""
        market, by_code = self.market_of(buyer), {offer.stock_code: offer for offer in offers}
        for line in self._lines[market]:
            offer = by_code.get(line.size.facts.stock_code)
            if offer is not None:
                yield self._shared(market, line, offer)

    def market_of(self, buyer: Buyer) -> Market:
        """The market whose units and quantities a buyer reads: its own, if the maker sells there."""
        markets = self.house.maker.markets
        return next((one for one in markets if buyer.country in MARKETS[one].countries), markets[0])

    def _shared(self, market: Market, line: StockLine, offer: Offer) -> OfferedLine:
        """The same line for the same offer in the same words."""
        if (market, offer) not in self._offered:
            printed = _offer(self.house, line, offer, market)
            row = {
                "line": line.printed,
                "drawn": _drawn(line),
                "offer": printed,
                **_named(self.house, line, offer),
            }
            self._offered[market, offer] = OfferedLine(line=line, offer=offer, printed=printed, row=row)
        return self._offered[market, offer]

    @cached_property
    def _offered(self) -> dict[tuple[Market, Offer], OfferedLine]:
        return {}

    @cached_property
    def _lines(self) -> Mapping[Market, tuple[StockLine, ...]]:
        return {
            market: tuple(
                StockLine(
                    listed=listed,
                    size=size,
                    drawn=self._drawn[size.facts.stock_code],
                    printed=_line(self.house, listed, size, market),
                )
                for listed, size in listed_sizes(self.house)
            )
            for market in self.house.maker.markets
        }

    @cached_property
    def _drawn(self) -> Mapping[str, Symbol]:
        """The drawing of each stock code; candles that look alike share one."""
        stamps: dict[Outline, Symbol] = {}
        drawn = {}
        for listed, size in listed_sizes(self.house):
            outline = replace(
                outline_of(size, listed.scent.candle, self.house.speech.materials), lid=None, stop_mm=None
            )
            if outline not in stamps:
                stamps[outline] = stamp(outline, f"c{len(stamps)}")
            drawn[size.facts.stock_code] = stamps[outline]
        return drawn


def _named(house: House, line: StockLine, offer: Offer) -> Mapping[str, Value]:
    """The name of the quantity field, the words of the link to the sheet, and headings for small screens."""
    words, recorded = house.words["order"], line.size.recorded
    packs = words["packs" if offer.case else "pieces"]
    return {
        "asked": f"{recorded.size_name} {recorded.scent}, {recorded.stock_code}: {packs}",
        "safety": words["safety"],
        "heads": {"case": words["case"], "retail": words["retail"], "price": words["price"], "packs": packs},
    }


def _drawn(line: StockLine) -> Mapping[str, Value]:
    return {"name": line.drawn.name, "width": line.drawn.width, "height": line.drawn.height}


def _line(house: House, listed: ShelvedScent, size: SizeOf, market: Market) -> Mapping[str, Value]:
    facts, own_label = size.facts, size.recorded.own_label
    hours = hours_for_shops(house, facts)
    label = house.words["order"]["own_label"].format(brand=own_label.brand) if own_label else ""
    return {
        "size": size.recorded.size_name,
        "remark": remark_for_shops(house, listed, size) or _new(house, size) or "",
        "own_label": label,
        "code": facts.stock_code,
        "barcode": size.recorded.barcode or "",
        "net_quantity": measured(facts.declared.get(market) or "", house.words)
        or estimate(house, facts, market),
        "hours": hours["text"],
        "hours_basis": hours["mark"] or "",
        "safety": _safety(house, facts),
    }


def _new(house: House, size: SizeOf) -> str | None:
    """Whether a candle was added recently and is on the shelves."""
    added = size.recorded.added
    is_new = added is not None and timedelta(0) <= house.as_of - added < NEW_FOR
    return house.words["order"]["new"] if is_new else None


def _safety(house: House, facts: Facts) -> str:
    """The absolute address of the burn-safety page, because the sheet is read anywhere; empty if there is none."""
    web, state = house.maker.web, house.sheets[facts.stock_code]
    is_there = state.issued is not None or house.drafts
    return absolute(web, facts.safety_path) if web and is_there else ""


def _offer(house: House, line: StockLine, offer: Offer, market: Market) -> Mapping[str, Value]:
    currency, words = offer.trade.currency or "", house.words["order"]
    pack_g = _pack_g(line.size.facts, offer)
    return {
        "price": money(offer.trade, currency, market, house.words),
        "coins": in_coins(offer.trade.amount, currency),
        "case": offer.case or "",
        "case_text": str(offer.case) if offer.case else words["loose"],
        "case_weight": words["case_weight"].format(weight=parcel(pack_g, market, house.words))
        if pack_g and offer.case
        else "",
        "pack_g": "" if pack_g is None else pack_g,
        "least": offer.minimum or "",
        "least_text": words["least"].format(pieces=offer.minimum) if offer.minimum else "",
        "retail": money(offer.retail, currency, market, house.words) if offer.retail else "",
        "retail_plain": f"{rounded(offer.retail.amount, currency)}" if offer.retail else "",
        "retail_tax": f"{offer.retail_tax_percent.normalize():f}" if offer.retail else "",
        "margin": words["margin"].format(percent=percent(offer.margin_percent, house.words))
        if offer.margin_percent is not None
        else "",
        "margin_plain": "" if offer.margin_percent is None else f"{round(offer.margin_percent, 1):f}",
    }


def _pack_g(facts: Facts, offer: Offer) -> int | None:
    """The weight of one ordered unit, to the whole gram."""
    weight_g = facts.case_g if offer.case else facts.gross_g
    return None if weight_g is None else round(weight_g)
