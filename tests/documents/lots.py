"""Invented lots and a recall of the sample house."""

from dataclasses import replace
from datetime import date

from generator.documents.house import House
from generator.documents.pages.recall_notices import recalled
from generator.model.lots import Lot, Recall
from tests.documents.sample_house import house

OLD = Lot(
    lot="SM-30-2026120-T4RD", stock_code="SM-30", poured_on=date(2026, 4, 30), made=48, sheet_revision=1
)
NEW = Lot(
    lot="SM-30-2026301-K7QX",
    stock_code="SM-30",
    poured_on=date(2026, 10, 28),
    made=61,
    sheet_revision=2,
    sent_to=("The Corner Shop",),
)
UNISSUED = Lot(lot="SM-30-2026060-FFQX", stock_code="SM-30", poured_on=date(2026, 3, 1), made=12)
RECALL = Recall(
    id="cracked-glass",
    lots=("sm 30 2026120 t4rd",),
    hazard="The glass can crack while the candle burns, and hot wax runs out.",
    what_to_do=("Put it outside.", "Write to us."),
    remedy="Your money back, or a new candle, as you choose.",
    contact="hello@saltmarsh.example",
    on=date(2026, 10, 30),
)


def with_lots(*lots: Lot, recall: Recall | None = None, shop: House | None = None) -> House:
    """A house with these lots, and a recall if there is one."""
    return replace(shop or house(), lots=lots, recalls=recalled([recall] if recall else [], lots))
