"""Pages of the handbook as lines of a terminal, and the lines in which words are found."""

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from generator.handbook.page_text import (
    Block,
    CodeBlock,
    HandbookPage,
    KeyBlock,
    Line,
    ListBlock,
    Paragraph,
    Section,
    TableBlock,
    plain_line,
)

_MARGIN: Final = "    "
ITS_KEYS: Final = "its keys"
_BOLD: Final = "\033[1m{}\033[0m"


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """What is printed on: how many characters are abreast, and whether it shows bold letters."""

    columns: int
    bold: bool

    def heading(self, text: str) -> str:
        """A heading, which is bold where that can be shown."""
        return _BOLD.format(text) if self.bold else text

    def wrapped(self, text: str, first: str = "", rest: str | None = None) -> list[str]:
        """Lines no longer than the screen, unless one word is."""
        rest = first if rest is None else rest
        return textwrap.wrap(
            text,
            self.columns,
            initial_indent=first,
            subsequent_indent=rest,
            break_long_words=False,
            break_on_hyphens=False,
        )


def page_lines(page: HandbookPage, screen: Screen) -> Iterator[str]:
    """A whole page."""
    yield screen.heading(page.title)
    yield ""
    yield from screen.wrapped(page.summary)
    for section in page.sections:
        yield ""
        if section.title:
            yield screen.heading(section.title)
            yield ""
        yield from _section_lines(section, screen)


def key_lines(page: HandbookPage, name: str, screen: Screen) -> Iterator[str]:
    """Every key of this name, each below its section."""
    for section in page.sections:
        for block in section.blocks:
            if isinstance(block, KeyBlock) and block.name == name:
                yield screen.heading(section.title)
                yield ""
                yield from _block_lines(block, screen)
                yield ""


def _section_lines(section: Section, screen: Screen) -> Iterator[str]:
    for at, block in enumerate(section.blocks):
        if at:
            yield ""
        yield from _block_lines(block, screen)


def _block_lines(block: Block, screen: Screen) -> Iterator[str]:
    match block:
        case Paragraph(line=line):
            yield from screen.wrapped(line_text(line))
        case ListBlock(items=items, first=first):
            for at, item in enumerate(items):
                mark = "- " if first is None else f"{first + at}. "
                yield from screen.wrapped(line_text(item), mark, " " * len(mark))
        case CodeBlock(lines=lines):
            yield from (f"{_MARGIN}{line}".rstrip() for line in lines)
        case TableBlock():
            yield from _table_lines(block, screen)
        case KeyBlock():
            yield from _key_lines(block, screen)


def _table_lines(table: TableBlock, screen: Screen) -> Iterator[str]:
    """Columns side by side where they fit; else each row as a short list, its first cell above the others."""
    rows = [[line_text(cell) for cell in row] for row in (table.head, *table.rows)]
    widths = [max(len(row[at]) for row in rows) for at in range(len(table.head))]
    if sum(widths) + 2 * (len(widths) - 1) <= screen.columns:
        rows.insert(1, ["-" * width for width in widths])
        for row in rows:
            yield "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        return
    for row in rows[1:]:
        yield from screen.wrapped(row[0])
        for cell in row[1:]:
            yield from screen.wrapped(cell, _MARGIN)


def _key_lines(key: KeyBlock, screen: Screen) -> Iterator[str]:
    yield f"{screen.heading(key.name)}{f'  ({key.needed})' if key.needed else ''}"
    yield from screen.wrapped(key.means, _MARGIN)
    yield f"{_MARGIN}example:  {key.example}"
    below = ((ITS_KEYS, ", ".join(key.below)),) if key.below else ()
    for label, text in (*told_of_key(key), *below):
        yield from screen.wrapped(text, f"{_MARGIN}{f'{label}:':<10}", " " * 14)


def told_of_key(key: KeyBlock) -> Iterator[tuple[str, str]]:
    """What is told of a key behind its example, each with its label; the manual is English wherever it is read."""
    if key.form:
        yield "form", key.form
    yield "seen by", key.seen_by


def line_text(line: Line) -> str:
    """What a line says, each link with the page it leads to."""
    return "".join(_named(span.text, span.target) if span.kind == "link" else span.text for span in line)


def _named(text: str, target: str) -> str:
    page = target.partition("#")[0].removesuffix(".md")
    return text if page in ("", text) else f"{text} (handbook {page})"


def block_texts(block: Block) -> Iterator[str]:
    """Everything a block says, line by line."""
    match block:
        case Paragraph(line=line):
            yield plain_line(line)
        case ListBlock(items=items):
            yield from map(plain_line, items)
        case CodeBlock(lines=lines):
            yield from lines
        case TableBlock(head=head, rows=rows):
            yield from (" | ".join(map(plain_line, row)) for row in (head, *rows))
        case KeyBlock():
            yield f"{block.name}: {block.means}"
            yield block.example
            yield f"{block.form} {block.seen_by}".strip()
