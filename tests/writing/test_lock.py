"""One process at a time holds a lock; it ends with its process, and the files around it mean nothing."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from generator.writing.lock import locked
from tests.conftest import PROJECT

HOLD = """
import sys, time
from pathlib import Path
from generator.writing.lock import locked
with locked(Path(sys.argv[1]), "`wickwright issue`", print):
    print("held", flush=True)
    sys.stdin.read()
"""


def holder_of(home: Path) -> subprocess.Popen[str]:
    process = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(home)],
        env={**os.environ, "PYTHONPATH": str(PROJECT)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "held\n"
    return process


class TooLong(Exception):
    """What the test does in place of waiting on."""


def give_up(holder: str) -> None:
    raise TooLong(holder)


def test_who_waits_is_told_who_holds_it(tmp_path: Path) -> None:
    with holder_of(tmp_path / ".writer") as process:
        told = pytest.raises(TooLong, match=rf"`wickwright issue` \(process {process.pid}\)")
        with told, locked(tmp_path / ".writer", "`wickwright lots add`", give_up):
            pass
        process.communicate("")


def test_a_lock_is_free_when_its_process_was_killed(tmp_path: Path) -> None:
    with holder_of(tmp_path / ".writer") as process:
        process.kill()
        process.communicate()

    with locked(tmp_path / ".writer", "`wickwright lots add`", give_up):
        assert "lots add" in (tmp_path / ".writer" / "holder").read_text()


@pytest.mark.skipif(os.name == "nt", reason="a signal that Windows does not have")
def test_who_waits_takes_it_when_it_is_let_go(tmp_path: Path) -> None:
    told = []
    with holder_of(tmp_path / ".writer") as process:

        def let_go(holder: str) -> None:
            told.append(holder)
            os.kill(process.pid, signal.SIGKILL)

        with locked(tmp_path / ".writer", "`wickwright lots add`", let_go):
            assert len(told) == 1
        process.communicate()


def test_files_that_are_left_there_mean_nothing(tmp_path: Path) -> None:
    home = tmp_path / ".writer"
    home.mkdir()
    (home / "lock").write_bytes(b"")
    (home / "holder").write_text("`wickwright issue` (process 1)")

    with locked(home, "`wickwright lots add`", give_up):
        assert (home / ".gitignore").read_text() == "*\n"


def test_what_holds_it_already_goes_on(tmp_path: Path) -> None:
    with locked(tmp_path / ".writer", "`wickwright publish`", give_up):
        with locked(tmp_path / ".writer", "`wickwright build`", give_up):
            pass
        assert "publish" in (tmp_path / ".writer" / "holder").read_text()


def test_a_folder_that_cannot_hold_it_stops_who_needs_it_and_nobody_else(tmp_path: Path) -> None:
    (tmp_path / ".writer").write_text("in the way")

    with locked(tmp_path / ".writer", "a command that reads them", give_up, needed=False):
        pass
    with (
        pytest.raises(OSError, match=r"\.writer"),
        locked(tmp_path / ".writer", "`wickwright link`", give_up),
    ):
        pass


def test_a_link_in_its_place_is_not_followed(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (tmp_path / ".writer").symlink_to(elsewhere)

    with pytest.raises(NotADirectoryError), locked(tmp_path / ".writer", "`wickwright link`", give_up):
        pass

    assert list(elsewhere.iterdir()) == []
