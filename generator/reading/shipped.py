"""What comes with the program besides its words: the themes, and the small shop to start from.

Separate from the theme reader, because a build with no changes loads it, and must not wait for `pydantic`.
"""

from importlib.resources import files
from pathlib import Path
from typing import Final

PACKAGE: Final = Path(str(files("generator")))


def shipped(name: str) -> Path:
    """A folder that comes with the program: in a wheel inside the package, in a checkout beside it."""
    inside = PACKAGE / "shipped" / name
    return inside if inside.is_dir() else PACKAGE.parent / name


def first_shop() -> dict[str, bytes]:
    """The files of the small shop that a maker starts from, by name below its content folder."""
    folder = PACKAGE / "data" / "first_shop"
    names = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    # A command run on them leaves its hidden folders there.
    ours = (name for name in names if not any(above.startswith(".") for above in name.parent.parts))
    return {name.as_posix(): (folder / name).read_bytes() for name in ours}
