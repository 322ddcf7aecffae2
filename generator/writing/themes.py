"""A theme as files: its chain of folders and what it publishes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path, PurePosixPath

from generator.files import THEME_FILE, NotRead, read_file
from generator.memory import digest
from generator.problems import Place, Problem, Stopped

_PUBLISHED_FOLDERS = ("styles", "scripts")
_DIGEST_LETTERS = 8


@dataclass(frozen=True, kw_only=True)
class Theme:
    """A theme and the ones it extends: their folders, the nearest first."""

    name: str
    folders: tuple[Path, ...]

    @cached_property
    def files(self) -> tuple[Mapping[str, bytes], ...]:
        """Every file of each folder by name, as when first asked for."""
        return tuple({name: _read(folder, path) for name, path in _files(folder)} for folder in self.folders)

    @cached_property
    def digest(self) -> str:
        """The digest of every file of the chain."""
        files = (
            (f"{step}/{name}", data) for step, each in enumerate(self.files) for name, data in each.items()
        )
        return digest(*(part for file in files for part in file))


def theme_assets(theme: Theme) -> Mapping[str, bytes]:
    """What the theme publishes, by public path below a site's root."""
    return {_public(name, data): data for name, data in _assets(theme)}


def asset_addresses(theme: Theme) -> Mapping[str, str]:
    """The public path of each asset by its name in templates."""
    return {name: _public(name, data) for name, data in _assets(theme)}


def _assets(theme: Theme) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of each published file; where several themes have it, the nearest one's."""
    nearest: dict[str, bytes] = {}
    for files in reversed(theme.files):
        nearest |= files
    for name in sorted(nearest):
        if name.startswith(tuple(f"{folder}/" for folder in _PUBLISHED_FOLDERS)):
            yield name, nearest[name]


def _public(name: str, data: bytes) -> str:
    """A name that changes with the bytes, so that no browser shows an old style."""
    path = PurePosixPath(name)
    return str(path.with_name(f"{path.stem}.{digest(data)[:_DIGEST_LETTERS]}{path.suffix}"))


def _read(folder: Path, path: Path) -> bytes:
    try:
        return read_file(path, THEME_FILE)
    except NotRead as fault:
        place = Place(f"themes/{folder.name}/{path.relative_to(folder).as_posix()}", 1, 1)
        raise Stopped(Problem(place=place, what=fault.what, why=fault.why, fix=fault.fix)) from fault


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Every file of one theme by its name below the folder, without dot files."""
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder)
        if path.is_file() and not any(part.startswith(".") for part in name.parts):
            yield name.as_posix(), path
