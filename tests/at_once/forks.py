"""Real processes for a tenth of their price: one has loaded the program, and splits off a copy for each command.

``python -m tests.at_once.forks`` takes a line of JSON for each group of commands and answers with one. A process of its
own, because one that has threads, as a test run may have, cannot be copied safely.
"""

import gc
import io
import json
import os
import pkgutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from importlib import import_module
from pathlib import Path
from tempfile import TemporaryDirectory
from types import FrameType
from typing import Any

from tests.conftest import PROJECT

STEPS = frozenset(
    {"fix", "flush", "__exit__", "fsync", "rename", "replace", "link", "unlink", "mkdir", "fchmod"}
)
"""What changes a disk, of the system's own functions and of a binary file that is written; ``__exit__`` closes one."""

NEVER = sys.maxsize

KILLED = -signal.SIGKILL if os.name == "posix" else 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Ended:
    """How a command ended, what it said, and how many steps on the disk it took, if they were counted."""

    code: int
    out: str
    err: str
    steps: int


class Forks:
    """The process that is copied."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self._process = process

    def at_once(self, commands: Sequence[Sequence[str]], kill_after_s: float | None = None) -> list[Ended]:
        """Start all commands at one moment, and kill them after a while if they are to be killed."""
        return self._asked(commands=commands, kill_after_s=kill_after_s)

    def alone(self, *words: str, die_at: int | None = None) -> Ended:
        """Run one command; it dies when it is about to change the disk for the so manieth time.

        Steps are counted for that alone, since counting takes longer than most commands.
        """
        (ended,) = self._asked(commands=[words], die_at=die_at)
        return ended

    def _asked(self, **asked: Any) -> list[Ended]:
        into, out = self._process.stdin, self._process.stdout
        assert into is not None
        assert out is not None
        print(json.dumps(asked), file=into, flush=True)
        return [Ended(**one) for one in json.loads(out.readline())]


@contextmanager
def forks() -> Iterator[Forks]:
    """The process, which ends when it is no longer asked."""
    with subprocess.Popen(
        [sys.executable, "-m", "tests.at_once.forks"],
        cwd=PROJECT,
        env={**os.environ, "PYTHONPATH": str(PROJECT)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        yield Forks(process)


def _warm(folder: Path) -> None:
    """Load everything, and fill what the program keeps in memory; typst is left out, since it starts threads."""
    for room in ("commands", "making"):
        for module in pkgutil.iter_modules(import_module(f"generator.{room}").__path__):
            import_module(f"generator.{room}.{module.name}")
    _quietly(["start", str(folder / "shop")], folder)
    _quietly(["build", *where(folder / "shop")], folder)


def where(shop: Path) -> tuple[str, ...]:
    """The options that name a shop's folders."""
    return ("--content", str(shop / "content"), "--output", str(shop / "output"))


def _quietly(words: Sequence[str], folder: Path) -> None:
    from generator.cli import main  # noqa: PLC0415

    with (folder / "said").open("w") as said:
        kept, sys.stdout = sys.stdout, said
        main(list(words))
        sys.stdout = kept


def _split_off(words: Sequence[str], said: Path, gate: int, die_at: int | None) -> int:
    """The number of a process that runs a command as soon as the gate is shut."""
    child = os.fork()
    if child:
        return child
    from generator.cli import main  # noqa: PLC0415

    code = 70
    try:
        for number, name in ((1, "out"), (2, "err")):
            os.dup2(os.open(f"{said}.{name}", os.O_WRONLY | os.O_CREAT, 0o600), number)
        sys.stdout, sys.stderr = (open(number, "w", encoding="utf-8") for number in (1, 2))  # noqa: SIM115, PTH123
        os.read(gate, 1)
        steps = [0] if die_at is None else _counting(die_at)
        code = main(list(words))
        sys.setprofile(None)
        Path(f"{said}.steps").write_text(str(steps[0]))
    except SystemExit as stop:
        code = int(stop.code or 0)
    finally:
        for stream in (sys.stdout, sys.stderr):
            stream.flush()
        os._exit(code)


def _counting(die_at: int) -> list[int]:
    """How many steps are taken; the process dies just before one of them."""
    steps = [0]

    def called(_frame: FrameType, event: str, called: Any) -> None:
        if event != "c_call" or called.__name__ not in STEPS:
            return
        if called.__module__ == os.name or isinstance(called.__self__, io.BufferedWriter):
            steps[0] += 1
            if steps[0] == die_at:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.setprofile(called)
    return steps


def _run(asked: dict[str, Any], folder: Path) -> list[Ended]:
    reading, writing = os.pipe()
    said = [folder / f"{number}" for number in range(len(asked["commands"]))]
    children = []
    for words, path in zip(asked["commands"], said, strict=True):
        for left in folder.glob(f"{path.name}.*"):
            left.unlink()
        children.append(_split_off(words, path, reading, asked.get("die_at")))
    os.close(reading)
    os.write(writing, b"." * len(children))
    if asked.get("kill_after_s") is not None:
        time.sleep(asked["kill_after_s"])
        for child in children:
            os.kill(child, signal.SIGKILL)
    codes = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
    os.close(writing)
    return [_ended(code, path) for code, path in zip(codes, said, strict=True)]


def _ended(code: int, said: Path) -> Ended:
    def text(name: str) -> str:
        path = Path(f"{said}.{name}")
        return path.read_text(encoding="utf-8") if path.exists() else ""

    return Ended(code=code, out=text("out"), err=text("err"), steps=int(text("steps") or 0))


def _serve() -> None:
    with TemporaryDirectory() as name:
        folder = Path(name)
        _warm(folder)
        gc.freeze()  # Nothing that is loaded is looked at again, so that a copy shares it.
        for line in sys.stdin:
            print(json.dumps([asdict(ended) for ended in _run(json.loads(line), folder)]), flush=True)


if __name__ == "__main__":
    _serve()
