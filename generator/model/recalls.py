"""Recall notices: which lots must not be used any more, why, and what to do about it."""

from dataclasses import dataclass
from typing import Annotated, Final

from generator.model.about import NOTES, About
from generator.model.dates import Day
from generator.model.entry import Entry
from generator.model.lots import LotCode
from generator.model.words import FreeText, Id, StockCode

_MEANT: Final = "whoever has the candle must know whether it is meant"


@dataclass(frozen=True, slots=True, kw_only=True)
class Recall(Entry):
    """A product safety recall: of single lots, and of every lot of a stock code where ``stock_codes`` names it.

    ``what_to_do`` are steps in their order, after the first one, which every notice has: stop using it.
    ``remedy`` is what the buyer gets: repair, replacement or money back.
    """

    id: Id
    lots: Annotated[tuple[LotCode, ...], About(_MEANT, "[...]")] = ()
    stock_codes: Annotated[tuple[StockCode, ...], About(_MEANT, "[...]")] = ()
    hazard: Annotated[FreeText, About("whoever has the candle must know what it could do to them")]
    what_to_do: Annotated[
        tuple[FreeText, ...], About("whoever has the candle must know what to do with it", "[..., ...]")
    ]
    remedy: Annotated[FreeText | None, About("whoever has the candle must know what they get for it")] = None
    contact: Annotated[
        FreeText,
        About(
            "whoever has the candle must be able to ask",
            "... (an e-mail address, or a telephone number that costs nothing)",
        ),
    ]
    on: Annotated[Day, About("a notice without its date cannot be told from an older one")]
    sold: Annotated[FreeText | None, About(_MEANT)] = None
    notes: Annotated[FreeText | None, About(NOTES)] = None
