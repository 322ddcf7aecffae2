"""A line that counts, only on a terminal, for work that takes longer than a second."""

import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from time import monotonic
from typing import Any, Final, ParamSpec, TypeVar

from generator.writing.at_work import AtWork

_T = TypeVar("_T")
_P = ParamSpec("_P")

_QUIET_S: Final = 1.0
_EVERY_S: Final = 0.2
_USUAL_COLUMNS: Final = 80


class _Line:
    """The line in the terminal; nothing is written where there is no terminal."""

    def __init__(self) -> None:
        self._standing = 0
        self.begin()

    def begin(self) -> None:
        """Start the second that passes before anything is shown."""
        self._next_s = monotonic() + _QUIET_S
        self._process = os.getpid()

    def show(self, text: str) -> None:
        """Replace the text, unless the last one was shown only a moment ago."""
        now_s = monotonic()
        if now_s < self._next_s:
            return
        self._next_s = now_s + _EVERY_S
        # A copy of this process that does some of the work counts by itself, and shows nothing.
        if sys.stderr.isatty() and os.getpid() == self._process:
            text = text[: _columns() - 1]  # A terminal wraps a line that fills it.
            self._write(text.ljust(self._standing))
            self._standing = len(text)

    def clear(self) -> None:
        """Clear the line."""
        if self._standing:
            self._write(" " * self._standing + "\r")
            self._standing = 0

    def _write(self, text: str) -> None:
        print(f"\r{text}", end="", file=sys.stderr, flush=True)


def _columns() -> int:
    """The width of the terminal in characters; some terminals do not report it."""
    try:
        return os.get_terminal_size(sys.stderr.fileno()).columns or _USUAL_COLUMNS
    except OSError:
        return _USUAL_COLUMNS


_LINE: Final = _Line()


class Progress:
    """Counts steps of one kind of work, ``of`` a total."""

    def __init__(self, noun: str, of: int) -> None:
        self._noun = noun
        self._of = of
        self._steps = 0
        self._show()

    def step(self) -> None:
        """One more is done."""
        self._steps += 1
        self._show()

    def end(self) -> None:
        """Remove the line."""
        _LINE.clear()

    def _show(self) -> None:
        _LINE.show(f"{self._steps} of {self._of} {self._noun} ...")


def each_counted(noun: str, items: Iterable[_T], of: int) -> Iterator[_T]:
    """The items, of which there are ``of``, each counted as done when the next is asked for."""
    progress = Progress(noun, of)
    for item in items:
        yield item
        progress.step()
    progress.end()


def with_progress(noun: str, at_work: AtWork) -> AtWork:
    """The same work, counted as its results arrive."""

    def shown(work: Callable[[Any], Any], things: Sequence[Any]) -> Iterator[Any]:
        yield from each_counted(noun, at_work(work, things), len(things))

    return shown


def each_call_counted(noun: str, of: int, call: Callable[_P, _T]) -> Callable[_P, _T]:
    """The same function with its calls counted; a recursive call counts with the first."""
    progress, at_work = Progress(noun, of), False

    def counted(*positional: _P.args, **named: _P.kwargs) -> _T:
        nonlocal at_work
        if at_work:
            return call(*positional, **named)
        at_work = True
        try:
            return call(*positional, **named)
        finally:
            at_work = False
            progress.step()

    return counted


@contextmanager
def one_piece_of_work() -> Iterator[None]:
    """Counts within are shown once the work takes longer than a second; no line is left, however it ends."""
    _LINE.begin()
    try:
        yield
    finally:
        _LINE.clear()
