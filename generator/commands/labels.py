"""``papers labels``: warning and product labels on bought sheets, or what stands in the way of them."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from math import ceil
from typing import Final

from generator.arguments import CommandParser, code_with_count, count_argument
from generator.commands.labelled import LabelOrder, labelled
from generator.commands.make_paper import Need, PaperRequest, Papers, not_in_the_shop
from generator.document import Value
from generator.documents.papers.label_layout import INSET_MM, Printing, calibration_page
from generator.documents.papers.label_text import Labelled, label_paper, label_value
from generator.making.loaded_shop import SoundShop
from generator.making.presentation import language_pack
from generator.making.progress import each_counted
from generator.making.report import Refusal
from generator.model.label_stock import BoxLabel, LabelStock, Margin, Pitch, RoundLabel
from generator.model.lots import plain_code
from generator.model.markets import MARKETS, Market, not_a_market
from generator.problems import Problem
from generator.reading.languages import label_languages
from generator.writing.pdf import Press, Refused, TooLarge, press

_TITLES: Final = {"warning": "title_warning", "product": "title_product"}
_TAGS: Final = (("A8", 52, 74), ("A7", 74, 105), ("A6", 105, 148))
"""Sizes of a tag to hang on a candle, in millimetres. (ISO 216, MEMORY)"""


def _stock_arguments(words: CommandParser) -> None:
    words.add_argument(
        "counts",
        metavar="STOCK_CODE=N",
        nargs="*",
        type=code_with_count,
        help="a stock code and how many; none prints a test page for alignment",
    )
    words.add_argument(
        "--stock", metavar="ID", required=True, help="a file name in content/label-stock, without its ending"
    )
    words.add_argument(
        "--start",
        metavar="N",
        type=count_argument,
        default=1,
        help="the first unused label on a part-used sheet",
    )


def _label_arguments(words: CommandParser) -> None:
    words.add_argument(
        "--kind", choices=("warning", "product"), default="warning", help="warning if left out"
    )
    words.add_argument("--market", metavar="MARKET", help="another market than your first, such as EU")
    words.add_argument(
        "--language", metavar="CODE", help="another language than the market's usual one, such as de or fr"
    )
    words.add_argument(
        "--lot",
        dest="lots",
        metavar="CODE",
        action="append",
        default=[],
        help="another lot than the latest",
    )
    words.add_argument("--blank-lot", action="store_true", help="leave a blank field for the lot code")
    words.add_argument(
        "--incomplete", action="store_true", help="print labels that may not be used yet, marked as proofs"
    )
    words.add_argument("--outlines", action="store_true", help="print each label's outline, for plain paper")


def _no_stock(shop: SoundShop, request: PaperRequest) -> Iterator[Refusal]:
    """What is wrong with the stock, the first place on it, or the stock codes."""
    stock = shop.shop.label_stock.get(request.stock)
    if stock is None:
        known = ", ".join(sorted(shop.shop.label_stock))
        fix = f"write one of: {known}" if known else "describe the labels you buy in content/label-stock"
        yield Refusal(what=f"there is no label stock '{request.stock}'", fix=fix)
    elif request.start > stock.on_a_page:
        what = f"a page of {stock.id} has {stock.on_a_page} labels, so it has no label {request.start}"
        yield Refusal(what=what, fix=f"give --start a number from 1 to {stock.on_a_page}")
    yield from not_in_the_shop(shop, request)


def _no_labels(shop: SoundShop, request: PaperRequest) -> Iterator[Refusal]:
    """Which market, lots or language are not there; a calibration page needs none of them."""
    if not request.counts:
        return
    markets = shop.shop.maker.markets
    if request.market is not None and request.market not in MARKETS:
        yield Refusal(what=f"--market {not_a_market(request.market)}")
        return
    if request.market is not None and request.market not in markets:
        what = f"the shop does not sell in {request.market}"
        yield Refusal(what=what, fix=f"write one of: {', '.join(markets)}")
        return
    known = {plain_code(lot.lot) for lot in shop.shop.lots if lot.stock_code in request.counts}
    for written in request.lots:
        if plain_code(written) not in known:
            yield Refusal(
                what=f"there is no lot '{written}' of {', '.join(request.counts)} in lots.csv",
                fix="check the code, or record the lot with wickwright lots add",
            )
    language = _language(shop, request)
    if language not in label_languages():
        what = f"there are no labels in the language '{language}'"
        yield Refusal(what=what, fix=f"write one of: {', '.join(label_languages())}")


STOCK: Final = Need(add_arguments=_stock_arguments, refusals=_no_stock)
LABELS: Final = Need(add_arguments=_label_arguments, refusals=_no_labels)


def paper_of_labels(shop: SoundShop, request: PaperRequest) -> Papers | tuple[Problem, ...]:
    """The labels, or all that stands in the way of them; a calibration page where none are asked for."""
    stock = shop.shop.label_stock[request.stock]
    printing = Printing(stock=stock, start=request.start, outlines=request.outlines)
    if not request.counts:
        day = shop.house.as_of.isoformat()
        page = calibration_page(printing, shop.house.words, day, shop.shop.maker.language)
        return Papers(documents=(page,))
    order = LabelOrder(
        kind=request.kind,
        market=_market(shop, request),
        pack=language_pack(_language(shop, request)),
        lots=tuple(request.lots),
        blank_lot=request.blank_lot,
        incomplete=request.incomplete,
    )
    values = _labels(shop, request.counts, order, stock)
    if isinstance(values, tuple):
        return values
    labels = [(values[code], number) for code, number in request.counts.items()]
    paper = label_paper(order.kind, printing, labels, _around(shop, order))
    return Papers(documents=(paper,), notes=tuple(_without_quantity(values.values(), order)))


def _market(shop: SoundShop, request: PaperRequest) -> Market:
    return request.market or shop.shop.maker.markets[0]


def _language(shop: SoundShop, request: PaperRequest) -> str:
    """The language that was asked for, or the usual one of the market."""
    return request.language or shop.shop.maker.languages_of_labels(_market(shop, request))[0]


def _labels(
    shop: SoundShop, codes: Iterable[str], order: LabelOrder, stock: LabelStock
) -> Mapping[str, Mapping[str, Value]] | tuple[Problem, ...]:
    """What the label of each stock code says, or all that stands in the way of them."""
    found = {code: labelled(shop, shop.sizes[code], order, stock) for code in codes}
    missing = tuple(chain.from_iterable(one for one in found.values() if isinstance(one, tuple)))
    if missing:
        return missing
    values = {
        code: label_value(order.kind, one, order.pack)
        for code, one in found.items()
        if isinstance(one, Labelled)
    }
    unfitting = tuple(_unfit(shop, stock, order, values))
    return unfitting or values


def _around(shop: SoundShop, order: LabelOrder) -> Mapping[str, Value]:
    """What a page of labels says besides its labels."""
    words, language = order.pack.words, order.pack.language
    usual, *_others = shop.shop.maker.languages_of_labels(order.market)
    market = words["markets"][order.market]
    return {
        "market": order.market if language == usual else f"{order.market}-{language}",
        "title": words["labels"][_TITLES[order.kind]].format(market=market),
        "house": shop.shop.maker.name,
        "language": language,
        "dated": shop.house.as_of.isoformat(),
    }


def _without_quantity(labels: Iterable[Mapping[str, Value]], order: LabelOrder) -> Iterator[str]:
    """Which labels say no net quantity, because it is not proven."""
    codes = [str(one["name"]) for one in labels if one["quantity"] is None]
    if codes:
        yield (
            f"{', '.join(codes)}: the net quantity is not proven, so it is left off for {order.market}. "
            "Weigh five finished candles and record it as declared, or weigh each candle and mark it elsewhere."
        )


def _unfit(
    shop: SoundShop, stock: LabelStock, order: LabelOrder, labels: Mapping[str, Mapping[str, Value]]
) -> Iterator[Problem]:
    """What is wrong with each label that cannot be printed as it is, and what would hold it."""
    with press(shop.presentation.theme) as machine:
        for value in each_counted("labels tried", labels.values(), len(labels)):
            refused = _refused(machine, shop, stock, order, value)
            if refused is None:
                continue
            fix = ", or ".join(_ways_out(machine, shop, stock, order, refused.too_large[0]))
            yield _too_large(shop, stock, order, refused.too_large[0], fix)


def _too_large(shop: SoundShop, stock: LabelStock, order: LabelOrder, part: TooLarge, fix: str) -> Problem:
    way = "across" if part.across else "down"
    return Problem(
        place=shop.loaded.places.of((f"label-stock/{stock.id}.yaml", "label")),
        what=(
            f"the {order.kind} label of {part.part} for {order.market} needs {part.needs_mm:.1f} mm {way} "
            f"in the smallest letters allowed, and has {part.has_mm:.1f} mm inside an edge of {INSET_MM} mm: "
            f"{part.needs_mm - part.has_mm:.1f} mm too little"
        ),
        why="smaller letters or signs are not allowed, and nothing on it may be left off",
        fix=fix,
    )


def _ways_out(
    machine: Press, shop: SoundShop, stock: LabelStock, order: LabelOrder, part: TooLarge
) -> Iterator[str]:
    """The next size; and for a warning label, which need not be in one piece under the candle, a fold-out or a tag."""
    holding = next(
        (other for other in _larger(shop, stock) if _holds(machine, shop, other, order, part.part)), None
    )
    if holding is not None:
        yield f"--stock {holding.id}, the next size that holds it"
    elif order.kind == "product":
        way = "across" if part.across else "down"
        yield f"a stock of larger labels, at least {part.needs_mm + 2 * INSET_MM:.1f} mm {way}"
    if order.kind == "warning":
        if isinstance(stock.label, RoundLabel) or not part.across:
            yield f"a fold-out label of {_leaves(stock, part)} leaves or more of this size"
        tag = next((tag for tag in _TAGS if _holds(machine, shop, _tag(*tag), order, part.part)), None)
        if tag is not None:
            name, width_mm, height_mm = tag
            yield f"a tag of {width_mm} by {height_mm} mm ({name})"


def _leaves(stock: LabelStock, part: TooLarge) -> int:
    """As many as have the area that is needed; one wide enough grows by its height alone."""
    ratio = part.needs_mm / part.has_mm
    return ceil(ratio**2 if isinstance(stock.label, RoundLabel) else ratio)


def _tag(name: str, width_mm: int, height_mm: int) -> LabelStock:
    return LabelStock(
        id=name.lower(),
        name=name,
        roll_mm=width_mm,
        label=BoxLabel(shape="box", width_mm=width_mm, height_mm=height_mm),
        margin=Margin(top_mm=0.0, left_mm=0.0),
        pitch=Pitch(across_mm=width_mm, down_mm=height_mm),
    )


def _holds(machine: Press, shop: SoundShop, stock: LabelStock, order: LabelOrder, code: str) -> bool:
    one = labelled(shop, shop.sizes[code], order, stock)
    if isinstance(one, tuple):
        return False
    return _refused(machine, shop, stock, order, label_value(order.kind, one, order.pack)) is None


def _larger(shop: SoundShop, stock: LabelStock) -> Sequence[LabelStock]:
    larger = (other for other in shop.shop.label_stock.values() if other.area_mm2 > stock.area_mm2)
    return sorted(larger, key=lambda other: other.area_mm2)


def _refused(
    machine: Press, shop: SoundShop, stock: LabelStock, order: LabelOrder, value: Mapping[str, Value]
) -> Refused | None:
    """Why a single label cannot be printed, if it cannot."""
    paper = label_paper(order.kind, Printing(stock=stock), [(value, 1)], _around(shop, order))
    result = machine.set(paper)
    return result if isinstance(result, Refused) else None
