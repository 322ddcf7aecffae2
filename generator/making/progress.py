"""One line that counts, shown on a terminal when the work takes longer than a second."""

import sys
from collections.abc import Callable, Iterator, Sequence
from time import monotonic
from typing import Any

from generator.writing.at_work import AtWork

_QUIET_S = 1.0
_EVERY_S = 0.2


class Progress:
    """Counts steps of one kind of work, ``of`` how many there are."""

    def __init__(self, noun: str, of: int) -> None:
        self._noun = noun
        self._of = of
        self._steps = 0
        self._shown = False
        self._next_s = monotonic() + _QUIET_S

    def step(self) -> None:
        """One more is done."""
        self._steps += 1
        if sys.stderr.isatty() and monotonic() >= self._next_s:
            self._next_s = monotonic() + _EVERY_S
            self._shown = True
            print(f"\r{self._steps} of {self._of} {self._noun} ...", end="", file=sys.stderr, flush=True)

    def end(self) -> None:
        """The line is taken away again."""
        if self._shown:
            print("\r" + " " * 40 + "\r", end="", file=sys.stderr, flush=True)


def with_progress(noun: str, at_work: AtWork) -> AtWork:
    """The same work, with_progress on a terminal."""

    def shown(work: Callable[[Any], Any], things: Sequence[Any]) -> Iterator[Any]:
        progress = Progress(noun, len(things))

        def step(thing: Any) -> Any:
            done = work(thing)
            progress.step()
            return done

        yield from at_work(step, things)
        progress.end()

    return shown
