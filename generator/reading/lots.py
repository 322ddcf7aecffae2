"""The book of lots: a table that grows by a row for every pour."""

from typing import Final

from generator.model.lots import Lot
from generator.reading.gathering import ANY, Gathering

LOTS: Final = "lots.csv"


def read_lots(gathering: Gathering) -> tuple[Lot, ...]:
    """Every lot in the order of the table; none where there is no table or it is at fault."""
    lots = gathering.table(LOTS, Lot) if gathering.has(LOTS) else ()
    if lots is None:
        gathering.broken.add(("lot", ANY))
    return lots or ()
