"""A file is put in place whole or not at all, and what a killed run left half-written is removed."""

import errno
import os
import re
import secrets
import stat
from pathlib import Path
from typing import Final

TEMPORARY_PREFIX = ".wickwright-"
_TEMPORARY_SUFFIX = ".part"
_TEMPORARY = re.compile(
    rf"{re.escape(TEMPORARY_PREFIX)}[0-9a-f]{{8}}{re.escape(_TEMPORARY_SUFFIX)}", re.ASCII
)
_CANNOT_FLUSH_FOLDERS: Final = frozenset({errno.EINVAL, errno.ENOTSUP, errno.EBADF})
_AS_THE_SYSTEM_SAYS: Final = 0o666
"""What the user's mask takes its bits from."""


def replace_file(path: Path, data: bytes, *, durable: bool = False, mode: int | None = None) -> None:
    """Replace a file as a whole; `durable` waits until the disk has it, and its name.

    Without a `mode` it keeps that of the old file; a new one has what the user's mask leaves. A link is replaced.
    """
    temporary = written_beside(path, data, durable=durable, mode=mode_of(path) if mode is None else mode)
    try:
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    if durable:
        flush_folder(path.parent)


def record(path: Path, data: bytes, *, mode: int | None = None) -> None:
    """Put a whole file among the maker's own, and wait until the disk has it.

    It keeps the old file's mode unless one is given; its folder is made if missing; where there is a link, the file
    it leads to is replaced.
    """
    make_folder(path.parent)
    replace_file(path.resolve() if path.is_symlink() else path, data, durable=True, mode=mode)


def written_beside(path: Path, data: bytes, *, durable: bool, mode: int | None) -> Path:
    """The bytes in a temporary file beside a path, to be put in its place."""
    temporary = path.with_name(temporary_name())
    write_new(temporary, data, durable=durable, mode=mode)
    return temporary


def write_new(path: Path | str, data: bytes, *, durable: bool = False, mode: int | None = None) -> None:
    """Write a file where there is none; nothing stays of one that could not be written completely."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    handle = os.open(path, flags, _AS_THE_SYSTEM_SAYS if mode is None else mode & stat.S_IRWXU)
    try:
        with os.fdopen(handle, "wb") as file:
            if mode is not None and os.name == "posix":
                os.fchmod(handle, mode)
            file.write(data)
            if durable:
                file.flush()
                os.fsync(handle)
    except BaseException:
        Path(path).unlink(missing_ok=True)
        raise


def temporary_name() -> str:
    """A name that no other file has while it is written; ``is_temporary`` recognises it."""
    return f"{TEMPORARY_PREFIX}{secrets.token_hex(4)}{_TEMPORARY_SUFFIX}"


def flush_folder(folder: Path) -> None:
    """Wait until the disk has the names in a folder, if the system supports that."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as fault:
        if fault.errno not in _CANNOT_FLUSH_FOLDERS:
            raise
    finally:
        os.close(handle)


def sweep(folder: Path) -> None:
    """Remove the temporary files that a killed run left in the folder itself; only its one writer may."""
    for path in folder.glob(f"{TEMPORARY_PREFIX}*"):
        if is_temporary(path):
            path.unlink()


def is_temporary(path: Path) -> bool:
    """Whether a file has the name of one still being written, or never completed."""
    return _TEMPORARY.fullmatch(path.name) is not None


def make_folder(folder: Path) -> None:
    """Make a folder and those above it if missing, and wait until the disk has them."""
    if not folder.is_dir():
        make_folder(folder.parent)
        folder.mkdir(exist_ok=True)
        flush_folder(folder.parent)


def mode_of(path: Path | str) -> int | None:
    """The mode of an existing file; None for anything else."""
    try:
        found = os.lstat(path).st_mode
    except (FileNotFoundError, NotADirectoryError):
        return None
    return stat.S_IMODE(found) if stat.S_ISREG(found) else None


OWNER_ALONE = 0o600


def write_private(path: Path, data: bytes) -> None:
    """Write a new file only its owner may read, if the system has such modes, whole and on the disk or not at all.

    An existing one stays.
    """
    temporary = written_beside(path, data, durable=True, mode=OWNER_ALONE)
    try:
        _link(temporary, path)
    finally:
        temporary.unlink(missing_ok=True)
    flush_folder(path.parent)


def _link(temporary: Path, path: Path) -> None:
    """Give the file its name; a second name is the only way that never replaces another file."""
    try:
        os.link(temporary, path)
    except FileExistsError:
        raise
    except OSError:
        # A disk without second names, such as FAT: the lock keeps our other commands away meanwhile.
        if os.path.lexists(path):
            raise FileExistsError(path) from None
        temporary.rename(path)
