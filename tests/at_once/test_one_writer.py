"""What one command does while another writes: it waits and says for whom, or needs no lock and goes on."""

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from generator.cli import main
from generator.commands.build import build
from generator.making.one_writer import LOCK_FILE, alone_in_content, alone_in_output
from generator.making.options import CommandOptions
from generator.making.release import built, release_set_aside
from generator.writing.targets.releases import LocalRuns
from tests.at_once.conftest import NewShop
from tests.at_once.forks import where
from tests.conftest import PROJECT
from tests.publishing.wires import mount_anew, small_disk
from tests.site.test_command import everything_below

STOPPABLE = """\
import signal, sys
from generator.cli import main
signal.signal(signal.SIGINT, signal.default_int_handler)
sys.exit(main())
"""
"""Ctrl+C holds also where tests run in the background, where it is switched off around them."""


def started(shop: Path, *words: str) -> "subprocess.Popen[str]":
    return subprocess.Popen(
        [sys.executable, "-c", STOPPABLE, *words, *where(shop)],
        env={**os.environ, "PYTHONPATH": str(PROJECT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def wickwright(shop: Path, *words: str) -> int:
    return main([*words, *where(shop)])


def asked_in(shop: Path) -> CommandOptions:
    return CommandOptions(content=shop / "content", output=shop / "output", as_of=None, as_data=False)


def test_a_command_says_whom_it_waits_for_and_reads_what_that_one_wrote(new_shop: NewShop) -> None:
    shop = new_shop()
    with alone_in_content(shop / "content", "issue"):
        waiting = started(shop, "lots", "add", "WG-20", "--made", "3", "--lot", "WG-20-A17")
        assert waiting.stderr is not None
        told = waiting.stderr.readline()
        (shop / "content" / "lots.csv").write_text(
            "lot,stock_code,poured_on,made\nWG-20-A17,WG-20,2026-11-01,2\n"
        )
    _, err = waiting.communicate()

    assert told == (
        f"waiting: `wickwright issue` (process {os.getpid()}) is using {(shop / 'content').as_posix()}/ ...\n"
    )
    assert "lots.csv already has lot WG-20-A17" in err


@pytest.mark.skipif(os.name != "posix", reason="a signal that Windows does not have")
def test_who_waits_can_be_stopped(new_shop: NewShop) -> None:
    shop = new_shop()
    with alone_in_output(shop / "output", "publish"), started(shop, "build") as waiting:
        assert waiting.stderr is not None
        assert waiting.stderr.readline().startswith("waiting: `wickwright publish`")
        waiting.send_signal(signal.SIGINT)
        _, err = waiting.communicate()

    assert (waiting.returncode, err) == (3, "wickwright: stopped; files already written are complete.\n")


def test_a_row_is_written_while_a_build_goes_on(new_shop: NewShop) -> None:
    shop = new_shop()

    with alone_in_output(shop / "output", "build"):
        added = started(shop, "lots", "add", "WG-20", "--made", "3")
        _, err = added.communicate()

    assert (added.returncode, err) == (0, "")


def test_entries_on_a_disk_that_takes_no_writing_are_checked_and_built(new_shop: NewShop) -> None:
    shop = new_shop()
    wickwright(shop, "check")
    with small_disk(shop / "web", "size=4m"):
        for path, data in everything_below(shop / "content").items():
            (shop / "web" / path).parent.mkdir(parents=True, exist_ok=True)
            (shop / "web" / path).write_bytes(data)
        mount_anew(shop / "web", "ro")
        (shop / "content").rename(shop / "elsewhere")
        (shop / "content").symlink_to("web")

        codes = [wickwright(shop, "check"), wickwright(shop, "build"), wickwright(shop, "explain", "WG-20")]

        assert codes == [0, 0, 0]
        assert wickwright(shop, "lots", "add", "WG-20", "--made", "1") == 3
        (shop / "content").unlink()


@pytest.mark.skipif(os.name != "posix", reason="only there do files have such modes")
def test_books_keep_their_mode_and_their_link(new_shop: NewShop) -> None:
    shop = new_shop()
    book = shop / "my-lots.csv"
    book.write_text("lot,stock_code,poured_on,made\n")
    book.chmod(0o600)
    (shop / "content" / "lots.csv").symlink_to("../my-lots.csv")

    assert wickwright(shop, "lots", "add", "WG-20", "--made", "3") == 0

    assert (shop / "content" / "lots.csv").is_symlink()
    assert book.read_text().count("\n") == 2
    assert book.stat().st_mode & 0o777 == 0o600


def test_what_killed_commands_left_is_swept_and_nothing_else(new_shop: NewShop) -> None:
    shop = new_shop()
    left = [shop / "content" / folder / ".wickwright-0a1b2c3d.part" for folder in (".", "trade", "candles")]
    mine = shop / "content" / "trade" / ".wickwright-mine.part"
    for path in (*left, mine):
        path.write_bytes(b"half")

    wickwright(shop, "explain", "WG-20")
    assert all(path.exists() for path in left)
    wickwright(shop, "lots", "add", "WG-20", "--made", "3")

    assert not any(path.exists() for path in left)
    assert mine.exists()


def test_git_passes_over_the_lock(new_shop: NewShop, monkeypatch: pytest.MonkeyPatch) -> None:
    shop = new_shop()
    wickwright(shop, "lots", "add", "WG-20", "--made", "3")
    git = shutil.which("git")
    if git is None:
        pytest.skip("there is no git")
    for name in ("GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE"):
        monkeypatch.delenv(name, raising=False)
    subprocess.run([git, "-C", str(shop), "init", "-q"], check=True)

    words = [git, "-C", str(shop), "status", "--porcelain", "--untracked-files=all", "content"]
    untracked = subprocess.run(words, check=True, capture_output=True, text=True).stdout

    assert "content/lots.csv" in untracked
    assert LOCK_FILE not in untracked


def test_a_release_that_is_being_sent_is_not_changed_by_a_build(new_shop: NewShop) -> None:
    shop = new_shop()
    build(asked_in(shop))
    site, runs = (
        everything_below(shop / "output" / "site"),
        LocalRuns(shop / "output" / ".published" / "disk"),
    )
    with runs.alone():
        release = release_set_aside(built(shop / "output"), runs)
        maker = shop / "content" / "maker.yaml"
        maker.write_text(maker.read_text().replace("Ferry Lane Candles", "Hay Wharf Candles"))
        build(asked_in(shop))

        sent = {path: place.read_bytes() for path, place in release.places.items()}

    assert everything_below(shop / "output" / "site") != site
    assert sent == site
    assert not any(path.exists() for path in release.places.values())
