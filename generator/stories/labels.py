"""``papers labels``: warning and product labels on bought sheets, or what stands in the way of them."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.document import Document, Value
from generator.documents.label_stock import Printing, calibration_page
from generator.documents.labels import LabelKind, label, label_paper
from generator.model.maker import Market
from generator.problems import Problem
from generator.stories.label_fit import unfit
from generator.stories.labelled import LabelOrder, labelled, without_quantity
from generator.stories.pressing import pressed
from generator.stories.ready import AT_FAULT, WRONG_USE, Ready, are_known, ready, write_papers
from generator.stories.shop import Asked
from generator.stories.telling import tell
from generator.writing.store import Store

NOTHING = "no label was printed"


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelsAsked:
    """What ``papers labels`` was asked: how many of which, on which stock and from which place on."""

    counts: Mapping[str, int]
    stock: str
    kind: LabelKind
    market: Market | None
    start: int
    lots: tuple[str, ...]
    blank_lot: bool
    outlines: bool


def run(asked: Asked, wanted: LabelsAsked) -> int:
    """Exit code 0 when the labels are made, 1 when entries stand in the way, 2 when it was called wrongly."""
    store = Store(asked.output / ".store")
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    printing = _printing(shop, wanted)
    if printing is None or not are_known(wanted.counts, shop.sizes, NOTHING):
        return WRONG_USE
    if not wanted.counts:
        return _pressed(asked, shop, store, calibration(shop, printing))
    order = _order(asked, shop, wanted)
    if order is None:
        return WRONG_USE
    paper = _labels(shop, wanted, order, printing)
    if isinstance(paper, Document):
        return _pressed(asked, shop, store, paper)
    tell(paper, as_json=asked.as_data, then=NOTHING)
    return AT_FAULT


def _order(asked: Asked, shop: Ready, wanted: LabelsAsked) -> LabelOrder | None:
    """Which labels are wanted; None after it was told that the shop does not sell there."""
    markets = shop.shop.maker.markets
    market = wanted.market or markets[0]
    if market not in markets:
        print(f"the shop does not sell in {market}; write one of: {', '.join(markets)}")
        return None
    return LabelOrder(
        kind=wanted.kind,
        market=market,
        lots=wanted.lots,
        blank_lot=wanted.blank_lot,
        content=asked.content,
    )


def _labels(
    shop: Ready, wanted: LabelsAsked, order: LabelOrder, printing: Printing
) -> Document | tuple[Problem, ...]:
    """The pages of labels, or all that stands in the way of them."""
    found = {code: labelled(shop, shop.sizes[code], order, printing.stock) for code in wanted.counts}
    missing = tuple(one for one in found.values() if isinstance(one, Problem))
    if missing:
        return missing
    values = {
        code: label(order.kind, one, shop.house.speech)
        for code, one in found.items()
        if not isinstance(one, Problem)
    }
    unfitting = tuple(unfit(shop, printing.stock, order, values))
    if unfitting:
        return unfitting
    for line in without_quantity(values.values(), order):
        print(line)
    counted = [(values[code], count) for code, count in wanted.counts.items()]
    return label_paper(order.kind, printing, counted, around(shop, order))


def around(shop: Ready, order: LabelOrder) -> Mapping[str, Value]:
    """What a page of labels says besides its labels."""
    words = shop.house.words
    market = words["safety"][f"market_{order.market}"]
    return {
        "market": order.market,
        "title": words["labels"][f"title_{order.kind}"].format(market=market),
        "house": shop.shop.maker.name,
        "language": shop.shop.maker.language,
        "dated": shop.house.as_of.isoformat(),
    }


def calibration(shop: Ready, printing: Printing) -> Document:
    """The page to hold against a sheet of labels before the first is printed."""
    day = shop.house.as_of.isoformat()
    return calibration_page(printing, shop.house.words, day, shop.shop.maker.language)


def _printing(shop: Ready, wanted: LabelsAsked) -> Printing | None:
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


def _pressed(asked: Asked, shop: Ready, store: Store, paper: Document) -> int:
    made = pressed((paper,), shop.setting.theme, store)
    write_papers(asked, made.files)
    return 0
