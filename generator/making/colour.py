"""Colour, where somebody reads in a terminal that shows it."""

import os
import sys
from typing import Final, TextIO

_CODES: Final = {"error": "31", "warning": "33", "done": "32", "strong": "1"}
"""By what is coloured; SGR, the display attributes of ECMA-48, section 8.3.117. (MEMORY)"""


def coloured(kind: str, text: str, stream: TextIO | None = None) -> str:
    """A text as a stream shows it, standard output where none is named; unchanged where it shows no colour."""
    return f"\033[{_CODES[kind]}m{text}\033[0m" if shows_colour(stream or sys.stdout) else text


def shows_colour(stream: TextIO) -> bool:
    """Never in a file or a pipe, nor where it is not wanted (no-color.org), nor on Windows, whose older terminals
    print the codes themselves.
    """
    is_wanted = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return is_wanted and sys.platform != "win32" and stream.isatty()
