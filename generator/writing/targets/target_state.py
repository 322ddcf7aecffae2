"""Where the next release goes at a target, determined from the lists that earlier runs left there."""

import json
import re
import reprlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from generator.writing.paths import can_be_laid
from generator.writing.targets.peer import (
    MOST_BYTES_OF_A_LIST,
    MOST_FILES,
    OURS,
    CouldNotPublish,
    FolderListing,
    Found,
    target_text,
)

Lines = Mapping[str, tuple[str, int]]
"""Digest and size of each file by its path."""

UNSURE: Final = ("", 0)
"""A file that is ours, and may be whole, partial or gone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseSide:
    """One folder with a release: the start of its paths, its files as listed, the paths of its lists."""

    base: str
    lines: Lines
    lists: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetState:
    """What is at a target: the side for the next release, the side that visitors see, who holds the lock.

    Without a link they are the same side; a ``link`` leads to the visible one.
    """

    owner: bytes | None
    laid: ReleaseSide
    seen: ReleaseSide
    link: str | None = None

    @property
    def standing(self) -> tuple[str, ...]:
        """Paths of the live release's lists, through the link if there is one."""
        if self.link is None:
            return self.seen.lists
        return tuple(f"{self.link}/{path.removeprefix(self.seen.base)}" for path in self.seen.lists)


def in_place(found: Found, web: str) -> TargetState:
    """A target whose files are replaced one by one."""
    side = _side("", found.listings[""], web)
    return TargetState(owner=found.owner, laid=side, seen=side)


def sides_of(link: str) -> tuple[str, str]:
    """The two folders to which a link leads in turn."""
    return f"{link}.one", f"{link}.two"


def by_turns(found: Found, link: str, web: str) -> TargetState:
    """A target whose link leads to one of two folders; the next release goes into the other."""
    names = sides_of(link)
    one, two = (_side(f"{name}/", found.listings.get(name, _NOTHING), web) for name in names)
    behind = found.listings.get(link)
    if behind is None:
        return TargetState(owner=found.owner, laid=one, seen=_side("", _NOTHING, web), link=link)
    # A list's name is in one folder only, which shows where the link leads.
    shown = [
        side for side in (one, two) if {path.rpartition("/")[2] for path in side.lists} & behind.lists.keys()
    ]
    if len(shown) != 1:
        raise CouldNotPublish(
            f"{link} is already a folder, or a link to one this program did not fill; "
            "a site published all at once needs that name free for a link. Rename the "
            "folder, then publish again"
        )
    return TargetState(owner=found.owner, laid=two if shown[0] is one else one, seen=shown[0], link=link)


def list_at_target(web: str, lines: Lines) -> bytes:
    """A list as left at the target."""
    files = {path: {"sha256": digest, "size": size} for path, (digest, size) in sorted(lines.items())}
    return json.dumps({"web": web, "files": files}, ensure_ascii=False).encode()


def read_list(path: str, listed: bytes, web: str) -> Lines:
    """The files of the site at ``web`` in the list at this path; anyone who can write there can forge it."""
    try:
        said = json.loads(listed)
    except (ValueError, RecursionError) as fault:
        raise _altered(path, "it is not the JSON that this program writes") from fault
    match said:
        case {"web": str(whose), "files": dict(files)}:
            pass
        case _:
            raise _altered(path, "it does not name a site and its files")
    if len(files) > MOST_FILES:
        raise _altered(path, f"it lists {len(files)} files, but the limit is {MOST_FILES}")
    lines = {entry: _line(path, entry, line) for entry, line in files.items()}
    if whose != web:
        raise CouldNotPublish(
            f"the target's folder contains the site of {target_text(whose) or 'a shop without an address'}, "
            "not this one"
        )
    return lines


def check_length(web: str, lines: Lines) -> None:
    """Raise if a list of these files would be larger than the next run reads."""
    if len(lines) > MOST_FILES or len(list_at_target(web, lines)) > MOST_BYTES_OF_A_LIST:
        raise CouldNotPublish(
            f"the site and the files at the target come to {len(lines)}, but a list may "
            f"have at most {MOST_FILES} ({MOST_BYTES_OF_A_LIST // 1024**2} MB); nothing "
            "was sent"
        )


_NOTHING: Final = FolderListing(lists={}, names=())


def _side(base: str, found: FolderListing, web: str) -> ReleaseSide:
    if not found.lists:
        _refuse_what_is_not_ours(found)
    lists = {f"{base}{OURS}/{name}": data for name, data in sorted(found.lists.items())}
    lines = _together(read_list(path, data, web) for path, data in lists.items())
    return ReleaseSide(base=base, lines=lines, lists=tuple(lists))


def _refuse_what_is_not_ours(found: FolderListing) -> None:
    foreign = [name for name in found.names if not name.startswith(".")]
    if foreign:
        raise CouldNotPublish(
            f"the target's folder contains {target_text(foreign[0])}, which this program "
            "did not put there; nothing was changed. Name an empty folder in publish.yaml, "
            "or empty this one yourself"
        )


def _together(lists: Iterable[Lines]) -> Lines:
    """Everything that is ours by any list; there are two after an interrupted run, or when two runs met."""
    lines: dict[str, tuple[str, int]] = {}
    for each in lists:
        lines |= {path: line if lines.get(path, line) == line else UNSURE for path, line in each.items()}
    return lines


def _line(path: str, entry: str, line: object) -> tuple[str, int]:
    if not can_be_laid(entry):
        raise _altered(path, f"its entry {target_text(repr(entry))} cannot be the path of a site's file")
    match line:
        case {"sha256": str(digest), "size": int(size)} if _DIGEST.fullmatch(digest) and _is_size(size):
            return digest, size
    raise _altered(path, f"its entry {target_text(repr(entry))} has no digest and size: {reprlib.repr(line)}")


_DIGEST: Final = re.compile(r"([0-9a-f]{64})?")
"""None is a file of which an interrupted run was not sure."""

_MOST_BYTES_OF_A_FILE: Final = 2**48


def _is_size(size: int) -> bool:
    return not isinstance(size, bool) and 0 <= size <= _MOST_BYTES_OF_A_FILE


def _altered(path: str, why: str) -> CouldNotPublish:
    return CouldNotPublish(
        f"the list {path} at the target cannot be read: {why}. It was changed there, "
        "so there is no telling which files are ours; nothing was changed. Restore "
        "it, or publish to an empty folder"
    )
