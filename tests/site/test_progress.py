"""The line of progress on a pseudo terminal, with a clock that goes only when it is told to."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import TextIO

import pytest

import generator
from generator.making import progress
from generator.making.progress import Progress, each_call_counted, each_counted, one_piece_of_work

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo terminals there")

if sys.platform != "win32":
    import fcntl
    import pty
    import struct
    import termios

ROOT = Path(generator.__file__).parents[1]


class Terminal:
    """What was written to a terminal of so many columns since it was looked at last."""

    def __init__(self, columns: int) -> None:
        self._ours, self.theirs = pty.openpty()
        fcntl.ioctl(self.theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24 if columns else 0, columns, 0, 0))

    def written(self) -> str:
        """What is written arrives a little later, so a mark is sent behind it."""
        os.write(self.theirs, b"\0")
        read = b""
        while not read.endswith(b"\0"):
            read += os.read(self._ours, 65_536)
        return read[:-1].decode()

    def to_the_end(self) -> str:
        """All that is written until nobody has the terminal open any more; a full one would keep its writer waiting."""
        read = []
        with suppress(OSError):  # the end, as Linux tells it
            while data := os.read(self._ours, 65_536):
                read.append(data)
        return b"".join(read).decode()

    def close(self) -> None:
        os.close(self._ours)


class Clock:
    """Seconds that somebody else counts."""

    def __init__(self) -> None:
        self.now_s = 100.0

    def __call__(self) -> float:
        return self.now_s


@pytest.fixture(name="clock")
def _clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    clock = Clock()
    monkeypatch.setattr(progress, "monotonic", clock)
    return clock


Opened = Callable[[int], Terminal]


@pytest.fixture(name="terminal")
def _terminal(monkeypatch: pytest.MonkeyPatch, clock: Clock) -> Iterator[Opened]:  # noqa: ARG001  (it stands first)
    opened: list[tuple[Terminal, TextIO]] = []

    def of(columns: int) -> Terminal:
        terminal = Terminal(columns)
        stream = os.fdopen(terminal.theirs, "w", encoding="utf-8")
        opened.append((terminal, stream))
        monkeypatch.setattr(sys, "stderr", stream)
        return terminal

    yield of
    for terminal, stream in opened:
        stream.close()
        terminal.close()


def _left_standing(written: str) -> str:
    """The one line that is on the screen after all was written over each other."""
    assert "\n" not in written
    line: list[str] = []
    for part in written.split("\r"):
        line[: len(part)] = part
    return "".join(line).rstrip()


def test_nothing_is_shown_within_the_first_second_of_all_the_work_together(
    terminal: Opened, clock: Clock
) -> None:
    screen = terminal(80)
    with one_piece_of_work():
        for _ in each_counted("photos", range(6), 6):
            clock.now_s += 0.1
        assert screen.written() == ""
        counting = Progress("pages", 250)
        clock.now_s += 0.5
        assert screen.written() == ""
        counting.step()
        assert _left_standing(screen.written()) == "1 of 250 pages ..."


def test_it_is_written_anew_five_times_a_second_at_most(terminal: Opened, clock: Clock) -> None:
    screen = terminal(80)
    with one_piece_of_work():
        for _ in each_counted("pages", range(1000), 1000):
            clock.now_s += 0.01

    written = screen.written()

    assert 40 <= written.count("...") <= 46  # nine seconds, after the first
    assert _left_standing(written) == ""


def test_a_shorter_text_leaves_nothing_of_a_longer_one(terminal: Opened, clock: Clock) -> None:
    screen = terminal(80)
    with one_piece_of_work():
        clock.now_s += 1
        Progress("stock codes worked out", 1000)
        clock.now_s += 1
        Progress("pages", 2)
        assert _left_standing(screen.written()) == "0 of 2 pages ..."


@pytest.mark.parametrize(
    ("columns", "shown"), [(12, "0 of 1000 s"), (0, "0 of 1000 stock codes worked out ...")]
)
def test_it_never_fills_its_line(terminal: Opened, clock: Clock, columns: int, shown: str) -> None:
    screen = terminal(columns)
    with one_piece_of_work():
        clock.now_s += 1
        Progress("stock codes worked out", 1000)
        assert screen.written() == f"\r{shown}"
    assert screen.written() == f"\r{' ' * len(shown)}\r"


@pytest.mark.parametrize("fault", [KeyboardInterrupt, OSError])
def test_no_line_is_left_however_the_work_ends(
    terminal: Opened, clock: Clock, fault: type[BaseException]
) -> None:
    screen = terminal(80)

    def cut_short() -> None:
        with one_piece_of_work():
            clock.now_s += 1
            Progress("pages", 2)
            assert screen.written()
            raise fault

    with pytest.raises(fault):
        cut_short()
    assert screen.written() == f"\r{' ' * len('0 of 2 pages ...')}\r"


def test_nothing_is_written_where_nobody_looks(clock: Clock, capsys: pytest.CaptureFixture[str]) -> None:
    with one_piece_of_work():
        for _ in each_counted("pages", range(100), 100):
            clock.now_s += 1

    assert capsys.readouterr() == ("", "")


def test_a_call_within_a_call_is_not_counted(terminal: Opened, clock: Clock) -> None:
    screen = terminal(80)

    def halved(number: int) -> int:
        clock.now_s += 1
        return number if number < 2 else counted(number // 2)

    with one_piece_of_work():
        counted = each_call_counted("halvings", 3, halved)
        assert [counted(number) for number in (8, 1)] == [1, 1]
        assert _left_standing(screen.written()) == "2 of 3 halvings ..."


AT_ONCE = """
import sys
from generator.making import progress
progress._QUIET_S = progress._EVERY_S = 0
from generator.cli import main
sys.exit(main(sys.argv[1:]))
"""


def test_a_command_counts_what_it_reads_and_works_out_and_makes(tmp_path: Path) -> None:
    screen = Terminal(80)
    words = ["papers", "sheets", "SS-30", "--content", str(ROOT / "content"), "--output", str(tmp_path)]

    with subprocess.Popen(
        [sys.executable, "-c", AT_ONCE, *words],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.DEVNULL,
        stderr=screen.theirs,
    ) as process:
        os.close(screen.theirs)
        written = screen.to_the_end()
    screen.close()

    assert process.returncode == 0
    for noun in ("files read", "stock codes worked out", "papers"):
        counts = [part for part in written.split("\r") if f" {noun} ..." in part]
        last, _, of = counts[-1].split()[:3]
        assert last == of != "0", noun
    assert _left_standing(written) == ""
