"""Pieces of a burn test: which sessions count, their sums, and what was left out and why."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import fsum
from typing import Final

from generator.model.burn_tests import Session
from generator.rules.burning.sessions import SessionRow, is_weighed, lost_g, pieces_in_order
from generator.rules.calculation import Calculation, least

MOST_EXCLUDED: Final = 0.20
"""Share of a piece's hours that may be left out before the whole piece is (physics.md D2, CHOICE)."""

WHOLE_LIFE_COVERAGE: Final = 0.8
"""Share of the burnable wax a piece must burn to represent a whole life (physics.md D3, CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Burn:
    """One session that counts."""

    hours: float
    loss_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One candle burnt: W, T and r of its sessions that count.

    ``coverage`` is the share of the burnable wax it burnt, at most 1.
    """

    file: str
    name: str
    burns: tuple[Burn, ...]
    loss_g: float
    hours: float
    rate_g_per_h: float
    coverage: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Excluded:
    """What does not count, from which row on; ``session`` is None if the whole piece does not."""

    file: str
    row: int
    piece: str
    session: int | None
    hours: float
    reason: str

    @property
    def what(self) -> str:
        """The piece, or the session of it, and its hours."""
        piece = f"piece {self.piece}"
        return f"{piece if self.session is None else f'session {self.session} of {piece}'}, {self.hours:g} h"

    def __str__(self) -> str:
        return f"{self.file}: {self.what}: {self.reason}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drowned:
    """A piece whose flame drowned with wax above the stop depth still to burn."""

    file: str
    name: str
    row: int
    unburnt_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """The pieces of one or more tables, what was left out, and which pieces drowned."""

    pieces: tuple[Piece, ...]
    excluded: tuple[Excluded, ...]
    drowned: tuple[Drowned, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tested:
    """All rows of one piece, and which of them count."""

    file: str
    rows: tuple[SessionRow, ...]
    counting: tuple[SessionRow, ...]
    left_out: tuple[SessionRow, ...]

    @property
    def hours(self) -> float:
        return fsum(row.session.hours for row in self.rows)

    @property
    def excluded_share(self) -> float:
        left_out_h = fsum(row.session.hours for row in self.left_out)
        return left_out_h / self.hours if self.hours else 1.0

    @property
    def keeps_enough(self) -> bool:
        return bool(self.counting) and self.excluded_share <= MOST_EXCLUDED


def reckon(tables: Iterable[tuple[str, tuple[Session, ...]]], burnable_g: float) -> Reckoned:
    """Every piece of every table (file, sessions), ordered by file and name."""
    burnt = [
        _tested(file, rows)
        for file, sessions in sorted(tables, key=lambda table: table[0])
        for rows in pieces_in_order(sessions)
    ]
    return Reckoned(
        pieces=tuple(_piece(tested, burnable_g) for tested in burnt if tested.keeps_enough),
        excluded=tuple(excluded for tested in burnt for excluded in _excluded(tested)),
        drowned=tuple(drowned for tested in burnt for drowned in _drowned(tested, burnable_g)),
    )


def life(number: int, hours: float, burnable_g: float, loss_g: float) -> Calculation:
    """How long the piece of that number would have burnt to the stop depth at its own rate, in h.

    life = T m_b / W

    hours: T, its hours that count, h.
    burnable_g: m_b, the wax above the stop depth, g.
    loss_g: W, the weight lost in those hours, g.
    Holds for pieces that burnt at least 0.8 of the burnable wax.
    Source: physics.md D3 (CHOICE).

    >>> round(life(1, 27.5, 141.39798, 142.4).value, 5)
    27.30649
    """
    burnt, lost = f"burnt_{number}_h", f"lost_{number}_g"
    return Calculation(
        f"{burnt} * burnable_g / {lost}", {"burnable_g": burnable_g, burnt: hours, lost: loss_g}
    )


def least_life(pieces: Sequence[Piece], burnable_g: float) -> Calculation | None:
    """The shortest life of a piece that burnt down, in h; None without one."""
    lives = [
        life(number, piece.hours, burnable_g, piece.loss_g)
        for number, piece in enumerate(pieces, start=1)
        if piece.coverage >= WHOLE_LIFE_COVERAGE
    ]
    if not lives:
        return None
    return Calculation(
        least([one.formula for one in lives]), {name: n for one in lives for name, n in one.inputs.items()}
    )


def _tested(file: str, rows: tuple[SessionRow, ...]) -> _Tested:
    by_count: dict[bool, list[SessionRow]] = {True: [], False: []}
    for row in rows:
        by_count[row.session.outcome != "fault" and is_weighed(row.session)].append(row)
    return _Tested(file=file, rows=rows, counting=tuple(by_count[True]), left_out=tuple(by_count[False]))


def _piece(tested: _Tested, burnable_g: float) -> Piece:
    burns = tuple(Burn(hours=row.session.hours, loss_g=lost_g(row.session)) for row in tested.counting)
    loss_g, hours = fsum(burn.loss_g for burn in burns), fsum(burn.hours for burn in burns)
    return Piece(
        file=tested.file,
        name=tested.rows[0].session.piece,
        burns=burns,
        loss_g=loss_g,
        hours=hours,
        rate_g_per_h=loss_g / hours,
        coverage=min(1.0, loss_g / burnable_g),
    )


def _excluded(tested: _Tested) -> Iterator[Excluded]:
    for row in tested.left_out:
        yield Excluded(
            file=tested.file,
            row=row.index,
            piece=row.session.piece,
            session=row.session.session,
            hours=row.session.hours,
            reason=_reason(row.session),
        )
    if not tested.keeps_enough:
        yield Excluded(
            file=tested.file,
            row=tested.rows[0].index,
            piece=tested.rows[0].session.piece,
            session=None,
            hours=tested.hours,
            reason=f"{100 * tested.excluded_share:.3g} % of its hours do not count, "
            f"more than {100 * MOST_EXCLUDED:g} %",
        )


def _reason(session: Session) -> str:
    if session.outcome == "fault":
        return session.note.strip() or "a fault without a note"
    return "no time passed or no weight was lost"


def _drowned(tested: _Tested, burnable_g: float) -> Iterator[Drowned]:
    for row in tested.rows:
        if row.session.outcome != "drowned":
            continue
        burnt_g = fsum(lost_g(each.session) for each in tested.rows)
        if burnt_g < burnable_g:
            yield Drowned(
                file=tested.file, name=row.session.piece, row=row.index, unburnt_g=burnable_g - burnt_g
            )
