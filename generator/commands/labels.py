"""``papers labels``: warning and product labels on bought sheets, or what stands in the way of them."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain

from generator.commands.label_fit import unfit
from generator.commands.label_order import NOTHING, LabelsAsked, order_asked, printing_asked
from generator.commands.labelled import LabelOrder, labelled
from generator.document import Document, Value
from generator.documents.papers.label_layout import Printing, calibration_page
from generator.documents.papers.label_text import Labelled, label, label_paper
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import Ready, ready, unknown_codes, write_papers
from generator.making.options import CommandOptions
from generator.making.pdf_papers import pressed, refusal
from generator.making.report import Refusal, refuse, tell
from generator.problems import Problem
from generator.writing.store import Store


def run(asked: CommandOptions, wanted: LabelsAsked) -> int:
    """Exit code 0 when the labels are made, 1 when entries stand in the way, 2 when it was called wrongly."""
    store = Store(asked.output / ".store")
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    printing = printing_asked(shop, wanted)
    unknown = unknown_codes(wanted.counts, shop.sizes, NOTHING)
    if isinstance(printing, Refusal) or unknown:
        wrong = (printing, *unknown) if isinstance(printing, Refusal) else unknown
        return refuse(*wrong, as_json=asked.as_data)
    if not wanted.counts:
        return _pressed(asked, shop, store, calibration(shop, printing))
    order = order_asked(asked, shop, wanted)
    if not isinstance(order, LabelOrder):
        return refuse(*order, as_json=asked.as_data)
    values = _labels(shop, wanted, order, printing)
    if isinstance(values, tuple):
        tell(values, as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    counted = [(values[code], count) for code, count in wanted.counts.items()]
    paper = label_paper(order.kind, printing, counted, around(shop, order))
    return _pressed(asked, shop, store, paper, *_without_quantity(values.values(), order))


def _labels(
    shop: Ready, wanted: LabelsAsked, order: LabelOrder, printing: Printing
) -> Mapping[str, Mapping[str, Value]] | tuple[Problem, ...]:
    """What the label of each stock code says, or all that stands in the way of them."""
    found = {code: labelled(shop, shop.sizes[code], order, printing.stock) for code in wanted.counts}
    missing = tuple(chain.from_iterable(one for one in found.values() if isinstance(one, tuple)))
    if missing:
        return missing
    values = {
        code: label(order.kind, one, order.speech) for code, one in found.items() if isinstance(one, Labelled)
    }
    unfitting = tuple(unfit(shop, printing.stock, order, values))
    return unfitting or values


def around(shop: Ready, order: LabelOrder) -> Mapping[str, Value]:
    """What a page of labels says besides its labels."""
    words, language = order.speech.words, order.speech.language
    usual, *_others = shop.shop.maker.languages_of_labels(order.market)
    market = words["markets"][order.market]
    return {
        "market": order.market if language == usual else f"{order.market}-{language}",
        "title": words["labels"][f"title_{order.kind}"].format(market=market),
        "house": shop.shop.maker.name,
        "language": language,
        "dated": shop.house.as_of.isoformat(),
    }


def calibration(shop: Ready, printing: Printing) -> Document:
    """The page to hold against a sheet of labels before the first is printed."""
    day = shop.house.as_of.isoformat()
    return calibration_page(printing, shop.house.words, day, shop.shop.maker.language)


def _pressed(asked: CommandOptions, shop: Ready, store: Store, paper: Document, *notes: str) -> int:
    made = pressed((paper,), shop.presentation.theme, store)
    if made.refused:
        place = shop.known.places.of(("maker.yaml", "name"))
        tell((refusal(made.refused[0], "the house", place),), as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    write_papers(asked, made.files, *notes)
    return 0


def _without_quantity(labels: Iterable[Mapping[str, Value]], order: LabelOrder) -> Iterator[str]:
    """Which labels say no net quantity, because it is not proven."""
    codes = [str(one["name"]) for one in labels if one["quantity"] is None]
    if codes:
        yield (
            f"{', '.join(codes)}: the net quantity is not proven and is left off for {order.market}; "
            "weigh five finished candles and write declared, or weigh each one and say it elsewhere on it"
        )
