"""One kind of work on many things: one after another, by threads, or by two processes side by side."""

import os
import pickle
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import Any, Final, TypeAlias, TypeVar

_T = TypeVar("_T")
_R = TypeVar("_R")

AtWork: TypeAlias = Callable[[Callable[[Any], Any], Sequence[Any]], Iterator[Any]]
"""How many things are worked on; what comes of them is told in their order."""

_WORTH_A_PROCESS: Final = 64
"""So many pages take about as long as it takes to have a second process. (CHOICE)"""


def one_by_one(work: Callable[[_T], _R], things: Sequence[_T]) -> Iterator[_R]:
    """Each after the other."""
    return map(work, things)


def on_two_threads(work: Callable[[_T], _R], things: Sequence[_T]) -> Iterator[_R]:
    """For work that lets go of Python's lock."""
    with ThreadPoolExecutor(2) as threads:
        yield from threads.map(work, things)


def in_two_processes(work: Callable[[_T], _R], things: Sequence[_T]) -> Iterator[_R]:
    """Every second thing by a copy of this process, where the system makes such copies cheaply and there are many.

    What the copy cannot do, its half of it is done here, so that a fault arises as if there were one process alone.
    """
    if len(things) < _WORTH_A_PROCESS or not _can_be_copied():
        yield from map(work, things)
        return
    theirs = things[1::2]
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _tell_and_end(work, theirs, writing)
    os.close(writing)
    mine = [work(thing) for thing in things[0::2]]
    with os.fdopen(reading, "rb") as told:
        said = told.read()
    os.waitpid(child, 0)
    others: Sequence[_R] = pickle.loads(said) if said else [work(thing) for thing in theirs]  # noqa: S301  (our own)
    for place in range(len(things)):
        yield (others if place % 2 else mine)[place // 2]


def _can_be_copied() -> bool:
    """Only Linux copies a process safely whatever it has loaded, and only one without other threads."""
    return sys.platform == "linux" and threading.active_count() == 1 and (os.cpu_count() or 1) > 1


def _tell_and_end(work: Callable[[_T], _R], things: Sequence[_T], writing: int) -> None:
    """What the copy does; it ends without a word where it fails."""
    try:
        said = pickle.dumps([work(thing) for thing in things])
        with os.fdopen(writing, "wb") as telling:
            telling.write(said)
    finally:
        os._exit(0)
