"""What to send to a target and what to remove there, in an order that is safe to interrupt."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import groupby
from pathlib import PurePosixPath
from typing import Final

from generator.model.publish_targets import FileDigest

_PAGES: Final = frozenset({".html", ".xml", ".json"})
WAYS_IN: Final = frozenset({"index.html", "sitemap.xml", "feed.xml"})
_SEALED: Final = "t/"
"""Where the sealed price sheets are."""

_RECALL: Final = "recalls/"
_ISSUED: Final = re.compile(r"safety/.+-r[1-9][0-9]*\.html")


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishPlan:
    """What is to be done at a target: send these in their order, then remove those in theirs."""

    send: tuple[str, ...]
    remove: tuple[str, ...]
    same: int


def planned(wanted: Mapping[str, FileDigest], there: Mapping[str, FileDigest]) -> PublishPlan:
    """Send what is new or changed; remove what is listed there and no longer wanted."""
    send = [path for path, stamp in wanted.items() if there.get(path) != stamp]
    return PublishPlan(
        send=in_sending_order(send),
        # Backwards: whatever leads to a file is removed before the file.
        remove=tuple(reversed(in_sending_order(there.keys() - wanted.keys()))),
        same=len(wanted) - len(send),
    )


def in_sending_order(paths: Iterable[str]) -> tuple[str, ...]:
    """Pictures, styles and papers first, then pages, then the ways in from the innermost out."""
    return tuple(sorted(paths, key=_turn))


def in_turns(paths: Iterable[str]) -> tuple[tuple[str, ...], ...]:
    """The same order, with paths side by side among which it does not matter."""
    return tuple(
        tuple(sorted(group))
        for _, group in groupby(in_sending_order(paths), key=lambda path: _turn(path)[:2])
    )


def withdrawn(wanted: Iterable[str], there: Iterable[str]) -> tuple[str, ...]:
    """Issued sheets that the target has and would lose; their addresses are printed on labels that were sold."""
    return tuple(sorted(path for path in {*there} - {*wanted} if _ISSUED.fullmatch(path)))


def sealed_sheets(paths: Iterable[str]) -> tuple[str, ...]:
    """The sealed price sheets among these."""
    return tuple(sorted(path for path in paths if path.startswith(_SEALED)))


def revoked(wanted: Iterable[str], there: Iterable[str]) -> tuple[str, ...]:
    """Sealed price sheets whose links have ended."""
    return sealed_sheets({*there} - {*wanted})


def recalls_unsaid(wanted: Iterable[str], there: Iterable[str]) -> tuple[str, ...]:
    """Recall notices that the target has and would lose."""
    return tuple(sorted(path for path in {*there} - {*wanted} if path.startswith(_RECALL)))


def carried_back(before: Mapping[str, FileDigest], now: Mapping[str, FileDigest]) -> Mapping[str, FileDigest]:
    """The previous release, with the sheets issued since, every link now in force and no ended one.

    Everything that a current page may need stays as well.
    """
    ended = revoked(now, before)
    kept = {path: stamp for path, stamp in now.items() if _outlives(path)}
    return {**kept, **{path: stamp for path, stamp in before.items() if path not in ended}}


def _outlives(path: str) -> bool:
    return bool(_ISSUED.fullmatch(path)) or path.startswith(_SEALED) or not _is_page(path)


def alike_but_for_case(wanted: Iterable[str], removed: Iterable[str]) -> tuple[str, ...]:
    """Paths to be removed that equal a wanted one on a target that ignores case.

    Such disks also treat two encodings of an accented letter as one.
    """
    folded = {_folded(path) for path in wanted}
    return tuple(path for path in removed if _folded(path) in folded)


def _folded(path: str) -> str:
    return unicodedata.normalize("NFC", path).casefold()


def _is_page(path: str) -> bool:
    return PurePosixPath(path).suffix in _PAGES


def _turn(path: str) -> tuple[int, int, str]:
    name = PurePosixPath(path)
    if name.name in WAYS_IN:
        return 2, -len(name.parts), path
    return int(_is_page(path)), 0, path
