"""The maker's own drawing behind a product label: whole, and all of it in one file."""

from collections.abc import Iterator
from pathlib import Path
from typing import Final
from xml.etree import ElementTree

from generator.problems import Place, Problem

_ROOT: Final = "{http://www.w3.org/2000/svg}svg"
_LINKS: Final = ("href", "{http://www.w3.org/1999/xlink}href")
_HELD: Final = ("#", "data:")
"""How a link begins that leads to something in the file itself."""


def read_artwork(file: Path, shown: str) -> str | Problem:
    """The drawing as it is written, or what keeps it from being printed; ``shown`` is its name as the maker sees it."""
    written = file.read_bytes()
    try:
        text = written.decode("utf-8")
        root = ElementTree.fromstring(text)  # noqa: S314 -- The maker's own file, on her own computer.
    except UnicodeDecodeError:
        return _unreadable(Place(shown, 1, 1), "the file is not text in UTF-8")
    except ElementTree.ParseError as fault:
        line, column = fault.position
        return _unreadable(Place(shown, line, column + 1), "the drawing breaks off or is damaged here")
    if root.tag != _ROOT:
        return _unreadable(Place(shown, 1, 1), "the file holds no SVG drawing")
    outside = next(_links_outside(root), None)
    if outside is None:
        return text
    return Problem(
        place=Place(shown, 1, 1),
        what=f"the drawing shows '{outside}', which is another file",
        why="a label is printed from one file, and what the drawing leads to would be missing from it",
        write="the picture embedded in the drawing",
    )


def _links_outside(root: ElementTree.Element) -> Iterator[str]:
    """Links of pictures and copies to other files; a link for a reader to follow is none of what is printed."""
    for element in root.iter():
        if not str(element.tag).endswith("}a"):
            links = (element.get(name, "#").strip() for name in _LINKS)
            yield from (link for link in links if not link.startswith(_HELD))


def _unreadable(place: Place, what: str) -> Problem:
    return Problem(
        place=place,
        what=what,
        why="the front of the candle would be printed without it",
        write="the drawing saved anew as plain SVG",
    )
