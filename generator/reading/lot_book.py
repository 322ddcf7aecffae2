"""The book of lots, a table that grows by a row for every pour, and the formulas its lots were poured by."""

from dataclasses import replace
from functools import partial
from typing import Final

from generator.model.canonical import canonical
from generator.model.lots import Lot, PouredFormula
from generator.reading.gathering import ANY, Gathering

LOTS: Final = "lots.csv"
POURED: Final = "poured"
"""The folder of the formulas that were poured, one file each."""
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


def read_poured(gathering: Gathering) -> dict[str, PouredFormula]:
    """Every formula that was poured, by its name; whether it is as it was recorded is for the rules to say."""
    poured = {}
    for file in gathering.names(POURED):
        name, _, ending = file.rpartition(".")
        if ending == "yaml":
            recorded = _recorded(gathering, f"{POURED}/{file}")
            if recorded:
                poured[name] = PouredFormula(name=name, recorded=recorded)
            else:
                gathering.broken.add(("poured", name))
    return poured


def _recorded(gathering: Gathering, file: str) -> str:
    """The canonical text of one file, nothing where it is at fault."""
    read, met = partial(_read, gathering, file), len(gathering.problems)
    _, remembered = gathering.remembered(file, lambda: read().encode())
    if remembered:
        return remembered.decode()
    # What could not be read is read again, because only its faults tell what is wrong with it; they are told once.
    del gathering.problems[met:]
    return read()


def _read(gathering: Gathering, file: str) -> str:
    """The program alone writes the file, so a copy mends it."""
    met = len(gathering.problems)
    data = gathering.yaml(file)
    gathering.problems[met:] = (
        replace(
            problem,
            why="what went into its lots could not be told on the day of a recall",
            write="the file as it was before, from version control or a copy",
        )
        for problem in gathering.problems[met:]
    )
    return "" if data is None else canonical(data)
