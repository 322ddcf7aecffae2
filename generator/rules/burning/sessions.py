"""Sessions of a burn test as weighed: what a row must contain, what two rows must agree on, what blocks the hours.

A vessel that cracked and a candle that re-ignited are recorded as ``outcome: fault`` with a note that begins
``cracked`` or ``re-ignited``; a note that mentions either in other words, such as broke, shattered, burst, leaked
or flared up again, must state which it means.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from generator.model.accepted import check_of
from generator.model.burn_tests import Session
from generator.problems import Fault, Path, warning

LEAST_RATE_G_PER_H: Final = 1.5
MOST_RATE_G_PER_H: Final = 15.0
"""Rates per wick between which a row is not questioned (physics.md D1, CHOICE)."""

JOIN_TOLERANCE_G: Final = 0.5
"""What trimming and dust may take between two sessions (physics.md D1, CHOICE)."""

SESSION_TOLERANCE_H: Final = 0.5
"""How far a session may exceed the longest one the papers allow before it is reported (D1, CHOICE)."""

TALLEST_FLAME_MM: Final = 75.0
"""EN 15493, flame of a container candle (standards.md F28 and V53, FOUND-2nd)."""

_CRACKED: Final = "cracked"
_RE_IGNITED: Final = "re-ignited"
BLOCKING_NOTES: Final = (_CRACKED, _RE_IGNITED)
"""How the note of a fault begins when the vessel cracked or the candle relit itself (CHOICE)."""

_MENTIONS: Final = (
    re.compile(
        r"crack(?!l)|\b(?:break(?:s|ing|age)?|broken?|burst(?:ing)?|split(?:s|ting)?)\b|shatter|\bleak",
        re.IGNORECASE,
    ),
    re.compile(
        r"re-?ignit|\b(?:flared|flamed|caught fire)(?: up)? again\b|\b(?:re)?lit (?:by )?itself\b",
        re.IGNORECASE,
    ),
)
"""The same mentioned anywhere in a note (CHOICE of words); a wick that crackles is none of it."""

_REMEDY: Final = "test a build that burns safely; until then write status: trial and no burn_time"

_READINGS_DECIMALS: Final = 6
"""Scale readings are decimal; rounding to a microgram removes what binary subtraction adds."""


@dataclass(frozen=True, slots=True)
class SessionRow:
    """One session and its position in the table as written, counted from 0."""

    index: int
    session: Session

    def __str__(self) -> str:
        return f"session {self.session.session} of piece {self.session.piece}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What rows are compared with: wicks in one candle, and the longest session the papers allow."""

    wicks: int
    longest_session_h: float


def pieces_in_order(sessions: Iterable[Session]) -> tuple[tuple[SessionRow, ...], ...]:
    """The rows of each piece by session number, pieces by name, whatever the table's order."""
    rows = sorted(
        (SessionRow(index, session) for index, session in enumerate(sessions)),
        key=lambda row: (row.session.piece, row.session.session, -row.session.before_g),
    )
    names = dict.fromkeys(row.session.piece for row in rows)
    return tuple(tuple(row for row in rows if row.session.piece == name) for name in names)


def lost_g(session: Session) -> float:
    """The weight one session burnt away.

    w = before - after

    session: one row, weights in g.
    Holds where both weights were read on the same scale, before lighting (trimmed) and after cooling.
    Source: physics.md D1 (CHOICE).

    >>> lost_g(Session(piece="A", session=1, hours=4, before_g=395.2, after_g=377.6, outcome="ok"))
    17.6
    """
    return round(session.before_g - session.after_g, _READINGS_DECIMALS)


def is_weighed(session: Session) -> bool:
    """Whether time passed and weight was lost: otherwise the row has no rate."""
    return session.hours > 0 and lost_g(session) > 0


def is_sound(session: Session) -> bool:
    """Whether the candle burnt as it should through the whole session."""
    kept_alight = session.outcome in ("ok", "stopped_at_heel", "self_extinguished_at_heel")
    return kept_alight and is_weighed(session) and not _flame_is_too_tall(session)


