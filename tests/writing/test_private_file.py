"""A private file is its owner's alone, and never written over."""

import os
from pathlib import Path

import pytest

from generator.writing.private_file import write_private


@pytest.mark.skipif(os.name != "posix", reason="only there do files have such modes")
def test_nobody_else_can_read_it(tmp_path: Path) -> None:
    write_private(tmp_path / "secret", b"words")

    assert (tmp_path / "secret").stat().st_mode & 0o777 == 0o600


def test_one_that_is_there_stays_as_it_is(tmp_path: Path) -> None:
    write_private(tmp_path / "secret", b"words")

    with pytest.raises(FileExistsError):
        write_private(tmp_path / "secret", b"others")

    assert (tmp_path / "secret").read_bytes() == b"words"
