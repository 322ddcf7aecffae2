"""A theme as files: the chain of folders it is made of, what it publishes, and what a review of it must see."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from generator.files import THEME, NotRead, read_file
from generator.problems import Place, Problem, Stopped
from generator.writing.store import digest

_PUBLISHED_FOLDERS = ("styles", "scripts")
_DIGEST_LETTERS = 8

_OTHER_HOST = r"""["'(\s]*(?:https?:)?//[^\s"')>]+"""
_FOREIGN_RESOURCE = re.compile(
    rf"""
    \b(?:src|srcset|poster|action|formaction|data)\s*={_OTHER_HOST}  # whatever the element
    | <(?!a\b)[a-z][\w:-]*\s[^<]*?\bhref\s*={_OTHER_HOST}            # a link to follow is no resource
    | \burl\({_OTHER_HOST}
    | @import{_OTHER_HOST}
    | \b(?:import|from|fetch|importScripts|Worker){_OTHER_HOST}
    """,
    re.IGNORECASE | re.VERBOSE,
)
_MARKUP_USE = re.compile(r"\{[{%](?:(?![%}]\}).)*\bmarkup\b.*?[%}]\}", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """A theme and the ones it extends: their folders, the nearest first."""

    name: str
    folders: tuple[Path, ...]


def theme_digest(theme: Theme) -> str:
    """The digest of every file of the chain."""
    parts: list[str | bytes] = []
    for step, folder in enumerate(theme.folders):
        for name, path in _files(folder):
            parts += [f"{step}/{name}", _read(folder, path)]
    return digest(*parts)


def theme_assets(theme: Theme) -> Mapping[str, bytes]:
    """What the theme publishes, by public path below a site's root."""
    return {_public(name, data): data for name, data in _assets(theme)}


def asset_addresses(theme: Theme) -> Mapping[str, str]:
    """The public path of each asset by the name a template calls it."""
    return {name: _public(name, data) for name, data in _assets(theme)}


def foreign_resources(theme: Theme) -> tuple[str, ...]:
    """Where a file of the chain fetches something from another host, as ``file:line: what is written there``."""
    return tuple(
        f"{name}:{text.count(chr(10), 0, found.end()) + 1}: {' '.join(found.group().split())}"
        for name, text in _texts(theme)
        for found in _FOREIGN_RESOURCE.finditer(text)
    )


def markup_uses(theme: Theme) -> tuple[str, ...]:
    """Where a template prints trusted markup, as ``file: expression``; a test lists them for the reviewer."""
    return tuple(
        f"{name}: {' '.join(found.group().split())}"
        for name, text in _texts(theme)
        for found in _MARKUP_USE.finditer(text)
    )


def _assets(theme: Theme) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of each published file; the nearest theme's where several have it."""
    nearest: dict[str, tuple[Path, Path]] = {}
    for folder in reversed(theme.folders):
        nearest.update((name, (folder, path)) for name, path in _files(folder))
    for name in sorted(nearest):
        if name.startswith(tuple(f"{folder}/" for folder in _PUBLISHED_FOLDERS)):
            yield name, _read(*nearest[name])


def _public(name: str, data: bytes) -> str:
    """A name that changes with the bytes, so that no browser shows yesterday's style."""
    path = PurePosixPath(name)
    return str(path.with_name(f"{path.stem}.{digest(data)[:_DIGEST_LETTERS]}{path.suffix}"))


def _texts(theme: Theme) -> Iterator[tuple[str, str]]:
    for folder in theme.folders:
        for name, path in _files(folder):
            yield f"{folder.name}/{name}", _read(folder, path).decode("utf-8", errors="replace")


def _read(folder: Path, path: Path) -> bytes:
    try:
        return read_file(path, THEME)
    except NotRead as fault:
        place = Place(f"themes/{folder.name}/{path.relative_to(folder).as_posix()}", 1, 1)
        raise Stopped(Problem(place=place, what=fault.what, why=fault.why, write=fault.write)) from fault


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Every file of one theme by its name below the folder; what begins with a dot belongs to the computer."""
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder)
        if path.is_file() and not any(part.startswith(".") for part in name.parts):
            yield name.as_posix(), path