def longest_sound_session_h(sessions: Iterable[Session]) -> float | None:
    """The longest session through which a candle burnt as it should; None without one."""
    return max((session.hours for session in sessions if is_sound(session)), default=None)


def full_pool_h(sessions: Iterable[Session]) -> float | None:
    """The longest time a piece took in its first session to melt to the edge; None where not noted."""
    first = (rows[0].session for rows in pieces_in_order(sessions))
    noted = (s.full_pool_h for s in first if s.full_pool_h is not None and is_sound(s))
    return max(noted, default=None)


def row_faults(test: int, sessions: Iterable[Session], expected: Expected) -> tuple[Fault, ...]:
    """What is wrong with the rows of one table, the ``test``-th file of a size's ``burn_time``."""
    pieces = pieces_in_order(sessions)
    rows = (row for piece in pieces for row in piece)
    pairs = (pair for piece in pieces for pair in pairwise(piece))
    return (
        *(fault for row in rows for fault in _row_faults(test, row, expected)),
        *(fault for earlier, later in pairs for fault in _pair_faults(test, earlier, later)),
    )


def blocking_faults(
    test: int, sessions: Iterable[Session], *, same_vessel: bool = True, same_wicks: bool = True
) -> tuple[Fault, ...]:
    """What no rate outweighs in a test: a cracked vessel, a tall flame, a re-ignition.

    A crack counts against every candle in the same vessel, a flame against every one with the same wicks.
    """
    rows = [row for piece in pieces_in_order(sessions) for row in piece]
    cracks = (fault for row in rows if same_vessel for fault in _noted(test, row, _CRACKED))
    flames = (fault for row in rows if same_wicks for fault in _flames(test, row))
    return (*cracks, *flames)


def _path(test: int, row: SessionRow, column: str) -> Path:
    return ("burn_time", test, row.index, column)


def _row_faults(test: int, row: SessionRow, expected: Expected) -> Iterator[Fault]:
    session = row.session
    if session.hours <= 0:
        yield Fault(
            path=_path(test, row, "hours"),
            what=f"hours is {session.hours:g}; {row} took no time",
            why="the burn rate is weight lost per hour, and the burn hours follow from it",
            fix="hours: as noted while burning, with a point or as hours:minutes",
        )
    at_fault = session.outcome == "fault"
    if lost_g(session) < 0 or (lost_g(session) == 0 and not at_fault):
        yield _no_loss(test, row)
    if is_weighed(session) and not at_fault:
        yield from _strange_rate(test, row, expected.wicks)
    if session.hours > expected.longest_session_h + SESSION_TOLERANCE_H:
        yield warning(
            path=_path(test, row, "hours"),
            what=(
                f"{row} lasted {session.hours:g} h, longer than the {expected.longest_session_h:g} "
                "h the papers allow"
            ),
            why="a candle burns hotter in a long session, so its rate is not that of normal use",
            fix=(
                f"hours: at most {expected.longest_session_h:g} in the next test, or leave "
                "the row if it is right"
            ),
            check=check_of("long-session", f"{row}"),
        )
    yield from _unclear_note(test, row)


def _no_loss(test: int, row: SessionRow) -> Fault:
    session, loss = row.session, lost_g(row.session)
    change = f"gains {-loss:g} g" if loss < 0 else "loses nothing"
    return Fault(
        path=_path(test, row, "after_g"),
        what=f"{row} {change} ({session.before_g:g} g before, {session.after_g:g} g after)",
        why="a burning candle gets lighter, so the burn hours would be wrong",
        fix="correct before_g and after_g to what the scale showed, or delete the row",
    )


