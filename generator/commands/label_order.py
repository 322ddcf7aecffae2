"""What ``papers labels`` was asked for: which labels, for which market, from which place of which stock on."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.commands.labelled import LabelOrder
from generator.documents.house import LanguagePack
from generator.documents.papers.label_layout import Printing
from generator.documents.papers.label_text import LabelKind
from generator.making.load_for_papers import Ready
from generator.making.options import CommandOptions
from generator.making.presentation import load_language_packs
from generator.making.report import Refusal
from generator.model.lots import plain_code
from generator.model.maker import Market
from generator.problems import Problem
from generator.reading.languages import label_languages

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


def order_asked(asked: CommandOptions, shop: Ready, wanted: LabelsAsked) -> LabelOrder | tuple[Refusal, ...]:
    """Which labels are wanted, or which market, lots or language are not there."""
    markets = shop.shop.maker.markets
    market = wanted.market or markets[0]
    if market not in markets:
        return (_refusal(f"the shop does not sell in {market}", f"write one of: {', '.join(markets)}"),)
    codes = ", ".join(wanted.counts)
    strangers = tuple(
        _refusal(f"there is no lot '{written}' of {codes} in lots.csv", "")
        for written in _unknown_lots(shop, wanted)
    )
    speech = _speech(shop, market, wanted.language)
    if isinstance(speech, Refusal):
        return (*strangers, speech)
    if strangers:
        return strangers
    return LabelOrder(
        kind=wanted.kind,
        market=market,
        speech=speech,
        lots=wanted.lots,
        blank_lot=wanted.blank_lot,
        incomplete=wanted.incomplete,
        content=asked.content,
    )


def _speech(shop: Ready, market: Market, asked: str | None) -> LanguagePack | Refusal:
    """What the labels say, in the language asked for or the usual one of their market."""
    language = asked or shop.shop.maker.languages_of_labels(market)[0]
    if language not in label_languages():
        known = ", ".join(label_languages())
        return _refusal(f"there are no labels in the language '{language}'", f"write one of: {known}")
    language_packs = load_language_packs([language])
    if isinstance(language_packs, Problem):
        return _refusal(f"{language_packs.place}: {language_packs.what}", f"write {language_packs.write}")
    return language_packs[language]


def _unknown_lots(shop: Ready, wanted: LabelsAsked) -> tuple[str, ...]:
    """Lots that were asked for, but are no lots of these stock codes."""
    known = {plain_code(lot.lot) for lot in shop.shop.lots if lot.stock_code in wanted.counts}
    return tuple(written for written in wanted.lots if plain_code(written) not in known)


def printing_asked(shop: Ready, wanted: LabelsAsked) -> Printing | Refusal:
    """The stock as asked for, or what is wrong with that."""
    stock = shop.shop.label_stock.get(wanted.stock)
    if stock is None:
        known = ", ".join(sorted(shop.shop.label_stock))
        write = f"write one of: {known}" if known else "describe the labels you buy in content/label-stock"
        return _refusal(f"there is no label stock '{wanted.stock}'", write)
    if wanted.start > stock.on_a_page:
        what = f"a page of {stock.id} has {stock.on_a_page} labels, and --start {wanted.start} is beyond it"
        return _refusal(what, f"write --start and a number from 1 to {stock.on_a_page}")
    return Printing(stock=stock, start=wanted.start, outlines=wanted.outlines)


def _refusal(what: str, write: str) -> Refusal:
    return Refusal(what=what, then=NOTHING, write=write)
