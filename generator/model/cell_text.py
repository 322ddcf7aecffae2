"""Texts as the cells of a table may hold them."""

import re
from typing import Final

_FORMULA: Final = re.compile(r'(^|[;\t\r\n])(?=[\s"]*[=+\-@])|^(?=[\t\r])')
"""Where a formula may begin: spreadsheets part lines at semicolons in some countries, whatever is quoted."""


def harmless(text: str) -> str:
    """A text that is no formula, however a program parts the line: an apostrophe stands where one would begin.

    >>> harmless("x;=1+1")
    "x;'=1+1"
    """
    return _FORMULA.sub(r"\1'", text)
