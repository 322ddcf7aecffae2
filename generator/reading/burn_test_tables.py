"""Burn tests: a table of sessions, and beside it what was tested."""

from typing import Final

from generator.model.burn_tests import BurnTest, Session, TestNotes
from generator.reading.gathering import Gathering

BURN_TESTS: Final = "burn-tests"
MOST_SESSIONS: Final = 1_000
"""Of all the pieces of one test (CHOICE); what is worked out from them takes the square of their number."""


def read_burn_tests(gathering: Gathering) -> dict[str, BurnTest]:
    """Every burn test by its table's file, as a candle's ``burn_time`` names it."""
    files = [f"{BURN_TESTS}/{name}" for name in gathering.names(BURN_TESTS)]
    for file in files:
        if file.endswith(".yaml"):
            _needs_its_table(gathering, file)
    tables = (file for file in files if file.endswith(".csv"))
    return gathering.sound("burn-test", ((file, _burn_test(gathering, file)) for file in tables))


def _burn_test(gathering: Gathering, file: str) -> BurnTest | None:
    if _is_new(gathering, file):
        return None
    sessions = gathering.table(file, Session)
    if sessions is not None and len(sessions) > MOST_SESSIONS:
        gathering.note(
            gathering.places.of((file, MOST_SESSIONS)),
            what=f"the table has {len(sessions)} sessions, and one test may have {MOST_SESSIONS}",
            why="that is a candle that burns for months, and its chart could not be drawn",
            write="the sessions of one test alone; another test goes into a table of its own",
        )
        return None
    beside = file.removesuffix(".csv") + ".yaml"
    if not gathering.has(beside):
        return None if sessions is None else BurnTest(file=file, sessions=sessions)
    data = gathering.yaml(beside)
    notes = None if data is None else gathering.valid(TestNotes, "a burn test", (beside,), data)
    return None if sessions is None or notes is None else BurnTest(file=file, sessions=sessions, notes=notes)


def _is_new(gathering: Gathering, file: str) -> bool:
    """Whether only the header is written; a warning, because the first session takes hours to come."""
    lines = (gathering.text(file) or "").strip().splitlines()
    if len(lines) != 1:
        return False
    gathering.note(
        gathering.places.of((file,)),
        what="the table has no rows below its header",
        why="nothing can be worked out from it",
        write="one row or more below the header",
        check="empty-table",
    )
    return True


def _needs_its_table(gathering: Gathering, file: str) -> None:
    table = file.removesuffix(".yaml") + ".csv"
    if not gathering.has(table):
        gathering.note(
            gathering.places.of((file,)),
            what=f"there is no table {table} beside it",
            why="what was tested says nothing without the weighings",
            write=f"the sessions in {table}, or remove this file",
        )
