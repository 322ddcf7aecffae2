"""Two processes at work: whoever of them is killed, the other neither waits for ever nor does a thing twice wrongly."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

import generator
from generator.writing.at_work import in_two_processes, on_two_threads, one_by_one

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="only there processes are copied")

THINGS = [*range(200)]
WORK = """
import os, sys, time
from generator.writing.at_work import in_two_processes
print(os.getpid(), flush=True)
def work(thing):
    if os.getpid() != first and thing == 1:
        print(os.getpid(), flush=True)
    time.sleep(0.01 if os.getpid() == first else 0)
    return "x" * 10_000
first = os.getpid()
print(len([*in_two_processes(work, range(2000))]))
"""


def squared(number: int) -> int:
    return number * number


@pytest.mark.parametrize("at_work", [one_by_one, on_two_threads, in_two_processes])
def test_each_thing_comes_back_once_with_what_was_made_of_it(at_work: Callable[..., Any]) -> None:
    assert sorted(at_work(squared, THINGS)) == [(number, number * number) for number in THINGS]


def test_what_a_copy_that_is_killed_did_not_tell_is_done_here() -> None:
    here = os.getpid()

    def deadly(number: int) -> int:
        if os.getpid() != here and number == 101:
            os.kill(os.getpid(), signal.SIGKILL)
        return number * number

    assert sorted(in_two_processes(deadly, THINGS)) == [(number, number * number) for number in THINGS]


def test_a_copy_ends_when_the_process_that_it_works_for_is_killed() -> None:
    environment = {**os.environ, "PYTHONPATH": str(Path(generator.__file__).parents[1])}
    with subprocess.Popen([sys.executable, "-c", WORK], env=environment, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        copy = next(pid for pid in _pids(process.stdout) if pid != process.pid)
        process.kill()

    until_s = time.monotonic() + 20
    while _is_running(copy) and time.monotonic() < until_s:
        time.sleep(0.02)
    assert not _is_running(copy)


def _pids(said: Any) -> Iterator[int]:
    return (int(line) for line in said)


def _is_running(process: int) -> bool:
    """Whether a process is there and no mere entry of one that has ended."""
    try:
        return ") Z " not in Path(f"/proc/{process}/stat").read_text(encoding="ascii")
    except OSError:
        return False
