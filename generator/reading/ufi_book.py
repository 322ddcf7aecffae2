"""The book of the UFIs that were made here, a table that grows by a row for each."""

from typing import Final

from generator.model.notified import MadeUfi
from generator.reading.gathering import Gathering
from generator.reading.source_file import SourceFile

UFI_BOOK: Final = "ufi.csv"


def read_made_ufis(gathering: Gathering) -> tuple[MadeUfi, ...]:
    """Every UFI in the order of the table; none where there is no table or it is at fault."""
    return gathering.book("ufi", UFI_BOOK, _made_ufis)


def _made_ufis(file: SourceFile) -> tuple[MadeUfi, ...] | None:
    return file.table(MadeUfi)
