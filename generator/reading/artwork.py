"""The maker's own drawing behind a product label: complete, in one file, and no more than a press can handle."""

import re
from base64 import b64decode
from binascii import Error as NotBase64
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final
from xml.etree import ElementTree

from generator.files import DRAWING_FILE, NotRead, read_file
from generator.problems import Place, Problem

MOST_DRAWN: Final = 100_000
_DEEPEST: Final = 100
"""Shapes as drawn, counting every copy, and nested groups (CHOICE): a press takes a second and 200 MB
for the first (measured), and refuses some hundreds of the second."""

_SVG: Final = "{http://www.w3.org/2000/svg}"
_LINKS: Final = ("href", "{http://www.w3.org/1999/xlink}href")
_BASE: Final = "{http://www.w3.org/XML/1998/namespace}base"
_PICTURE: Final = re.compile(r"data:image/(?:png|jpe?g|gif|webp);base64,(.*)", re.DOTALL | re.IGNORECASE)
_NUMBER: Final = re.compile(r"[0-9.]+")
_UNPRINTED: Final[Mapping[str, str]] = {
    f"{_SVG}foreignObject": "text of a kind that no press can print (foreignObject)",
    f"{_SVG}filter": "a filter, such as a blur or a shadow, which a press cannot print sharply",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Artwork:
    """A drawing as written, and its embedded pictures, which must be checked before printing."""

    svg: str
    pictures: tuple[bytes, ...]


class _Unprintable(Exception):
    """What keeps a drawing from being printed, and what to write instead."""

    def __init__(self, what: str, fix: str = "save the drawing again as plain SVG") -> None:
        super().__init__(what)
        self.what, self.fix = what, fix


def read_artwork(file: Path, shown: str) -> Artwork | Problem:
    """The drawing, or what prevents printing it; ``shown`` is its name as the maker sees it."""
    start = Place(shown, 1, 1)
    try:
        text = read_file(file, DRAWING_FILE).decode("utf-8")
        root = ElementTree.fromstring(text)  # noqa: S314 -- The maker's own file, on her own computer.
        _Measured(root).check()
        return Artwork(svg=text, pictures=tuple(_pictures(root)))
    except NotRead as fault:
        return Problem(place=start, what=fault.what, why=fault.why, fix=fault.fix)
    except UnicodeDecodeError:
        return _unreadable(start, "the file is not UTF-8 text")
    except ElementTree.ParseError as fault:
        line, column = fault.position
        return _unreadable(Place(shown, line, column + 1), "the drawing is cut off or damaged here")
    except _Unprintable as fault:
        return _unreadable(start, fault.what, fault.fix)


@dataclass(slots=True)
class _Measured:
    """A drawing's number of shapes and its depth, with every copy counted."""

    root: ElementTree.Element
    by_id: dict[str, ElementTree.Element] = field(init=False)
    known: dict[ElementTree.Element, tuple[int, int]] = field(default_factory=dict)

    def check(self) -> None:
        """Raise where it is no drawing, or more than can be printed."""
        if self.root.tag != f"{_SVG}svg":
            raise _Unprintable("the file is not an SVG drawing")
        for number, element in enumerate(self.root.iter()):
            self._bounded(number, 0)
            if element.tag in _UNPRINTED:
                raise _Unprintable(f"the drawing contains {_UNPRINTED[str(element.tag)]}")
        self.by_id = {element.get("id", ""): element for element in self.root.iter()}
        self._measure(self.root, 0)
        markers = max((self.known[each][0] for each in self.root.iter(f"{_SVG}marker")), default=0)
        self._bounded(markers * self._corners() if markers else 0, 0)

    def _measure(self, element: ElementTree.Element, around: int) -> tuple[int, int]:
        self._bounded(0, around)
        if element not in self.known:
            below = list(element)
            if element.tag == f"{_SVG}use":
                below += [self.by_id[link[1:]] for link in _links(element) if link[1:] in self.by_id]
            sizes = [self._measure(each, around + 1) for each in below]
            shapes = 1 + sum(shapes for shapes, _ in sizes)
            self.known[element] = shapes, 1 + max((deep for _, deep in sizes), default=0)
            self._bounded(*self.known[element])
        return self.known[element]

    def _corners(self) -> int:
        """An upper bound on the corners at which markers may be drawn."""
        lines = (element.get("d", "") + element.get("points", "") for element in self.root.iter())
        return sum(len(_NUMBER.findall(line)) // 2 for line in lines)

    @staticmethod
    def _bounded(shapes: int, deep: int) -> None:
        if shapes > MOST_DRAWN:
            raise _Unprintable(
                f"the drawing has more than {MOST_DRAWN} shapes, counting copies",
                "simplify the drawing, or embed it as a picture",
            )
        if deep > _DEEPEST:
            raise _Unprintable(f"more than {_DEEPEST} groups or copies are nested inside each other")


def _pictures(root: ElementTree.Element) -> Iterator[bytes]:
    """Every embedded picture; a link to follow is not printed, and any other reference is refused."""
    for element in root.iter():
        if _BASE in element.attrib:
            raise _outside(element.attrib[_BASE])
        links = () if str(element.tag).endswith("}a") else _links(element)
        for link in links:
            picture = _PICTURE.fullmatch(link)
            if element.tag == f"{_SVG}image" and picture is not None:
                try:
                    yield b64decode(picture[1])
                except NotBase64:
                    raise _Unprintable("a picture in the drawing is damaged") from None
            elif element.tag == f"{_SVG}image" or not link.startswith("#"):
                raise _outside(link)


def _links(element: ElementTree.Element) -> tuple[str, ...]:
    return tuple(element.attrib[name].strip() for name in _LINKS if name in element.attrib)


def _outside(link: str) -> _Unprintable:
    if link.startswith("data:"):
        return _Unprintable(f"the drawing embeds '{link[:30]}...', which is not a PNG, JPEG, GIF or WebP")
    return _Unprintable(
        f"the drawing shows '{link}', which is a separate file", "embed the picture in the drawing"
    )


def _unreadable(place: Place, what: str, fix: str = "save the drawing again as plain SVG") -> Problem:
    return Problem(
        place=place,
        what=what,
        why="the front label would be printed without it",
        fix=fix,
    )
