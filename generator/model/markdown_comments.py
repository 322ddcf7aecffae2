"""Comments in a maker's Markdown: from ``<!--`` to ``-->`` (CommonMark 0.31.2, section 6.6; MEMORY).

Only the Markdown parser knows what is code, where a comment is ordinary text: comments are found here, and
removed or kept there.
"""

import re
from collections.abc import Iterator
from typing import Final, NamedTuple

_END: Final = "-->"
_START: Final = re.compile(r"(?<![\\`])(?P<ticks>`++)(?P<code>.+?)(?<!`)(?P=ticks)(?!`)|<!--(?P<empty>-?>)?")


class Comment(NamedTuple):
    """Where a comment begins and ends in its text; ``is_whole`` is false for a beginning without an end."""

    start: int
    end: int
    is_whole: bool


def comments(text: str) -> Iterator[Comment]:
    """Every comment in order; a beginning between backticks on one line is code and has no end."""
    last_end, at = text.rfind(_END), 0
    while (found := _START.search(text, at)) is not None:
        at = found.end()
        if found["code"]:
            begins = (found.start("code") + each.start() for each in re.finditer("<!--", found["code"]))
            yield from (Comment(start, start + 4, is_whole=False) for start in begins)
        elif found["empty"]:
            yield Comment(found.start(), at, is_whole=True)
        elif is_whole := at <= last_end:
            at = text.index(_END, at) + len(_END)
            yield Comment(found.start(), at, is_whole)
        else:
            yield Comment(found.start(), at, is_whole)


def blanked(text: str) -> str:
    """The text with its comments replaced by spaces; every line stays where it is."""
    parts, at = [], 0
    for comment in comments(text):
        if comment.is_whole:
            parts += [text[at : comment.start], re.sub(r"[^\n]", " ", text[comment.start : comment.end])]
            at = comment.end
    return "".join((*parts, text[at:]))
