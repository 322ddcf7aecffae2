"""A private file is its owner's alone, and never written over."""

import os
from pathlib import Path
from typing import NoReturn

import pytest

from generator.writing.whole_files import write_private


@pytest.mark.skipif(os.name != "posix", reason="only there do files have such modes")
def test_nobody_else_can_read_it(tmp_path: Path) -> None:
    write_private(tmp_path / "secret", b"words")

    assert (tmp_path / "secret").stat().st_mode & 0o777 == 0o600


def test_one_that_is_there_stays_as_it_is(tmp_path: Path) -> None:
    write_private(tmp_path / "secret", b"words")

    with pytest.raises(FileExistsError):
        write_private(tmp_path / "secret", b"others")

    assert (tmp_path / "secret").read_bytes() == b"words"


def cannot_link(*_: object) -> NoReturn:
    raise PermissionError


@pytest.mark.parametrize("links", [True, False], ids=["as-usual", "on-a-disk-without-second-names"])
def test_nothing_is_left_beside_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, links: bool) -> None:
    if not links:
        monkeypatch.setattr(os, "link", cannot_link)
    write_private(tmp_path / "secret", b"words")

    with pytest.raises(FileExistsError):
        write_private(tmp_path / "secret", b"others")

    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("secret", b"words")]
