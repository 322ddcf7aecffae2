"""What ``papers labels`` was asked for: which labels, for which market, from which place of which stock on."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.documents.house import Speech
from generator.documents.label_stock import Printing
from generator.documents.labels import LabelKind
from generator.model.lots import plain_code
from generator.model.maker import Market
from generator.problems import Problem
from generator.reading.languages import label_languages
from generator.stories.asked import Asked
from generator.stories.labelled import LabelOrder
from generator.stories.ready import Ready
from generator.stories.setting import speeches_in

NOTHING = "no label was printed"


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelsAsked:
    """What ``papers labels`` was asked: how many of which, on which stock and from which place on."""

    counts: Mapping[str, int]
    stock: str
    kind: LabelKind
    market: Market | None
    language: str | None
    start: int
    lots: tuple[str, ...]
    blank_lot: bool
    incomplete: bool
    outlines: bool


def order_asked(asked: Asked, shop: Ready, wanted: LabelsAsked) -> LabelOrder | None:
    """Which labels are wanted; None after it was told which market or lot is not there."""
    markets = shop.shop.maker.markets
    market = wanted.market or markets[0]
    if market not in markets:
        print(f"the shop does not sell in {market}; write one of: {', '.join(markets)}; {NOTHING}")
        return None
    strangers = _unknown_lots(shop, wanted)
    for written in strangers:
        print(f"there is no lot '{written}' of {', '.join(wanted.counts)} in lots.csv; {NOTHING}")
    speech = _speech(shop, market, wanted.language)
    if strangers or speech is None:
        return None
    return LabelOrder(
        kind=wanted.kind,
        market=market,
        speech=speech,
        lots=wanted.lots,
        blank_lot=wanted.blank_lot,
        incomplete=wanted.incomplete,
        content=asked.content,
    )


def _speech(shop: Ready, market: Market, asked: str | None) -> Speech | None:
    """What the labels say, in the language asked for or the usual one of their market."""
    language = asked or shop.shop.maker.languages_of_labels(market)[0]
    if language not in label_languages():
        known = ", ".join(label_languages())
        print(f"there are no labels in the language '{language}'; write one of: {known}; {NOTHING}")
        return None
    speeches = speeches_in([language])
    if isinstance(speeches, Problem):
        print(f"{speeches}\n{NOTHING}")
        return None
    return speeches[language]


def _unknown_lots(shop: Ready, wanted: LabelsAsked) -> tuple[str, ...]:
    """Lots that were asked for, but are no lots of these stock codes."""
    known = {plain_code(lot.lot) for lot in shop.shop.lots if lot.stock_code in wanted.counts}
    return tuple(written for written in wanted.lots if plain_code(written) not in known)


def printing_asked(shop: Ready, wanted: LabelsAsked) -> Printing | None:
    """The stock as asked for; None after it was told what is wrong with that."""
    stock = shop.shop.label_stock.get(wanted.stock)
    if stock is None:
        known = ", ".join(sorted(shop.shop.label_stock)) or "none; write one in content/label-stock"
        print(f"there is no label stock '{wanted.stock}'; write one of: {known}; {NOTHING}")
        return None
    if wanted.start > stock.on_a_page:
        print(
            f"a page of {stock.id} has {stock.on_a_page} labels; --start {wanted.start} is beyond it; {NOTHING}"
        )
        return None
    return Printing(stock=stock, start=wanted.start, outlines=wanted.outlines)
