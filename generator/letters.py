"""Which letters papers can print: those of the papers' typefaces, frozen, so that every machine agrees.

``python -m tests.writing.freeze_letters`` reads the tables from the typefaces, and a test compares them with
the files and with what is printed. The typesetter cannot be asked: it silently leaves out some letters.
"""

import re
import unicodedata
from collections.abc import Iterable
from typing import Final

_MOST_TOLD: Final = 3

_FIRST: Final = (
    "20-7E A0-AC AE-107 10A-113 116-11B 11E-123 126-127 12A-12B 12E-12F 131 136-137 13B-13E 141-148 "
    "150-155 158-15B 15E-165 16A-16B 16E-173 178-17E 192 218-21B 2C6-2C7 2D8-2DD 2013-2014 2018-201A "
    "201C-201E 2020-2022 2026 2030 2039-203A 2044 2074 20AC 2113 2122 212E 2202 220F 2211-2212 2215 "
    "2219-221A 221E 222B 2248 2260 2264-2265 25CA"
)
"""The code points that papers take from the first typeface, in hexadecimal: all its own except Greek."""

_ALL: Final = (
    "20-7E A0-AC AE-2FF 370-373 375-377 37A-37D 37F 384-386 388-38A 38C 38E-3A1 3A3-482 48A-52F E3F 1405 "
    "140A 1C80-1C88 1D00-1DBF 1E00-1F15 1F18-1F1D 1F20-1F45 1F48-1F4D 1F50-1F57 1F59 1F5B 1F5D 1F5F-1F70 "
    "1F72 1F74 1F76 1F78 1F7A 1F7C 1F80-1FB4 1FB6-1FBA 1FBC-1FBD 1FBF-1FC4 1FC6-1FC8 1FCA 1FCC-1FD2 "
    "1FD6-1FDA 1FDD-1FE2 1FE4-1FEA 1FEC-1FED 1FF2-1FF4 1FF6-1FF8 1FFA 1FFC 1FFE 2002-200A 2010-2027 "
    "202F-205F 2070-2071 2074-208E 2090-209C 20A0-20BF 2100-2125 2127-2129 212C-217F 2183-2186 2189-218B "
    "2190-2199 21A8-21AA 21B0-21B5 21BA-21BB 21D0 21D2 21D4 21DE-21DF 21E4-21EA 2200 2202-220D 220F "
    "2211-2212 2215 2219-221A 221E-221F 2227-222B 2234-2236 2248 2260-2262 2264-2265 2282-228B 2295-2298 "
    "22A2-22AF 2300 2302-2306 2310 2318 2324-2328 232B 2380 2387-2388 238B 23CE-23CF 2400-2426 2460-2468 "
    "24B6-24CF 24EA 25A0-25AF 25B2-25B3 25B6-25B7 25BA-25BD 25C0-25C1 25C4-25C7 25C9-25CC 25CE-25D3 "
    "25D5-25EB 25EF-25F7 2600 2605-2606 2610-2612 2620 2630-2637 2639-263C 2640 2642 2660-2661 2663 "
    "2665-2666 266A-266B 266F 26A0 2713 2717 2756 2764 2770-2771 2780-2788 27A1 27E8-27E9 27EF-27FF 2913 "
    "2A38 2B05-2B07 2B12-2B13 2B1C 2B24 2C60-2C7F 2E00-2E42 300C-300D A640-A66E A673 A67E-A69D A717-A7AE "
    "A7B0-A7B7 A7F7-A7FF A92E AB30-AB65 FB01-FB04 FB29 FF62-FF63 1D539 1F12F-1F149 1F16A-1F16B 1F310 "
    "1F850 1F852"
)
"""The code points of all typefaces together."""


def _members(table: str, point: str) -> str:
    """The inside of a regular expression's brackets; ``point`` writes a code point in its language."""
    spans = (span.split("-") for span in table.split())
    return "".join("-".join(point.format(int(end, 16)) for end in span) for span in spans)


OF_THE_FIRST: Final = "[" + _members(_FIRST, r"\u{{{:x}}}") + "]"
"""A regular expression for the typesetter: the letters that it takes from the first typeface.

Otherwise it would compose letters that this typeface lacks, and print the mark without its letter.
"""

_UNPRINTABLE: Final = re.compile(r"[^\n\t" + _members(_ALL, r"\U{:08x}") + "]")


def unprintable(text: str) -> tuple[str, ...]:
    """Every character that no paper can print, each once, in the order of the text.

    A letter with a mark counts as one where Unicode composes the two (NFC); any other mark is listed.
    """
    return tuple(dict.fromkeys(_UNPRINTABLE.findall(unicodedata.normalize("NFC", text))))


def _named(character: str) -> str:
    """A character by its code point and its name in Unicode.

    >>> _named("\N{CLOUD WITH RAIN}")
    'U+1F327 cloud with rain'
    """
    return f"U+{ord(character):04X} {unicodedata.name(character, 'without a name').lower()}"


def shown_and_named(characters: Iterable[str]) -> str:
    """Characters for a message: each with its name, and as it is where it has a visible shape; a few of many.

    >>> shown_and_named("\N{SNOWMAN}")
    "'☃' (U+2603 snowman)"
    """
    each = [
        f"'{one}' ({_named(one)})"
        if one.isprintable() and unicodedata.category(one)[0] != "M"
        else _named(one)
        for one in characters
    ]
    more = len(each) - _MOST_TOLD
    return " and ".join(each if more < 1 else [*each[:_MOST_TOLD], f"{more} more"])


def spelled(text: str) -> str:
    """A text as papers print it: a missing letter is replaced by its name.

    >>> spelled("Wet Garden \N{CLOUD WITH RAIN}")
    'Wet Garden [U+1F327 cloud with rain]'
    """
    composed = unicodedata.normalize("NFC", text).replace("\t", " ")
    return _UNPRINTABLE.sub(lambda found: f"[{_named(found[0])}]", composed)
