"""One writer at a time in a folder, by a system lock: it ends with the process that holds it.

The existence of the file ``lock`` means nothing. ``holder`` beside it names its owner for those who wait: Windows
lets nobody read a locked file.
"""

import errno
import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO, Final

from filelock import lock_descriptor, unlock_descriptor

from generator.writing.whole_files import replace_file, sweep

_TRIED_EVERY_S: Final = 0.02
_TOLD_AFTER_S: Final = 0.5
_IGNORED_BY_GIT: Final = b"*\n"

_held: set[Path] = set()
"""The homes of the locks that this process holds."""


@contextmanager
def locked(home: Path, who: str, tell: Callable[[str], None], *, needed: bool = True) -> Iterator[None]:
    """Hold the lock in a folder of our own, made if missing; wait while another process has it.

    ``tell`` is called once with its holder, if waiting takes longer than a moment. A process that has the lock goes on.
    Where the folder cannot hold a lock that is not ``needed``, go on without; else raise OSError.
    """
    home = home.parent.resolve() / home.name
    if home in _held:
        yield
        return
    handle = None
    try:
        handle = _taken(home, tell)
    except OSError:
        if needed:
            raise
    if handle is None:
        yield
        return
    _held.add(home)
    try:
        with suppress(OSError):  # Needed only by those who wait, or look at version control.
            _furnish(home, f"{who} (process {os.getpid()})")
        yield
    finally:
        _held.remove(home)
        unlock_descriptor(handle)
        os.close(handle)


def try_lock(file: IO[bytes]) -> bool:
    """Lock an open file until it is closed; False where another process has it."""
    return lock_descriptor(file.fileno(), blocking=False)


def _taken(home: Path, tell: Callable[[str], None]) -> int:
    """The open and locked file."""
    told_at = time.monotonic() + _TOLD_AFTER_S
    while True:
        _make(home)
        handle = _opened(home / "lock")
        try:
            if lock_descriptor(handle, blocking=False) and _is_still_there(handle, home / "lock"):
                return handle
        except OSError as fault:
            os.close(handle)
            raise OSError(fault.errno, fault.strerror, str(home / "lock")) from fault
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)
        if time.monotonic() > told_at:
            tell(_holder(home))
            told_at = float("inf")
        time.sleep(_TRIED_EVERY_S)


def _make(home: Path) -> None:
    """Make a folder, never a link, since that could lead anywhere."""
    if home.is_symlink():
        raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(home))
    home.mkdir(exist_ok=True)


def _furnish(home: Path, holder: str) -> None:
    """Record who has the lock, in a folder that version control ignores."""
    sweep(home)
    for name, data in ((".gitignore", _IGNORED_BY_GIT), ("holder", holder.encode())):
        path = home / name
        if not path.is_file() or path.read_bytes() != data:
            replace_file(path, data)


def _opened(path: Path) -> int:
    as_it_is = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    try:
        return os.open(path, os.O_RDWR | os.O_CREAT | as_it_is, 0o666)
    except OSError as fault:
        if fault.errno not in {errno.EACCES, errno.EROFS}:
            raise
        return os.open(path, os.O_RDONLY | as_it_is)


def _is_still_there(handle: int, path: Path) -> bool:
    """Whether the locked file is what the next process would lock: the folder may have been removed meanwhile."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False


def _holder(home: Path) -> str:
    try:
        return (home / "holder").read_text(encoding="utf-8") or "another command"
    except (OSError, UnicodeDecodeError):
        return "another command"
