"""Files of every sort changed at random, by bytes and by structure, each held against one promise of a command.

Whatever a file holds, a command ends, says what is wrong at a place, and takes no more than so much time and memory.
The worker is a process of its own with limits, so that an endless loop or a full memory is found and not suffered.
"""

import io
import json
import re
import resource
import shutil
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import asdict, dataclass
from pathlib import Path
from random import Random
from select import select
from typing import Final, TextIO

from generator.cli import main
from tests.site.mutators import mutated

MOST_SECONDS: Final = 20
MOST_BYTES: Final = 500_000_000
STANDSTILL: Final = 120
"""Seconds without a word after which a worker waits for something that never comes."""

PROJECT: Final = Path(__file__).parents[2]
_A_WORKER: Final = 300
"""Mutations of one process; another begins with nothing remembered."""

_PLACED: Final = re.compile(r"^\S.*:\d+:\d+: (error|warning): \S", re.MULTILINE)
_GAVE: Final = {0: "built", 1: "refused"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A file below a shop's folder, and the commands that come to read it."""

    file: str
    commands: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What came of one mutation: built, refused, or a fault of the program with what is known of it."""

    number: int
    file: str
    gave: str
    told: str
    seconds: float


def tried(shop: Path, targets: Sequence[Target], numbers: Sequence[int], folder: Path) -> Iterator[Outcome]:
    """What came of each mutation of a shop; the number says all of it, so that each can be tried again alone."""
    left = list(numbers)
    while left:
        ours = folder / f"from-{left[0]}"
        shutil.copytree(shop, ours)
        met = list(_by_a_worker(ours, targets, left[:_A_WORKER]))
        yield from met
        left = left[len(met) :]
        shutil.rmtree(ours)


def counted(outcomes: Sequence[Outcome]) -> Counter[str]:
    """How many of each."""
    return Counter(each.gave for each in outcomes)


def _by_a_worker(shop: Path, targets: Sequence[Target], numbers: Sequence[int]) -> Iterator[Outcome]:
    """Outcomes up to the last, or up to the one that the process did not outlive.

    A process of its own and no fork, because threads of the typesetter do not survive one.
    """
    work = json.dumps(
        {"shop": str(shop), "targets": [asdict(each) for each in targets], "numbers": list(numbers)}
    )
    words = [sys.executable, "-m", "tests.site.mutations", work]
    told = 0
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=PROJECT) as worker:
        assert worker.stdout is not None
        while select([worker.stdout], [], [], STANDSTILL)[0] and (line := worker.stdout.readline()):
            told += 1
            yield Outcome(**json.loads(line))
        worker.kill()
    if told < len(numbers):
        number = numbers[told]
        end = f"the process ended with {worker.returncode}, or stood still"
        yield Outcome(number=number, file=_target(targets, number).file, gave="fault", told=end, seconds=0.0)


def _work(shop: Path, targets: Sequence[Target], numbers: Sequence[int], lines: TextIO) -> None:
    """The worker's whole life; lines go where no command can print."""
    for number in numbers:
        _limit()
        lines.write(json.dumps(_outcome(shop, _target(targets, number), number)) + "\n")
        lines.flush()


def _limit() -> None:
    """So much memory, and so much time from now on."""
    until = int(time.process_time()) + MOST_SECONDS + 1
    resource.setrlimit(resource.RLIMIT_CPU, (until, resource.RLIM_INFINITY))
    mapped = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (mapped + MOST_BYTES, resource.RLIM_INFINITY))


def _target(targets: Sequence[Target], number: int) -> Target:
    return targets[number % len(targets)]


def _outcome(shop: Path, target: Target, number: int) -> dict[str, object]:
    file, started = shop / target.file, time.process_time()
    before = file.read_bytes()
    file.write_bytes(mutated(before, file.suffix, Random(number)))  # noqa: S311  # The same each time.
    gave, told = "built", ""
    try:
        for command in target.commands:
            gave, told = _ran(shop, command)
            if gave != "built":
                break
    finally:
        file.write_bytes(before)
    seconds = round(time.process_time() - started, 3)
    return {"number": number, "file": target.file, "gave": gave, "told": told, "seconds": seconds}


def _ran(shop: Path, command: tuple[str, ...]) -> tuple[str, str]:
    told = io.StringIO()
    with redirect_stdout(told), redirect_stderr(told):
        folders = ("--content", str(shop / "content"), "--output", str(shop / "output"))
        try:
            code = main([*command, *folders])
        except SystemExit as end:
            code = int(end.code or 0)
    text = told.getvalue()
    gave = _GAVE.get(code, "refused" if code == 2 else "fault")
    if gave == "refused" and code == 1 and not _PLACED.search(text):
        gave = "fault"
    return (
        gave,
        "" if gave == "built" else f"{' '.join(command)}: {text[-3000:] if gave == 'fault' else text[:200]}",
    )


if __name__ == "__main__":
    given = json.loads(sys.argv[1])
    _work(
        Path(given["shop"]),
        [
            Target(file=each["file"], commands=tuple(map(tuple, each["commands"])))
            for each in given["targets"]
        ],
        given["numbers"],
        sys.stdout,
    )
