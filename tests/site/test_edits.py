"""Whatever was built, edited, broken and built again before: a build comes to what a clean one makes of the entries.

``WICKWRIGHT_EDITS=500`` tries so many sequences of edits instead of one. A failure names the sequence's number, which
is all that makes it: with that many or more, ``pytest tests/site/test_edits.py -k 'sequence_17]'`` tries it alone.
"""

import os
import secrets
import shutil
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest

from tests.conftest import once
from tests.site.clean_builds import (
    OUTPUTS,
    Outcome,
    clean_build,
    differences,
    files_of,
    outcome,
    running_session,
    session,
    write_and_build,
)
from tests.site.edits import EDITS, Edit
from tests.site.mishaps import MISHAPS, list_lost
from tests.site.small_shop import TriedShop

SEQUENCES = int(os.environ.get("WICKWRIGHT_EDITS", "1"))
SHORT, LONG = 2, 8
"""Steps of a sequence; the first is in every run."""

Files = dict[str, tuple[bytes, int]]


def tree(folder: Path) -> Files:
    """Every file but those by which commands wait for each other, and when each was written."""
    found = sorted(path for path in folder.rglob("*") if path.is_file() and path.name != ".writer")
    return {
        path.relative_to(folder).as_posix(): (path.read_bytes(), path.stat().st_mtime_ns) for path in found
    }


def written(output: Path) -> Files:
    """The same of what readers have."""
    return {name: seen for name, seen in tree(output).items() if not name.startswith(".")}


class Walk:
    """One sequence: edits of a shop, after each few of them builds held against a clean one."""

    def __init__(self, shop: TriedShop, number: int, away: Path) -> None:
        self.shop = shop
        self.dice = Random(number)  # noqa: S311  # the same each time
        self.away = away
        self.done: list[str] = []
        self.running = running_session(shop.folder / "running")
        self.running(shop.asked("running"))
        self.is_sound = True
        self._sound = (replace(shop), self._entries())

    def step(self) -> None:
        """A few edits, then builds; a fault is taken out again, now or after another step."""
        if self.dice.random() < 0.5:
            self._let_time_vouch()
        was_sound = self.is_sound
        if was_sound and self.dice.random() < 0.05:
            self._do(list_lost)
        else:
            for _ in range(self.dice.choice((1, 1, 1, 2, 3))):
                self._do(self.dice.choice(MISHAPS if self.dice.random() < 0.25 else EDITS))
        self.build()
        if self.is_sound:
            self._sound = (replace(self.shop), self._entries())
        elif not was_sound or self.dice.random() < 0.7:
            self._take_back()
            if self.dice.random() < 0.3:
                self.build()
            self.is_sound = True

    def build(self) -> None:
        """Build in both outputs, in the one by a process of its own and in the other by one that runs on."""
        clean = clean_build(self.shop, self.away)
        self.is_sound = clean[0].came_to_files
        for output, build in zip(OUTPUTS, (session(), self.running), strict=True):
            place = self.shop.folder / output
            before = written(place)
            told = outcome(build(self.shop.asked(output)))
            unlike = self._unlike(told, clean, place, before)
            assert not unlike, f"{output}, after {self.done}:\n{unlike}"

    def _unlike(
        self, told: Outcome, clean: tuple[Outcome, dict[str, bytes]], place: Path, before: Files
    ) -> str:
        if self.is_sound:
            return differences((told, files_of(place)), clean)
        touched = [] if written(place) == before else ["the output was touched"]
        return "\n".join([*touched, differences((told, {}), (clean[0], {}))]).strip()

    def _let_time_vouch(self) -> None:
        """What is remembered looks as if it had been written long after all else, so that no file counts as too new.

        What is hardly older than a list of it is read again whatever its times say, and here all is a moment old.
        """
        for path in (path for output in OUTPUTS for path in (self.shop.folder / output).glob(".*")):
            for file in (path, *path.rglob("*")):
                now = file.stat()
                os.utime(file, ns=(now.st_atime_ns, now.st_mtime_ns + 10_000_000_000))

    def _do(self, edit: Edit) -> None:
        said = edit(self.shop, self.dice)
        if said is not None:
            self.done.append(said)

    def _entries(self) -> dict[str, Files]:
        return {name: tree(self.shop.folder / name) for name in ("content", "themes")}

    def _take_back(self) -> None:
        """Entries and questions are as they were when they were sound; files as old as then, or new ones."""
        as_old, (asked, entries) = self.dice.random() < 0.5, self._sound
        for question in ("drafts", "issued_only", "as_of", "today"):
            setattr(self.shop, question, getattr(asked, question))
        for root, files in entries.items():
            now = tree(self.shop.folder / root)
            for name in now.keys() - files.keys():
                (self.shop.folder / root / name).unlink()
            for name, (data, mtime_ns) in files.items():
                if now.get(name, (None, 0))[0] != data:
                    path = self.shop.folder / root / name
                    path.parent.mkdir(exist_ok=True)
                    path.write_bytes(data)
                    if as_old:
                        os.utime(path, ns=(mtime_ns, mtime_ns))
        self.done.append("taken back" + " with the old times" * as_old)


@pytest.fixture(name="shop")
def _shop(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> TriedShop:
    folder = tmp_path / "shop"
    shutil.copytree(once(tmp_path_factory, "small-shop", write_and_build), folder)
    monkeypatch.chdir(folder)
    return TriedShop(folder=folder)


@pytest.mark.parametrize("number", range(SEQUENCES), ids="sequence_{}".format)
def test_after_any_edits_a_build_comes_to_what_a_clean_one_makes(
    shop: TriedShop, tmp_path: Path, number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk = Walk(shop, number, tmp_path)
    monkeypatch.setattr(secrets, "token_bytes", walk.dice.randbytes)
    monkeypatch.setattr(secrets, "token_hex", lambda count: walk.dice.randbytes(count).hex())
    monkeypatch.setattr(secrets, "choice", walk.dice.choice)
    try:
        for _ in range(SHORT if number < 1 else LONG):
            walk.step()
    except Exception as fault:
        fault.add_note(f"sequence {number}: {walk.done}")
        raise
