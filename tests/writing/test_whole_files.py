"""Files are put in place whole: with the mode and the link of the old one, and with nothing left over."""

import os
import stat
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.writing.whole_files import record, replace_file, sweep

pytestmark = pytest.mark.skipif(os.name != "posix", reason="only there do files have such modes")


def mode_of(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@pytest.mark.parametrize("write", [record, replace_file])
@pytest.mark.parametrize("mode", [0o600, 0o664, 0o444])
def test_a_file_keeps_its_mode(tmp_path: Path, write: Callable[[Path, bytes], None], mode: int) -> None:
    book = tmp_path / "lots.csv"
    book.write_bytes(b"old")
    book.chmod(mode)

    write(book, b"new")

    assert (book.read_bytes(), mode_of(book)) == (b"new", mode)


def test_a_new_file_has_what_the_mask_leaves_or_the_mode_that_was_asked_for(tmp_path: Path) -> None:
    mask = os.umask(0o027)
    try:
        replace_file(tmp_path / "page.html", b"page")
        replace_file(tmp_path / "links.csv", b"keys", mode=0o600)
    finally:
        os.umask(mask)

    assert (mode_of(tmp_path / "page.html"), mode_of(tmp_path / "links.csv")) == (0o640, 0o600)


def test_a_mode_that_is_asked_for_takes_the_place_of_the_old_one(tmp_path: Path) -> None:
    (tmp_path / "links.csv").write_bytes(b"old")

    replace_file(tmp_path / "links.csv", b"keys", mode=0o600)

    assert mode_of(tmp_path / "links.csv") == 0o600


def test_a_book_that_is_a_link_stays_one_and_what_it_leads_to_is_replaced(tmp_path: Path) -> None:
    book = tmp_path / "elsewhere" / "book.csv"
    book.parent.mkdir()
    book.write_bytes(b"old")
    book.chmod(0o640)
    (tmp_path / "lots.csv").symlink_to(Path("elsewhere", "book.csv"))

    record(tmp_path / "lots.csv", b"new")

    assert (tmp_path / "lots.csv").is_symlink()
    assert (book.read_bytes(), mode_of(book)) == (b"new", 0o640)


def test_a_link_in_the_output_is_replaced_by_the_file(tmp_path: Path) -> None:
    (tmp_path / "mine").write_bytes(b"mine")
    (tmp_path / "page.html").symlink_to("mine")

    replace_file(tmp_path / "page.html", b"page")

    assert ((tmp_path / "mine").read_bytes(), (tmp_path / "page.html").is_symlink()) == (b"mine", False)


def test_what_is_recorded_is_on_the_disk_before_its_name_and_its_folders_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []

    def flushed(handle: int) -> None:
        done.append("folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "file")

    def named(self: Path, path: Path) -> None:
        done.append("name")
        self.rename(path)

    monkeypatch.setattr(os, "fsync", flushed)
    monkeypatch.setattr(Path, "replace", named)

    record(tmp_path / "sheets" / "WG-20.yaml", b"revisions:\n")

    assert done == ["folder", "file", "name", "folder"]


def test_only_what_we_left_half_written_is_swept(tmp_path: Path) -> None:
    for name in (".wickwright-0a1b2c3d.part", ".wickwright-notes.part", "own.part", ".wickwright-0a1b2c3d"):
        (tmp_path / name).write_bytes(b"")

    sweep(tmp_path)

    assert {path.name for path in tmp_path.iterdir()} == {
        ".wickwright-notes.part",
        "own.part",
        ".wickwright-0a1b2c3d",
    }
