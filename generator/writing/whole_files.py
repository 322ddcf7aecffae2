"""A file is put in place whole or not at all, and what a killed run left half written is swept away."""

import os
import secrets
from pathlib import Path

TEMPORARY_PREFIX = ".wickwright-"
_TEMPORARY_SUFFIX = ".part"
_BINARY = getattr(os, "O_BINARY", 0)


def replace_file(path: Path, data: bytes, *, durable: bool = False, mode: int | None = None) -> None:
    """Put a whole file in the place of the old one; `durable` waits until the disk has it; ``mode`` is its own."""
    temporary = path.with_name(f"{TEMPORARY_PREFIX}{secrets.token_hex(4)}{_TEMPORARY_SUFFIX}")
    try:
        handle = os.open(
            temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, 0o666 if mode is None else mode
        )
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            if durable:
                file.flush()
                os.fsync(file.fileno())
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def sweep(folder: Path) -> None:
    """Take away the temporary files that a killed run left in the folder itself."""
    for path in folder.glob(f"{TEMPORARY_PREFIX}*{_TEMPORARY_SUFFIX}"):
        path.unlink()
