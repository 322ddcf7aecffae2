"""Whether a label stock's measurements are possible: labels on the sheet, and not overlapping."""

from collections.abc import Iterator
from typing import Final

from generator.model.label_stock import LabelStock
from generator.model.shop import Shop
from generator.problems import Fault, Path

_WHY: Final = "every label after the first would be printed off its place"
_TOLERANCE_MM: Final = 0.05


def label_stock_faults(shop: Shop) -> Iterator[Fault]:
    """What is wrong with the measurements of each kind of label."""
    for id_, stock in shop.label_stock.items():
        path: Path = (f"label-stock/{id_}.yaml",)
        if (stock.sheet is None) == (stock.roll_mm is None):
            yield _one_of_two(path, stock)
        else:
            yield from _beyond_the_page(path, stock)
        yield from _upon_another(path, stock)
        if stock.roll_mm is not None and stock.rows != 1:
            yield _rows_of_a_roll(path, stock)


def _one_of_two(path: Path, stock: LabelStock) -> Fault:
    what = "has neither a sheet nor a roll" if stock.sheet is None else "has both a sheet and a roll"
    return Fault(
        path=path,
        what=f"label stock {stock.id} {what}",
        why=_WHY,
        fix="sheet: A4, or Letter; or roll: ... mm",
    )


def _rows_of_a_roll(path: Path, stock: LabelStock) -> Fault:
    return Fault(
        path=(*path, "rows"),
        what=f"rows is {stock.rows} on a roll, which prints one row at a time",
        why=_WHY,
        fix="rows: 1, or delete this line",
    )


def _beyond_the_page(path: Path, stock: LabelStock) -> Iterator[Fault]:
    width_mm, height_mm = stock.label_mm
    page_width_mm, page_height_mm = stock.page_mm
    across_mm = stock.margin.left_mm + (stock.columns - 1) * stock.pitch.across_mm + width_mm
    down_mm = stock.margin.top_mm + (stock.rows - 1) * stock.pitch.down_mm + height_mm
    for key, needs_mm, has_mm in (("columns", across_mm, page_width_mm), ("rows", down_mm, page_height_mm)):
        if needs_mm > has_mm + _TOLERANCE_MM:
            yield Fault(
                path=path,
                what=f"the labels reach {needs_mm:g} mm, but the page ends at {has_mm:g} mm",
                why="the last labels would be cut off",
                fix=f"use fewer {key}, or a smaller margin or pitch, as printed on the pack",
            )


def _upon_another(path: Path, stock: LabelStock) -> Iterator[Fault]:
    width_mm, height_mm = stock.label_mm
    for key, pitch_mm, size_mm, count in (
        ("across", stock.pitch.across_mm, width_mm, stock.columns),
        ("down", stock.pitch.down_mm, height_mm, stock.rows),
    ):
        if count > 1 and pitch_mm < size_mm - _TOLERANCE_MM:
            yield Fault(
                path=(*path, "pitch", key),
                what=f"pitch {key} is {pitch_mm:g} mm, less than the label's {size_mm:g} mm",
                why="each label would be printed over the next",
                fix=f"{key}: {size_mm:g} mm, or more if there are gaps",
            )
