"""A file that nobody but its owner can read."""

import os
from pathlib import Path

OWNER_ALONE = 0o600


def write_private(path: Path, data: bytes) -> None:
    """Write a new file for its owner alone, where the system has such modes; one that is there already stays."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, OWNER_ALONE)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
