"""What a server says of a file besides its bytes: its kind, and how long a browser may keep it."""

import re
from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import Final

KINDS: Final[Mapping[str, str]] = {
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
_NAMED_BY_CONTENT: Final = re.compile(r".*[.-][0-9a-f]{8,64}\.[a-z0-9]+")
_SEALED: Final = "t/"
_OURS: Final = "."


def kind_of(path: str) -> str:
    """The media type of a file, by its ending."""
    return KINDS.get(PurePosixPath(path).suffix, "application/octet-stream")


def keeping_of(path: str) -> str:
    """How long a copy may be kept: a sealed page never, what is named by its content for ever, all else if asked."""
    if path.startswith((_SEALED, _OURS)):
        return "no-store"
    if _NAMED_BY_CONTENT.fullmatch(path) and not path.endswith(".html"):
        return "public, max-age=31536000, immutable"
    return "no-cache"
