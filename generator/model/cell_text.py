"""Texts that are safe as cells of a table."""

import re
from typing import Final

_FORMULA: Final = re.compile(r'(^|[;\t\r\n])(?=[\s"]*[=+\-@])|^(?=[\t\r])')
"""Where a formula may begin: in some countries spreadsheets split lines at semicolons, even inside quotes."""


def harmless(text: str) -> str:
    """A text that is no formula, however a program splits the line: an apostrophe goes where one would begin.

    >>> harmless("x;=1+1")
    "x;'=1+1"
    """
    return _FORMULA.sub(r"\1'", text)
