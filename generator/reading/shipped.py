"""What comes with the program besides its words: the small shop to start from, and the themes."""

from pathlib import Path
from typing import Final

from generator.problems import Place, Problem
from generator.reading.located import located
from generator.reading.packaged import PACKAGE, shipped

_LONGEST_CHAIN: Final = 5
"""A theme that extends one that extends ... ends here, be it a circle."""


def first_shop() -> dict[str, bytes]:
    """The files of the small shop that a maker starts from, by name below its content folder."""
    folder = PACKAGE / "data" / "first_shop"
    files_of_it = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files_of_it}


def theme_folders(content: Path, name: str, named_at: Place) -> tuple[Path, ...] | Problem:
    """The folders of a theme and of those it extends, nearest first; the maker's own themes come before ours."""
    homes = (content.resolve().parent / "themes", shipped("themes"))
    chain: list[Path] = []
    wanted: str | None = name
    while wanted and len(chain) < _LONGEST_CHAIN:
        folder = next((home / wanted for home in homes if (home / wanted / "theme.yaml").is_file()), None)
        if folder is None:
            known = sorted({path.parent.name for home in homes for path in home.glob("*/theme.yaml")})
            return Problem(
                place=named_at,
                what=f"there is no theme '{wanted}'",
                why="the pages could not be printed",
                write=f"theme: {', or '.join(known[:5])}",
            )
        chain.append(folder)
        wanted = _extended(folder)
    return tuple(chain)


def _extended(folder: Path) -> str | None:
    """The theme that a theme extends, if it does."""
    data = located((folder / "theme.yaml").read_bytes(), "theme.yaml").data
    wanted = data.get("extends") if isinstance(data, dict) else None
    return None if wanted in (None, "", "null", "none") else str(wanted)
