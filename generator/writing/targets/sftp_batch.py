"""The commands for the system's own SFTP client, one a line, and its listings."""

import os
import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.writing.paths import folded, folders_above
from generator.writing.targets.peer import CouldNotPublish, linked, of_another_kind, target_text

_LONGEST_LINE: Final = 2046
"""The client reads 2,047 bytes of a line, and takes the rest as its next command (OpenSSH 9.2, run)."""

_CONTROL: Final = re.compile(rb"[\x00-\x1f\x7f]")


def command(verb: str, *words: bytes) -> bytes:
    """One line of a batch; the words come from ``remote`` and ``local``."""
    line = b" ".join((verb.encode(), *words))
    if len(line) > _LONGEST_LINE:
        raise CouldNotPublish(
            f"{target_text(line.decode(errors='replace'))} is too long a name for the SFTP client"
        )
    return line


def remote(path: str) -> bytes:
    """A path on the server; one that begins with a hyphen is not an option."""
    return _quoted((f"./{path}" if path.startswith("-") else path).encode())


def local(path: Path) -> bytes:
    """A path on this computer, in its bytes on the disk."""
    return _quoted(os.fsencode(path.absolute().as_posix()))


def option(path: Path) -> str:
    """A path as the value of an option, in which the client expands ``%`` and ``${``."""
    text = path.absolute().as_posix()
    if "${" in text or _CONTROL.search(os.fsencode(text)):
        raise CouldNotPublish(
            f"the SFTP client cannot handle the path {target_text(text)}: it contains "
            f"${{ or an invisible character; rename the folder"
        )
    return '"' + text.replace("%", "%%").replace("\\", "\\\\").replace('"', '\\"') + '"'


def _quoted(word: bytes) -> bytes:
    """One word of a batch; a pattern is literal inside quotes, and a line never ends inside one."""
    if _CONTROL.search(word):
        raise CouldNotPublish(
            f"the SFTP client cannot handle the name {target_text(word.decode(errors='replace'))}: "
            "it contains an invisible character; rename it"
        )
    return b'"' + word.replace(b"\\", b"\\\\").replace(b'"', b'\\"') + b'"'


@dataclass(frozen=True, slots=True)
class RemoteEntry:
    """One entry of a server's folder: its kind as ``ls -l`` writes it (``-``, ``d``, ``l``), its size in bytes."""

    name: str
    kind: str
    size: int


Listing = tuple[RemoteEntry, ...]
"""All entries of one folder, including itself; empty where there is none."""

LIST_COMMAND: Final = "-ls -lan"
"""The client writes these lines itself, from the server's numbers for each file: they always look the same."""

_LINE: Final = re.compile(
    r"(?P<kind>\S)\S{9,10}\s+\S+\s.*?\s(?P<size>[0-9]+) "
    r"[A-Z][a-z]{2} [ 0-9][0-9] [ 0-9][0-9][0-9:][0-9]{2} (?P<name>.+)"
)
_OCTAL: Final = re.compile(rb"\\([0-3][0-7]{2})")


def listing(folder: str, lines: Iterable[str]) -> Listing:
    """A folder's entries from the client's lines; raises at an unknown line, since it may hide a link."""
    return tuple(_entry(folder, line) for line in lines if line)


def _entry(folder: str, line: str) -> RemoteEntry:
    found = _LINE.fullmatch(line)
    if found is None or found["kind"] == "?":
        raise CouldNotPublish(
            f"the server's listing of {target_text(folder)} has a line that cannot be "
            f"read, {target_text(repr(line))}, which may hide a link; remove what it "
            "names, or choose another folder"
        )
    name = found["name"].rpartition("/")[2].encode(errors="surrogateescape")
    plain = _OCTAL.sub(lambda octal: bytes([int(octal[1], 8)]), name)
    return RemoteEntry(_composed(plain.decode(errors="replace")), found["kind"], int(found["size"]))


def entries_named(entries: Listing, name: str) -> Listing:
    """What a server may find by this name: the same spelling, or else the same except for case."""
    name = _composed(name)
    same = tuple(entry for entry in entries if entry.name == name)
    return same or tuple(entry for entry in entries if folded(entry.name) == folded(name))


def check_way(listings: Mapping[str, Listing], path: str, link: str | None = None) -> Listing:
    """The entry of a file, if it exists; raises where a link or something of the wrong kind is there or on the way.

    ``listings`` are of all folders on the way, the outermost by the name ``.``; ``link`` may be one.
    """
    for folder in folders_above(path):
        if not _found(listings, folder, "dl" if folder == link else "d", "folder"):
            return ()
        if not listings[folder]:
            raise CouldNotPublish(
                f"{target_text(folder)} at the target cannot be listed, so it may contain links"
            )
    return _found(listings, path, "-", "file")


def _found(listings: Mapping[str, Listing], path: str, kinds: str, word: str) -> Listing:
    folder, _, name = path.rpartition("/")
    entries = entries_named(listings[folder or "."], name)
    for kind in (entry.kind for entry in entries if entry.kind not in kinds):
        raise linked(path) if kind == "l" else of_another_kind(path, word)
    return entries


def _composed(name: str) -> str:
    return unicodedata.normalize("NFC", name)
