"""Which files are read: only regular ones, each up to a size for its sort, and no name that a system reserves."""

import errno
import os
import re
import stat
from dataclasses import dataclass
from pathlib import Path
from typing import Final


@dataclass(frozen=True, slots=True)
class Sort:
    """One sort of file: its name in a sentence, its most bytes, and why more cannot be meant."""

    noun: str
    most_bytes: int
    why: str


_KB: Final = 1_000
_MB: Final = 1_000_000

ENTRY_FILE: Final = Sort("an entry", 300 * _KB, "the longest entry of a shop is a hundredth of that")
LEDGER_FILE: Final = Sort("a list of issued sheets", 4 * _MB, "two hundred revisions of one sheet take less")
TABLE_FILE: Final = Sort("a table", 2 * _MB, "twenty thousand lots take less")
PAGE_FILE: Final = Sort("a page", 60 * _KB, "that is ten thousand words, more than anyone reads on one page")
DRAWING_FILE: Final = Sort(
    "a drawing", 5 * _MB, "a front with a photo in it is smaller, and each label contains it"
)
PHOTO_FILE: Final = Sort("a photo", 50 * _MB, "a camera's largest picture is smaller")
THEME_FILE: Final = Sort("a file of a theme", 2 * _MB, "a page would take too long to load")
ANY_FILE: Final = Sort("any file", PHOTO_FILE.most_bytes, "nothing that is read here is larger")
"""The limits are ours (CHOICE): far above what a shop needs, and so low that each is read within seconds."""

COARSEST_CLOCK_NS: Final = 2_000_000_000
"""The coarsest step of file times on a disk: two seconds, on FAT (common practice, no source)."""

_NO_WAITING: Final = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
_KINDS: Final = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
)
_DEVICES: Final = re.compile(r"(con|prn|aux|nul|(com|lpt)[0-9¹²³]|conin\$|conout\$) *(\.|:|$)", re.IGNORECASE)


class NotRead(OSError):
    """A file that is not read; ``what``, ``why`` and ``fix`` explain it to the maker, without the file's name."""

    def __init__(self, what: str, why: str, fix: str, *, path: Path | str) -> None:
        super().__init__(errno.EINVAL, what, str(path))
        self.what, self.why, self.fix = what, why, fix


def read_file(path: Path | str, sort: Sort) -> bytes:
    """The bytes of a regular file of a sort.

    Raises ``NotRead`` for anything else, and before reading a byte where it is too large. A pipe or a device is
    not even opened, since that may wait for ever or do something.
    """
    check_file(path, sort)
    try:
        handle = os.open(path, os.O_RDONLY | _NO_WAITING)
    except OSError as fault:
        raise _not_opened(path, fault) from fault
    with os.fdopen(handle, "rb") as file:
        state = os.fstat(handle)
        _check(path, state, sort)
        data = file.read(state.st_size + 1)
        if len(data) > state.st_size:
            data += file.read(sort.most_bytes + 1 - len(data))
    if len(data) > sort.most_bytes:
        raise _too_large(path, len(data), sort)  # It grew meanwhile, or never reported its size.
    return data


def check_file(path: Path | str, sort: Sort) -> os.stat_result:
    """The status of a file; raises ``NotRead`` where ``read_file`` would, as far as the status shows."""
    try:
        state = os.stat(path)  # noqa: PTH116  (making a Path takes longer than this)
    except OSError as fault:
        raise _not_opened(path, fault) from fault
    _check(path, state, sort)
    return state


def state_as_text(state: os.stat_result) -> str:
    """Everything in a file's status that shows that it is another file or was rewritten."""
    return f"{state.st_dev} {state.st_ino} {state.st_size} {state.st_mtime_ns} {state.st_ctime_ns}"


def is_at_rest(state: os.stat_result, now_ns: int) -> bool:
    """Whether a file was last written long enough ago that another change must show in its times.

    A file may change twice within one step of the disk's clock.
    """
    return max(state.st_mtime_ns, state.st_ctime_ns) + COARSEST_CLOCK_NS < now_ns


def is_there(path: Path | str) -> bool:
    """Whether a name is taken, even by a broken link."""
    return os.path.lexists(path)


def is_device_name(name: str) -> bool:
    """Whether Windows reserves a file's name for a device, with any ending (Microsoft, "Naming Files": MEMORY).

    >>> is_device_name("aux.md"), is_device_name("auxiliary.md")
    (True, False)
    """
    return _DEVICES.match(name) is not None


def _check(path: Path | str, state: os.stat_result, sort: Sort) -> None:
    if not stat.S_ISREG(state.st_mode):
        kind = next((noun for is_kind, noun in _KINDS if is_kind(state.st_mode)), "a device")
        raise NotRead(
            f"this is {kind}; expected {sort.noun}",
            "only files are read here; waiting for anything else might never end",
            "put the file itself under this name, or rename this",
            path=path,
        )
    if state.st_size > sort.most_bytes:
        raise _too_large(path, state.st_size, sort)


def _too_large(path: Path | str, size: int, sort: Sort) -> NotRead:
    return NotRead(
        f"the file has {_sized(size)}; {sort.noun} may have {_sized(sort.most_bytes)}",
        f"{sort.why}, so this may be the wrong file",
        "shorten the file, or split it into several",
        path=path,
    )


def _not_opened(path: Path | str, fault: OSError) -> NotRead:
    told = "a broken link" if Path(path).is_symlink() else fault.strerror
    return NotRead(
        f"the file cannot be opened ({told})",
        "its contents would be missing",
        "make the file readable, or delete it",
        path=path,
    )


def _sized(size: int) -> str:
    """A size rounded up to three digits, so that a file just too large never appears to be within its limit."""
    unit, name = (_MB, "MB") if size >= _MB else (_KB, "kB")
    hundredths = -(-size * 100 // unit)
    return f"{hundredths / 100:g} {name}"
