"""A file's HTTP headers: its type, how long it may be cached, whether search engines may list it."""

from collections.abc import Iterator, Mapping
from pathlib import PurePosixPath
from typing import Final

_KINDS: Final[Mapping[str, str]] = {
    ".css": "text/css; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".jpg": "image/jpeg",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webp": "image/webp",
    ".xml": "application/xml",
}
NAMED_BY_CONTENT: Final = ("photos/", "scripts/", "styles/")
"""In these folders every name contains a digest of the file, so that a copy is never out of date."""

_FOR_EVER: Final = "public, max-age=31536000, immutable"
_KEEPING: Final = (
    ("", "no-cache"),
    *((folder, _FOR_EVER) for folder in NAMED_BY_CONTENT),
    ("t/", "no-store"),
    (".wickwright/", "no-store"),
)
_FINDING: Final = (("lots/", "noindex"), ("t/", "noindex, nofollow, noarchive"))


def kind_of(path: str) -> str:
    """The media type of a file, by its ending."""
    return _KINDS.get(PurePosixPath(path).suffix, "application/octet-stream")


def keeping_of(path: str) -> str:
    """How long a browser and caches may keep a copy."""
    return [keeping for start, keeping in _KEEPING if path.startswith(start)][-1]


def headers_to_set(policy: str) -> Iterator[tuple[str, str, str]]:
    """Folder, header and value of everything a host should send; of two that match, the later one wins."""
    yield "", "Content-Security-Policy", policy
    yield "", "X-Content-Type-Options", "nosniff"
    yield from ((start, "Cache-Control", keeping) for start, keeping in _KEEPING)
    yield from ((start, "X-Robots-Tag", finding) for start, finding in _FINDING)
