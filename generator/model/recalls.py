"""Recall notices: which lots must not be used any more, why, and what to do about it."""

from dataclasses import dataclass

from generator.model.dates import Day
from generator.model.entry import ENTRY
from generator.model.lots import LotCode
from generator.model.words import FreeText, Id, StockCode


@dataclass(frozen=True, slots=True, kw_only=True)
class Recall:
    """A product safety recall: of single lots, and of every lot of a stock code where ``stock_codes`` names it.

    ``what_to_do`` are steps in their order, after the first one, which every notice has: stop using it.
    ``remedy`` is what the buyer gets: repair, replacement or money back.
    """

    __pydantic_config__ = ENTRY

    id: Id
    lots: tuple[LotCode, ...] = ()
    stock_codes: tuple[StockCode, ...] = ()
    hazard: FreeText
    what_to_do: tuple[FreeText, ...]
    remedy: FreeText | None = None
    contact: FreeText
    on: Day
    sold: FreeText | None = None
    notes: FreeText | None = None
