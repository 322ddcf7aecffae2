"""Whether labels fit their stock; where one does not, by how much, and which stock would hold it."""

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import Final

from generator.commands.labelled import LabelOrder, labelled
from generator.document import Value
from generator.documents.papers.label_layout import INSET_MM, Printing
from generator.documents.papers.label_text import label, label_paper
from generator.making.load_for_papers import Ready
from generator.model.label_stock import BoxLabel, LabelStock, Margin, Pitch, RoundLabel
from generator.problems import Problem
from generator.writing.pdf import Press, Refused, TooLarge, press

_TAGS: Final = (("A8", 52, 74), ("A7", 74, 105), ("A6", 105, 148))
"""Sizes of a tag to hang on a candle, in millimetres. (ISO 216, MEMORY)"""


def unfit(
    shop: Ready, stock: LabelStock, order: LabelOrder, labels: Mapping[str, Mapping[str, Value]]
) -> Iterator[Problem]:
    """What is wrong with each label that cannot be printed as it is, and what would hold it."""
    with press(shop.presentation.theme) as machine:
        for value in labels.values():
            refused = _refused(machine, stock, order, value)
            if refused is None:
                continue
            write = ", or ".join(_ways_out(machine, shop, stock, order, refused.too_large[0]))
            yield _too_large(shop, stock, order, refused.too_large[0], write)


def _too_large(shop: Ready, stock: LabelStock, order: LabelOrder, part: TooLarge, write: str) -> Problem:
    way = "across" if part.across else "down"
    return Problem(
        place=shop.known.places.of((f"label-stock/{stock.id}.yaml", "label")),
        what=(
            f"the {order.kind} label of {part.part} for {order.market} needs {part.needs_mm:.1f} mm {way} "
            f"in the smallest letters allowed, and has {part.has_mm:.1f} mm inside an edge of {INSET_MM} mm: "
            f"{part.needs_mm - part.has_mm:.1f} mm too little"
        ),
        why="smaller letters or signs are not allowed, and nothing on it may be left off",
        write=write,
    )


def _ways_out(
    machine: Press, shop: Ready, stock: LabelStock, order: LabelOrder, part: TooLarge
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


def _holds(machine: Press, shop: Ready, stock: LabelStock, order: LabelOrder, code: str) -> bool:
    one = labelled(shop, shop.sizes[code], order, stock)
    if isinstance(one, tuple):
        return False
    return _refused(machine, stock, order, label(order.kind, one, order.speech)) is None


def _larger(shop: Ready, stock: LabelStock) -> Sequence[LabelStock]:
    larger = (other for other in shop.shop.label_stock.values() if other.area_mm2 > stock.area_mm2)
    return sorted(larger, key=lambda other: other.area_mm2)


def _refused(
    machine: Press, stock: LabelStock, order: LabelOrder, value: Mapping[str, Value]
) -> Refused | None:
    """Why a single label cannot be printed, if it cannot."""
    around = {
        "market": order.market,
        "title": order.kind,
        "house": "",
        "language": order.speech.language,
        "dated": "2000-01-01",
    }
    result = machine.set(label_paper(order.kind, Printing(stock=stock), [(value, 1)], around))
    return result if isinstance(result, Refused) else None
