"""A file that nobody but its owner can read."""

import os
from pathlib import Path

from generator.writing.whole_files import flush_folder, written_beside

OWNER_ALONE = 0o600


def write_private(path: Path, data: bytes) -> None:
    """Write a new file for its owner alone, where the system has such modes, whole and on the disk or not at all.

    One that is there already stays.
    """
    temporary = written_beside(path, data, durable=True, mode=OWNER_ALONE)
    try:
        _link(temporary, path)
    finally:
        temporary.unlink(missing_ok=True)
    flush_folder(path.parent)


def _link(temporary: Path, path: Path) -> None:
    """Give the file its name; a second name is the one way to do so that never takes another file's place."""
    try:
        os.link(temporary, path)
    except FileExistsError:
        raise
    except OSError:
        # A disk without second names, such as FAT: the lock keeps other commands of ours away meanwhile.
        if os.path.lexists(path):
            raise FileExistsError(path) from None
        temporary.rename(path)
