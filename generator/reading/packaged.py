"""Where the files that come with the program are."""

from importlib.resources import files
from pathlib import Path
from typing import Final

PACKAGE: Final = Path(str(files("generator")))


def shipped(name: str) -> Path:
    """A folder that comes with the program: in a wheel inside the package, in a checkout beside it."""
    inside = PACKAGE / "shipped" / name
    return inside if inside.is_dir() else PACKAGE.parent / name
