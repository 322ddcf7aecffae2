"""The positions of labels on bought sheets and rolls, and the page that tests a printer's alignment."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from generator.document import Document, Value
from generator.documents.house import Words
from generator.documents.printed import SPACE
from generator.model.label_stock import BoxLabel, LabelStock, RoundLabel

INSET_MM: Final = 1.5
"""The free margin along a label's edge, because no printer and no knife is exact. (CHOICE)"""

_LONGEST_RULER_MM: Final = 100
_BESIDE_RULER_MM: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Printing:
    """How labels are laid out: the first place used on a part-used sheet, and whether outlines are printed."""

    stock: LabelStock
    start: int = 1
    outlines: bool = False


def laid_out(printing: Printing, counts: Sequence[int]) -> tuple[tuple[Mapping[str, Value], ...], ...]:
    """Every label's place, page by page: all copies of the first label, then of the second."""
    spots = _spots(printing)
    pages: dict[int, list[Mapping[str, Value]]] = {}
    for label, count in enumerate(counts):
        for _ in range(count):
            page, left_mm, top_mm = next(spots)
            pages.setdefault(page, []).append(
                {"left": short_length(left_mm), "top": short_length(top_mm), "label": label}
            )
    return tuple(tuple(page) for page in pages.values())


def on_stock(printing: Printing) -> dict[str, Value]:
    """What a template needs of the page and of a label."""
    stock = printing.stock
    width_mm, height_mm = stock.label_mm
    page_width_mm, page_height_mm = stock.page_mm
    return {
        "page": {"width": short_length(page_width_mm), "height": short_length(page_height_mm)},
        "label": {
            "round": isinstance(stock.label, RoundLabel),
            "width": short_length(width_mm),
            "height": short_length(height_mm),
            "corner": short_length(stock.label.corner_mm if isinstance(stock.label, BoxLabel) else 0.0),
            "inset": short_length(INSET_MM),
        },
        "outlines": printing.outlines,
    }


def calibration_page(printing: Printing, words: Words, day: str, language: str) -> Document:
    """The outline of every label, and rulers across and down."""
    given, stock = words["labels"], printing.stock
    ruler_mm = _ruler_mm(stock)
    return Document(
        path=f"calibration-{stock.id}.pdf",
        template="papers/calibration.typ",
        value={
            **on_stock(printing),
            "title": given["title_calibration"].format(stock=stock.name),
            "language": language,
            "dated": day,
            "spots": laid_out(Printing(stock=stock), (stock.on_a_page,))[0],
            "told": (
                given["calibration"].format(stock=stock.name),
                given["calibration_rulers"].format(length=f"{ruler_mm}{SPACE}mm"),
            ),
            "ruler": str(ruler_mm),
        },
    )


def _ruler_mm(stock: LabelStock) -> int:
    """The longest that fits the page both ways, in whole centimetres."""
    room_mm = min(stock.page_mm) - _BESIDE_RULER_MM
    return max(10, min(_LONGEST_RULER_MM, int(room_mm // 10) * 10))


def short_length(length_mm: float) -> str:
    """A length in millimetres, to the thousandth."""
    return f"{round(length_mm, 3):g}" if length_mm < 1000 else f"{length_mm:.3f}"


def _spots(printing: Printing) -> Iterator[tuple[int, float, float]]:
    """Page, left and top of each place, row by row."""
    stock, place = printing.stock, printing.start - 1
    while True:
        page, on_page = divmod(place, stock.on_a_page)
        row, column = divmod(on_page, stock.columns)
        left_mm = stock.margin.left_mm + column * stock.pitch.across_mm
        yield page, left_mm, stock.margin.top_mm + row * stock.pitch.down_mm
        place += 1
