"""Whether every link on the pages leads to an existing file."""

import posixpath
import re
from collections.abc import Callable, Iterable
from html import unescape
from typing import Final
from urllib.parse import unquote

_LINK: Final = re.compile(r"""\s(?:href|src)=["']?([^"'\s>]+)""")
_ELSEWHERE: Final = re.compile(r"[a-z][a-z0-9+.-]*:|[/\\]{2}|#")
"""What leads to no file of ours; a backslash is a slash to a browser (WHATWG URL Standard)."""


def dead_links(paths: Iterable[str], read: Callable[[str], bytes]) -> tuple[tuple[str, str], ...]:
    """Each page with its links that lead to no file."""
    files = frozenset(paths)
    pages = sorted(path for path in files if path.endswith(".html"))
    return tuple(
        (page, link) for page in pages for link in _links(read(page)) if aim(page, link) not in files
    )


def missing_files(paths: Iterable[str], read: Callable[[str], bytes]) -> frozenset[str]:
    """The missing files that the pages link to."""
    return frozenset(aim(page, link) for page, link in dead_links(paths, read))


def _links(page: bytes) -> Iterable[str]:
    links = (unescape(link) for link in _LINK.findall(page.decode()))
    return sorted({link for link in links if not _ELSEWHERE.match(link)})


def aim(page: str, link: str) -> str:
    """The path from the site's root that a link of a page leads to."""
    path = unquote(re.split("[?#]", link, maxsplit=1)[0].replace("\\", "/"))
    aim = posixpath.normpath(posixpath.join(posixpath.dirname(page), path))
    return posixpath.normpath(f"{aim}/index.html") if path.endswith("/") or path in (".", "") else aim
