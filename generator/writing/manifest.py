"""The list of what this program wrote under OUTPUT, by which it recognises its own files."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.writing.paths import MANIFEST, can_be_laid
from generator.writing.whole_files import replace_file


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenFile:
    """The manifest's entry for a file we wrote; ``seen_ns`` is when it was last changed, according to the disk.

    There are two such times: of its bytes, which can be set back, and of anything about it, which cannot. ``key`` is
    the digest of everything it was made from, if known.
    """

    sha256: str
    size: int
    seen_ns: tuple[int, int] | None = None
    key: str | None = None


def read_manifest(output_folder: Path) -> Mapping[str, WrittenFile]:
    """What we wrote by path; nothing when the manifest is missing or damaged."""
    try:
        lines = json.loads((output_folder / MANIFEST).read_bytes())
    except (FileNotFoundError, ValueError):
        return {}
    return dict(_lines_of_ours(lines)) if isinstance(lines, dict) else {}


def save_manifest(output_folder: Path, listed: Mapping[str, WrittenFile]) -> None:
    """Write the list of what is ours, unless it says so already; all else can be made again, so it alone is durable."""
    lines = {
        path: {"sha256": one.sha256, "size": one.size, "seen_ns": one.seen_ns, "key": one.key}
        for path, one in listed.items()
    }
    data = (json.dumps(lines, sort_keys=True, ensure_ascii=False) + "\n").encode()
    place = output_folder / MANIFEST
    if not (place.is_file() and place.read_bytes() == data):
        replace_file(place, data, durable=True)


def listed_at_ns(output_folder: Path) -> int:
    """When the manifest was written, by the clock of its disk."""
    try:
        return (output_folder / MANIFEST).lstat().st_mtime_ns
    except FileNotFoundError:
        return 0


def _lines_of_ours(lines: Mapping[str, object]) -> Iterator[tuple[str, WrittenFile]]:
    for path, line in lines.items():
        match line:
            case {"sha256": str(digest), "size": int(size), "seen_ns": times, **more} if can_be_laid(path):
                key = more.get("key")
                yield (
                    path,
                    WrittenFile(
                        sha256=digest,
                        size=size,
                        seen_ns=_times_of(times),
                        key=key if isinstance(key, str) else None,
                    ),
                )


def _times_of(times: object) -> tuple[int, int] | None:
    match times:
        case [int(of_bytes), int(of_anything)]:
            return of_bytes, of_anything
    return None