def _strange_rate(test: int, row: SessionRow, wicks: int) -> Iterator[Fault]:
    session, loss = row.session, lost_g(row.session)
    per_wick = loss / session.hours / wicks
    if not LEAST_RATE_G_PER_H <= per_wick <= MOST_RATE_G_PER_H:
        yield warning(
            path=_path(test, row, "after_g"),
            what=f"{row} loses {loss:g} g in {session.hours:g} h, {per_wick:.3g} g/h for each wick",
            why=(
                f"candles burn {LEAST_RATE_G_PER_H:g} to {MOST_RATE_G_PER_H:g} g/h for each "
                "wick, so a weight or a time may be mistyped"
            ),
            fix=(
                "correct hours and weights to what was noted while burning, or leave the row if it is right"
            ),
            check=check_of("strange-rate", f"{row}"),
        )


def _unclear_note(test: int, row: SessionRow) -> Iterator[Fault]:
    for word, mention in zip(BLOCKING_NOTES, _MENTIONS, strict=True):
        if mention.search(row.session.note) and _blocking_note(row.session) is None:
            yield Fault(
                path=_path(test, row, "note"),
                what=(
                    f"the note '{row.session.note}' of {row} does not make clear whether the candle {word}"
                ),
                why="a candle that did cannot be sold with burn hours, whatever its rate",
                fix=f"outcome: fault and a note that begins '{word}'; if it did not, reword the note",
            )


def _blocking_note(session: Session) -> str | None:
    begins = session.note.strip().lower()
    if session.outcome != "fault":
        return None
    return next((word for word in BLOCKING_NOTES if begins.startswith(word)), None)


def _flame_is_too_tall(session: Session) -> bool:
    return session.flame_mm is not None and session.flame_mm > TALLEST_FLAME_MM


def _pair_faults(test: int, earlier: SessionRow, later: SessionRow) -> Iterator[Fault]:
    if later.session.session == earlier.session.session:
        yield Fault(
            path=_path(test, later, "session"),
            what=f"{later} is entered twice",
            why="its hours and weight would count twice",
            fix="session: the number of the burn, counted from 1 for each piece",
        )
        return
    between_g = round(earlier.session.after_g - later.session.before_g, _READINGS_DECIMALS)
    weights = f"({earlier.session.after_g:g} g after, {later.session.before_g:g} g before)"
    if between_g > JOIN_TOLERANCE_G:
        yield Fault(
            path=_path(test, later, "before_g"),
            what=(
                f"{between_g:g} g are missing between session {earlier.session.session} and {later} {weights}"
            ),
            why="wax burnt in unrecorded time makes the burn hours doubtful",
            fix="add the missing session as a row, with outcome: fault if its time is uncertain",
        )
    if -between_g > JOIN_TOLERANCE_G:
        yield Fault(
            path=_path(test, later, "before_g"),
            what=f"piece {later.session.piece} gains {-between_g:g} g between session "
            f"{earlier.session.session} and session {later.session.session} {weights}",
            why="a candle does not gain weight by itself, so one of the two weights is wrong",
            fix=(
                "correct after_g and before_g to what the scale showed, or rename the piece "
                "if it is another candle"
            ),
        )


def _flames(test: int, row: SessionRow) -> Iterator[Fault]:
    session = row.session
    if _flame_is_too_tall(session):
        yield Fault(
            path=_path(test, row, "flame_mm"),
            what=(
                f"the flame was {session.flame_mm:g} mm high in {row}; the limit is {TALLEST_FLAME_MM:g} mm"
            ),
            why="a taller flame fails EN 15493, so no burn hours are printed and no sheet is issued",
            fix=f"use a smaller wick; {_REMEDY}",
        )
    yield from _noted(test, row, _RE_IGNITED)


def _noted(test: int, row: SessionRow, word: str) -> Iterator[Fault]:
    if _blocking_note(row.session) == word:
        yield Fault(
            path=_path(test, row, "note"),
            what=f"the candle {word} in {row}: '{row.session.note}'",
            why="it can set fire to a home, so no burn hours are printed and no sheet is issued",
            fix=f"{_REMEDY}. A fault with a note that begins '{word}' always blocks the sheet",
        )
