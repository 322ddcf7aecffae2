"""Drawings made for pages, prepared for paper: with the colours that a page's styles would give them.

The styles become attributes, because a typesetter takes far longer over a picture with a style sheet.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final
from xml.etree import ElementTree

from generator.problems import Place, Problem, Stopped

_STYLES: Final = "papers/parts/drawings.css"
_SIGNS: Final = "parts/pictograms"
_NAMESPACE: Final = "http://www.w3.org/2000/svg"
_COMMENT: Final = re.compile(r"/\*.*?\*/", re.DOTALL)
_RULE: Final = re.compile(r"([^{}]+)\{([^{}]*)\}")
_VARIABLE: Final = "--"
_INK: Final = "color"

_BLACK: Final = "#000"


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperStyles:
    """The styles of a theme's drawings on paper.

    ``rules`` are classes, an outer one before an inner one, and what they give; those of more classes come later.
    ``variables`` and ``ink``, for ``currentColor``, are what the rule of ``svg`` says.
    """

    rules: tuple[tuple[tuple[str, ...], tuple[tuple[str, str], ...]], ...] = ()
    variables: tuple[tuple[str, str], ...] = ()
    ink: str = _BLACK

    def coloured(self, drawing: str) -> str:
        """One of the program's drawings, which names some of its colours."""
        for name, colour in (*self.variables, ("currentColor", self.ink)):
            drawing = drawing.replace(name, colour)
        return drawing if "xmlns=" in drawing else drawing.replace("<svg", f'<svg xmlns="{_NAMESPACE}"', 1)

    def dressed(self, sign: str) -> str:
        """A sign, each of its parts with what the rules give to its classes."""
        ElementTree.register_namespace("", _NAMESPACE)
        try:
            root = ElementTree.fromstring(self.coloured(sign))  # noqa: S314  # a file of the theme
            self._dress(root, frozenset())
            return ElementTree.tostring(root, encoding="unicode")
        except (ElementTree.ParseError, RecursionError) as fault:
            raise _not_a_drawing(_STYLES, "with these styles the drawing is no longer SVG") from fault

    def _dress(self, part: ElementTree.Element, around: frozenset[str]) -> None:
        own = frozenset(part.get("class", "").split())
        for (*outer, inner), given in self.rules:
            if inner in own and around.issuperset(outer):
                part.attrib.update(given)
        for below in part:
            self._dress(below, around | own)


def paper_styles(folder: Path) -> PaperStyles:
    """The styles of a folder of templates; none if it has no such file."""
    path = folder / _STYLES
    rules = tuple(_rules(_text(path, _STYLES))) if path.is_file() else ()
    of_all = [one for selector, given in rules if selector == "svg" for one in given]
    classes = [
        (tuple(name.removeprefix(".") for name in selector.split()), given)
        for selector, given in rules
        if selector.startswith(".")
    ]
    return PaperStyles(
        rules=tuple(sorted(classes, key=lambda rule: len(rule[0]))),
        variables=tuple((f"var({name})", value) for name, value in of_all if name.startswith(_VARIABLE)),
        ink=dict(of_all).get(_INK, _BLACK),
    )


def dress_signs(folder: Path, styles: PaperStyles) -> None:
    """Prepares the signs of a folder for paper, once for all papers."""
    for path in (folder / _SIGNS).glob("*.svg"):
        name = f"{_SIGNS}/{path.name}"
        sign = _text(path, name)
        try:
            ElementTree.fromstring(sign)  # noqa: S314  # a file of the theme
        except ElementTree.ParseError as fault:
            raise _not_a_drawing(name, "the sign is not a complete SVG drawing") from fault
        path.write_text(styles.dressed(sign), encoding="utf-8")


def _text(path: Path, name: str) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError as fault:
        raise _not_a_drawing(name, "the file is not UTF-8 text") from fault


def _not_a_drawing(name: str, what: str) -> Stopped:
    return Stopped(
        Problem(
            place=Place(name, 1, 1),
            what=what,
            why="this theme could not print any papers",
            fix="use netloft's file, or save the drawing again as plain SVG",
        )
    )


def _rules(text: str) -> Iterator[tuple[str, tuple[tuple[str, str], ...]]]:
    """Each selector with its declarations, in the order written."""
    for selectors, body in _RULE.findall(_COMMENT.sub("", text)):
        pairs = (line.partition(":") for line in body.split(";") if line.strip())
        given = tuple((name.strip(), value.strip()) for name, _, value in pairs)
        yield from ((selector.strip(), given) for selector in selectors.split(","))
