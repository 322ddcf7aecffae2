"""Which letters the typefaces of papers have, read out of their files: ``python -m tests.writing.freeze_letters``.

It prints the two tables of ``generator/letters.py``. Run it when a typeface is added or a newer one brings more
letters; ``test_letters.py`` says when the tables promise a letter that is not there.
"""

import unicodedata
from collections.abc import Iterable, Iterator
from importlib.resources import files
from itertools import pairwise
from pathlib import Path

from fontTools.ttLib import TTFont

from generator.writing.pdf import TYPEFACES

_WORDS_AND_SIGNS = "LNPS"
_FROM_RIGHT = frozenset({"R", "AL", "AN"})
_PIECES_OF_DRAWINGS = frozenset(
    chr(point)
    for pieces in (range(0x2320, 0x2322), range(0x239B, 0x23B4), range(0x2500, 0x25A0))
    for point in pieces
)
_INSTEAD_OF_ANOTHER = frozenset("\N{OBJECT REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}")


def faces(package: str) -> Iterator[tuple[str, TTFont]]:
    """Every upright face of a typeface by its file's name; a variable one is all its weights."""
    for path in sorted(Path(str(files(package).joinpath("files"))).glob("*.ttf")):
        if "Italic" not in path.name:
            yield path.name, TTFont(path)


def letters_of(package: str) -> frozenset[str]:
    """What every upright face of a typeface has and a paper may print.

    Letters, numbers, punctuation, signs and spaces that are read from the left. A mark without its letter is none,
    nor is what Unicode spells as something else (NFC), what stands for a lost character, a piece of a
    box or a tall bracket (it reaches over the lines above and below), or anything without a shape.
    """
    each = [frozenset(face.getBestCmap()) for _, face in faces(package)]
    return frozenset(filter(_is_a_letter, map(chr, frozenset.intersection(*each))))


def letters_of_the_first() -> frozenset[str]:
    """What papers take from the first typeface: not its four letters of Greek, so that no word is of two typefaces."""
    return frozenset(each for each in letters_of(TYPEFACES[0]) if "GREEK" not in unicodedata.name(each))


def letters_of_all() -> frozenset[str]:
    """What the typefaces have together."""
    return frozenset[str]().union(*map(letters_of, TYPEFACES))


def ranges(letters: Iterable[str]) -> str:
    """Letters as ``generator/letters.py`` holds them: code points in hexadecimal, ``20-7E A1``."""
    points = sorted(map(ord, letters))
    ends = [first for first, second in pairwise(points) if second != first + 1] + points[-1:]
    starts = points[:1] + [second for first, second in pairwise(points) if second != first + 1]
    spans = zip(starts, ends, strict=True)
    return " ".join(f"{start:X}" if start == end else f"{start:X}-{end:X}" for start, end in spans)


def _is_a_letter(character: str) -> bool:
    category = unicodedata.category(character)
    return (
        (category[0] in _WORDS_AND_SIGNS or category == "Zs")
        and unicodedata.bidirectional(character) not in _FROM_RIGHT
        and unicodedata.is_normalized("NFC", character)
        and character not in _PIECES_OF_DRAWINGS | _INSTEAD_OF_ANOTHER
    )


if __name__ == "__main__":
    print("the first:", ranges(letters_of_the_first()))
    print("all:", ranges(letters_of_all()))
