"""Sections of the handbook that hold every one of some words."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from generator.handbook.in_terminal import block_texts
from generator.handbook.page_text import HandbookPage

_SENTENCE: Final = re.compile(r"(?<=[.?!]) +")


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSection:
    """A section and its sentence that holds the most of the words."""

    page: str
    section: str
    line: str


def found_in(pages: Iterable[HandbookPage], wanted: str) -> Iterator[FoundSection]:
    """The sections in reading order; case does not count, and a word may be a part of another."""
    words = wanted.casefold().split()
    for page in pages:
        for section in page.sections:
            lines = [line for block in section.blocks for line in block_texts(block)]
            heading = section.title or page.title
            opening = () if section.title else (page.summary,)
            everything = "\n".join((heading, *opening, *lines)).casefold()
            if words and all(word in everything for word in words):
                sentences = [
                    one for line in (*opening, *lines) for one in _SENTENCE.split(line) if one.strip()
                ]
                best = max(sentences, key=lambda line: sum(word in line.casefold() for word in words))
                yield FoundSection(page=page.name, section=heading, line=best.strip())
