"""One kind of work on many things: one after another, by threads, or by two processes."""

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from multiprocessing import Pipe
from multiprocessing.connection import Connection
from typing import Any, Final, TypeAlias, TypeVar

_T = TypeVar("_T")
_R = TypeVar("_R")

AtWork: TypeAlias = Callable[[Callable[[Any], Any], Sequence[Any]], Iterator[tuple[Any, Any]]]
"""A way to work on many things: each comes back with its result as soon as that is done."""

_WORTH_A_PROCESS: Final = 64
"""This many pages take about as long as starting a second process. (CHOICE)"""

_FOR_ONE_COPY: Final = 512
"""Two processes share memory until one touches it: a new copy now and then needs less. (CHOICE)"""


def one_by_one(work: Callable[[_T], _R], things: Sequence[_T]) -> Iterator[tuple[_T, _R]]:
    """Each after the other."""
    return ((thing, work(thing)) for thing in things)


def on_two_threads(work: Callable[[_T], _R], things: Sequence[_T]) -> Iterator[tuple[_T, _R]]:
    """For work that releases Python's lock."""
    with ThreadPoolExecutor(2) as threads:
        yield from zip(things, threads.map(work, things), strict=True)


def in_two_processes(work: Callable[[_T], _R], things: Sequence[_T]) -> Iterator[tuple[_T, _R]]:
    """Every second thing by a copy of this process, if the system copies cheaply and there are many.

    What the copy does not finish is done here, so that a fault arises as with a single process.
    """
    if len(things) < _WORTH_A_PROCESS or not _can_be_copied():
        yield from one_by_one(work, things)
        return
    for start in range(0, len(things), _FOR_ONE_COPY):
        yield from _side_by_side(work, things[start : start + _FOR_ONE_COPY])


def _side_by_side(work: Callable[[_T], _R], things: Sequence[_T]) -> Iterator[tuple[_T, _R]]:
    told, telling = Pipe(duplex=False)
    copy = os.fork()
    if copy == 0:
        told.close()  # So that the copy ends when nobody listens any longer.
        _work_and_end(work, things, telling)
    telling.close()
    left = set(range(len(things)))
    try:
        for mine in range(0, len(things), 2):
            for place, result in (*_told_so_far(told), (mine, work(things[mine]))):
                left.remove(place)
                yield things[place], result
        for place, result in _told_to_the_end(told):
            left.remove(place)
            yield things[place], result
    finally:
        told.close()
        # After a fault here nobody waits for the rest. The system may already have reaped the copy.
        with suppress(ProcessLookupError, ChildProcessError):
            os.kill(copy, signal.SIGKILL)
            os.waitpid(copy, 0)
    yield from one_by_one(work, [things[place] for place in sorted(left)])


def _work_and_end(work: Callable[[_T], _R], things: Sequence[_T], telling: Connection) -> None:
    """What the copy does; it ends silently if it fails."""
    try:
        for place in range(1, len(things), 2):
            telling.send((place, work(things[place])))
    finally:
        telling.close()
        os._exit(0)


def _told_so_far(told: Connection) -> Iterator[tuple[int, Any]]:
    try:
        while told.poll():
            yield told.recv()
    except (EOFError, OSError):  # It has told all, or was killed in the middle of a word.
        return


def _told_to_the_end(told: Connection) -> Iterator[tuple[int, Any]]:
    try:
        while True:
            yield told.recv()
    except (EOFError, OSError):  # It has told all, or was killed in the middle of a word.
        return


def _can_be_copied() -> bool:
    """Only Linux safely copies a process whatever it has loaded, and only one without other threads."""
    return sys.platform == "linux" and threading.active_count() == 1 and (os.cpu_count() or 1) > 1
