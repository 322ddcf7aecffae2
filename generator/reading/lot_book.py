"""The book of lots, a table that grows by a row for every pour, and the formulas its lots were poured by."""

from typing import Final

from generator.model.canonical import canonical
from generator.model.lots import Lot, PouredFormula
from generator.reading.gathering import Gathering
from generator.reading.source_file import SourceFile

LOTS: Final = "lots.csv"
POURED: Final = "poured"
"""The folder of poured formulas, one file each."""
MOST_LOTS: Final = 30_000
"""A build with this many takes 500 MB (measured: 14 kB a lot)."""


def read_lots(gathering: Gathering) -> tuple[Lot, ...]:
    """Every lot in the order of the table; none where there is no table or it has faults."""
    return gathering.book("lot", LOTS, _lots)


def _lots(file: SourceFile) -> tuple[Lot, ...] | None:
    lots = file.table(Lot)
    if lots is None or len(lots) <= MOST_LOTS:
        return lots
    file.note(
        file.places.of((LOTS, MOST_LOTS)),
        what=f"the file lists {len(lots)} lots; it may list {MOST_LOTS}",
        why="each lot has its own page, and more would fill the computer's memory",
        fix=(
            "keep the lots that may still be in someone's home, and move older ones to a file outside content"
        ),
    )
    return None


def read_poured(gathering: Gathering) -> dict[str, PouredFormula]:
    """Every poured formula by name; the rules decide whether it was edited."""
    names = (file.removesuffix(".yaml") for file in gathering.names(POURED) if file.endswith(".yaml"))
    return gathering.sound(
        "poured", ((name, gathering.read(f"{POURED}/{name}.yaml", _poured)) for name in names)
    )


def _poured(file: SourceFile) -> PouredFormula | None:
    _, recorded = file.remembered(lambda: _canonical_text(file))
    return PouredFormula(name=file.stem, recorded=recorded.decode()) if recorded else None


def _canonical_text(file: SourceFile) -> bytes:
    """The text of one file, empty where it has faults."""
    met = len(file.problems)
    data = file.yaml()
    file.tell_alike(
        met,
        why="in a recall, no one could say what went into its lots",
        fix="restore the file from a backup or version control",
    )
    return b"" if data is None else canonical(data).encode()
