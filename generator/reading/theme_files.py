"""A theme's folder and those of the themes that it extends, as their files name them."""

from pathlib import Path
from typing import Final

from generator.files import ENTRY_FILE, NotRead, read_file
from generator.problems import START, Place, Problem
from generator.reading.located import Located, located
from generator.reading.meant import nearest
from generator.reading.shipped import shipped

_FILE: Final = "theme.yaml"
_KEYS: Final = ("name", "extends")
_UNPRINTED: Final = "the pages could not be printed"


def theme_folders(content: Path, name: str, named_at: Place) -> tuple[Path, ...] | Problem:
    """The folders of a theme and of those it extends, nearest first; the maker's own themes come before ours."""
    homes = (content.resolve().parent / "themes", shipped("themes"))
    chain: list[Path] = []
    wanted: str | None = name
    while wanted is not None:
        folder = next((home / wanted for home in homes if (home / wanted / _FILE).is_file()), None)
        if folder is None:
            return _unknown(wanted, homes, named_at, "extends" if chain else "theme")
        if folder in chain:
            return _in_a_circle(chain[-1].name, wanted, named_at)
        chain.append(folder)
        shown = f"themes/{folder.name}/{_FILE}"
        try:
            read = located(read_file(folder / _FILE, ENTRY_FILE), shown)
        except NotRead as fault:
            return Problem(place=Place(shown, 1, 1), what=fault.what, why=fault.why, fix=fault.fix)
        wrong = _what_is_wrong(read, folder.name)
        if wrong is not None:
            return wrong
        wanted, named_at = _extended(read, folder.name)
    return tuple(chain)


def _unknown(wanted: str, homes: tuple[Path, ...], named_at: Place, key: str) -> Problem:
    known = sorted({path.parent.name for home in homes for path in home.glob(f"*/{_FILE}")})
    return Problem(
        place=named_at,
        what=f"there is no theme '{wanted}'",
        why=_UNPRINTED,
        fix=f"{key}: {', or '.join(known[:5])}",
    )


def _in_a_circle(extending: str, extended: str, named_at: Place) -> Problem:
    return Problem(
        place=named_at,
        what=f"the theme '{extending}' extends '{extended}', which in turn extends it",
        why=_UNPRINTED,
        fix="extends: ... (a theme that does not extend this one, such as netloft)",
    )


def _what_is_wrong(read: Located, folder: str) -> Problem | None:
    """The first slip in a theme's file, if there is one."""
    if read.problems:
        return read.problems[0]
    keys = read.data if isinstance(read.data, dict) else {}
    for key in keys:
        if key not in _KEYS:
            spot = read.spots().below[key]
            return Problem(
                place=Place(f"themes/{folder}/{_FILE}", spot.key_line, spot.key_column),
                what=f"'{key}' is not a key of a theme",
                why=_UNPRINTED,
                fix=f"{nearest(key, _KEYS) or ', or '.join(_KEYS)}: netloft",
            )
    return None


def _extended(read: Located, folder: str) -> tuple[str | None, Place]:
    """The theme that a theme extends, if any, and the place that names it."""
    wanted = read.data.get("extends") if isinstance(read.data, dict) else None
    spot = read.spots().below.get("extends", START)
    name = wanted if isinstance(wanted, str) and wanted else None
    return name, Place(f"themes/{folder}/{_FILE}", spot.line, spot.column)
