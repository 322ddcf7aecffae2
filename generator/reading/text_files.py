"""Files as text: UTF-8, with or without a byte order mark, any line ends, nothing unprintable."""

import codecs
import re
from bisect import bisect_right
from collections.abc import Callable
from typing import Final

from generator.problems import Place, Problem

LINE_END: Final = re.compile(r"\r\n|\n|\r")

UNPRINTABLE: Final = re.compile(
    "[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)


LONGEST_TEXT: Final = 10_000
"""The most characters of one value: three pages of print. (CHOICE)"""


def too_long(length: int, place: Place) -> Problem:
    """The fault of a value that is too long."""
    return Problem(
        place=place,
        what=f"this text has {length} characters; {LONGEST_TEXT} are allowed",
        why="no page or paper has room for it",
        fix="shorten the text; put a long one on its own page, in pages/",
    )


def text_of(source: bytes, file: str) -> str | Problem:
    """The text of a file, or why it is not text."""
    source = source.removeprefix(codecs.BOM_UTF8)
    try:
        text = source.decode()
    except UnicodeDecodeError as error:
        before = source[: error.start].decode()
        return Problem(
            place=placing(before, file)(len(before)),
            what=f"the file is not UTF-8 text from here on (byte 0x{source[error.start]:02X})",
            why="its letters would be printed as other letters",
            fix="save the file as UTF-8",
        )
    odd = UNPRINTABLE.search(text)
    return text if odd is None else unprintable_problem(odd[0], placing(text, file)(odd.start()))


def unprintable_problem(character: str, place: Place) -> Problem:
    """The fault of a character that no font has."""
    return Problem(
        place=place,
        what=f"there is a character here that cannot be printed (U+{ord(character):04X})",
        why="papers and pages would show a gap or a box",
        fix="delete the character",
    )


def placing(text: str, file: str) -> Callable[[int], Place]:
    """How positions in a text become lines and columns."""
    starts = [0, *(end.end() for end in LINE_END.finditer(text))]

    def place(index: int) -> Place:
        line = bisect_right(starts, index)
        return Place(file, line, index - starts[line - 1] + 1)

    return place
