"""Burn tests: a table of sessions, and beside it what was tested."""

from typing import Final

from generator.model.burn_tests import BurnTest, Session, TestNotes
from generator.reading.gathering import Gathering
from generator.reading.source_file import SourceFile

BURN_TESTS: Final = "burn-tests"
MOST_SESSIONS: Final = 1_000
"""Sessions of all pieces of one test (CHOICE); working with them takes quadratic time."""


def read_burn_tests(gathering: Gathering) -> dict[str, BurnTest]:
    """Every burn test by its table's file, as named in a candle's ``burn_time``."""
    files = [f"{BURN_TESTS}/{name}" for name in gathering.names(BURN_TESTS)]
    for file in files:
        if file.endswith(".yaml"):
            _needs_its_table(gathering, file)
    tables = (file for file in files if file.endswith(".csv"))
    return gathering.sound("burn-test", ((file, _burn_test(gathering, file)) for file in tables))


def _burn_test(gathering: Gathering, file: str) -> BurnTest | None:
    sessions = gathering.read(file, _sessions)
    if sessions == ():
        return None
    beside = file.removesuffix(".csv") + ".yaml"
    has_notes = gathering.has(beside)
    notes = gathering.read(beside, _notes) if has_notes else None
    if sessions is None or (has_notes and notes is None):
        return None
    return gathering.remember(
        (file, sessions, notes), lambda: BurnTest(file=file, sessions=sessions, notes=notes)
    )


def _sessions(file: SourceFile) -> tuple[Session, ...] | None:
    """The rows of a table, empty where they are too few or too many; None where it has faults."""
    if _is_new(file):
        return ()
    sessions = file.table(Session)
    if sessions is None or len(sessions) <= MOST_SESSIONS:
        return sessions
    file.note(
        file.places.of((file.name, MOST_SESSIONS)),
        what=f"the table has {len(sessions)} sessions; one test may have {MOST_SESSIONS}",
        why="that would be a candle that burns for months, and its chart could not be drawn",
        fix="keep the sessions of one test, and move the others to a table of their own",
    )
    return ()


def _notes(file: SourceFile) -> TestNotes | None:
    data = file.yaml()
    return None if data is None else file.valid(TestNotes, "a burn test", (file.name,), data)


def _is_new(file: SourceFile) -> bool:
    """Whether there is only a header; a warning, because the first session takes hours."""
    lines = (file.text() or "").strip().splitlines()
    if len(lines) != 1:
        return False
    file.note(
        file.start,
        what="the table has no rows below its header",
        why="there is nothing to work from",
        fix="add at least one row below the header",
        check="empty-table",
    )
    return True


def _needs_its_table(gathering: Gathering, file: str) -> None:
    table = file.removesuffix(".yaml") + ".csv"
    if not gathering.has(table):
        gathering.note(
            gathering.places.of((file,)),
            what=f"there is no table {table} beside it",
            why="what was tested means nothing without the weighings",
            fix=f"put the sessions in {table}, or delete this file",
        )
