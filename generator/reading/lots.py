"""The book of lots: a table that grows by a row for every pour."""

from typing import Final

from generator.model.lots import Lot
from generator.reading.gathering import ANY, Gathering

LOTS: Final = "lots.csv"
MOST_LOTS: Final = 30_000
"""A build of so many takes 500 MB (measured: 14 kB a lot)."""


def read_lots(gathering: Gathering) -> tuple[Lot, ...]:
    """Every lot in the order of the table; none where there is no table or it is at fault."""
    lots = gathering.table(LOTS, Lot) if gathering.has(LOTS) else ()
    if lots is not None and len(lots) > MOST_LOTS:
        gathering.note(
            gathering.places.of((LOTS, MOST_LOTS)),
            what=f"the book has {len(lots)} lots, and it may have {MOST_LOTS}",
            why="each lot has a page of its own, and with more a build would fill a computer's memory",
            write="the lots that may still be in somebody's house; keep the older ones in another file outside content",
        )
        lots = None
    if lots is None:
        gathering.broken.add(("lot", ANY))
    return lots or ()
