"""Processor time of this process and of all it started, and the memory that a process and its copies hold together."""

import os
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path

_LOOK_EVERY_S = 0.02


def processor_time() -> float:
    """Seconds so far, in this process and in those that it has waited for."""
    return sum(os.times()[:4])


def time_of_process(words: Sequence[str]) -> float:
    """Seconds of processor time of a process from its start to its end."""
    started = processor_time()
    subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL)
    return processor_time() - started


def peak_memory_mb(words: Sequence[str]) -> float:
    """The most that a process and all it started held at one moment; pages that they share count once.

    It is the proportional set size as the kernel of Linux tells it, looked at all the time.
    """
    peak_kb = 0
    with subprocess.Popen([sys.executable, *words], stdout=subprocess.DEVNULL) as process:
        while process.poll() is None:
            peak_kb = max(peak_kb, sum(map(_held_kb, _family(process.pid))))
            time.sleep(_LOOK_EVERY_S)
    assert process.returncode == 0
    return peak_kb / 1024


def _family(process: int) -> list[int]:
    """A process and those that it started."""
    try:
        children = Path(f"/proc/{process}/task/{process}/children").read_text(encoding="ascii").split()
    except OSError:
        return []
    return [process, *(one for child in children for one in _family(int(child)))]


def _held_kb(process: int) -> int:
    try:
        lines = Path(f"/proc/{process}/smaps_rollup").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0
    return next((int(line.split()[1]) for line in lines if line.startswith("Pss:")), 0)
