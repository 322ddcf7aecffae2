"""What affects papers besides the entries: this program's own files and the libraries it prints with."""

import sys
import zlib
from collections.abc import Mapping
from functools import cache
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path

from generator.memory import digest

_LIBRARIES = (
    "cryptography",
    "fontpkg-arimo",
    "fontpkg-atkinson-hyperlegible",
    "fontpkg-fira-code",
    "fontpkg-inter",
    "jinja2",
    "markdown",
    "markupsafe",
    "pillow",
    "pydantic",
    "pyyaml",
    "segno",
    "typst",
)


@cache
def program_digest() -> str:
    """The digest of the program as it was when first asked: its code, its data, the versions of its libraries."""
    package = Path(str(files("generator")))
    parts: list[str | bytes] = [sys.version, zlib.ZLIB_RUNTIME_VERSION]
    parts += [f"{name} {number}" for name, number in library_versions().items()]
    for path in sorted(package.rglob("*")):
        if path.is_file() and "__pycache__" not in path.parts:
            parts += [path.relative_to(package).as_posix(), path.read_bytes()]
    return digest(*parts)


@cache
def library_versions() -> Mapping[str, str]:
    """The versions of the libraries whose change may change a printed byte."""
    return {name: version(name) for name in _LIBRARIES}
