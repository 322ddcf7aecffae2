"""Comments in a maker's text are set aside before it is parsed; in code they return, elsewhere they are dropped."""

import re
from collections.abc import Sequence
from html import escape
from typing import Final, NamedTuple
from xml.etree.ElementTree import Element

from generator.model.accepted import check_of
from generator.model.markdown_comments import comments
from generator.problems import Fault, Path, Severity

_MARK: Final = re.compile("\x02comment:([0-9]+)\x03")
"""The placeholder of a comment: its number, between two characters that the parser removes from any text."""

_REST_OF_LINE: Final = re.compile(r"[ \t]*(?:\n|\Z)")
_INDENTED_CODE: Final = 4
_LONGEST_SHOWN: Final = 30


class Aside(NamedTuple):
    """One comment: its line, its text, and whether it has an end."""

    line: int
    text: str
    is_whole: bool


def comments_set_aside(text: str) -> tuple[str, tuple[Aside, ...]]:
    """The text with placeholders for its comments, and the comments in the order of their numbers.

    A comment that fills its lines ends the paragraph before it, as in CommonMark.
    """
    parts: list[str] = []
    asides: list[Aside] = []
    at, seen, line, begins = 0, 0, 1, 0
    for start, end, is_whole in comments(text):
        line, begins = line + text.count("\n", seen, start), max(begins, text.rfind("\n", seen, start) + 1)
        leads = start - begins < _INDENTED_CODE and not text[begins:start].strip()
        apart = "\n" if is_whole and leads and _REST_OF_LINE.match(text, end) else ""
        parts += [text[at:start], f"{apart}\x02comment:{len(asides)}\x03{apart}"]
        asides.append(Aside(line, text[start:end], is_whole))
        at, seen = end, start
    return "".join((*parts, text[at:])), tuple(asides)


def settle(root: Element, asides: Sequence[Aside]) -> tuple[Aside, ...]:
    """Put back the comments in code, remove all other placeholders, and return the comments removed."""
    back: set[int] = set()

    def as_code(mark: re.Match[str]) -> str:
        back.add(int(mark[1]))
        return escape(re.sub(r"\n {4}", "\n", asides[int(mark[1])].text), quote=False)

    for element in root.iter():
        for name, value in element.items():
            element.set(name, _MARK.sub("", value))
        element.text = _MARK.sub(as_code if element.tag == "code" else "", element.text or "")
        element.tail = _MARK.sub("", element.tail or "")
    for parent in tuple(root.iter()):
        for child in tuple(parent):
            if child.tag == "p" and not len(child) and not (child.text or "").strip():
                parent.remove(child)
    return tuple(aside for number, aside in enumerate(asides) if number not in back)


def comment_fault(path: Path, aside: Aside) -> Fault:
    """A warning that a comment is not published; an error where its end is missing."""
    if not aside.is_whole:
        return Fault(
            path=(*path, aside.line),
            what="a comment begins here with <!-- and has no end",
            why="what should be hidden would be printed, or what should be read left out",
            fix="write --> where it ends; to print the sign itself, put it between backticks: `<!--`",
        )
    words = " ".join(aside.text.split())
    shown = words if len(words) <= _LONGEST_SHOWN else f"{words[:_LONGEST_SHOWN]}..."
    return Fault(
        path=(*path, aside.line),
        what=f"the comment {shown} is not published",
        why=(
            "comments are left out of pages, but one mistyped sign would print them, "
            "so they are no place for secrets"
        ),
        fix="move anything private to notes: of an entry, and delete the rest",
        severity=Severity.WARNING,
        check=check_of("comment", shown),
    )
