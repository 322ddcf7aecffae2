"""A page of the handbook as a value, and how it is read from its Markdown.

A page is ``# Title``, one sentence that sums it up, and sections that begin with ``##``. A section holds paragraphs,
lists, tables with pipes, and code, fenced or indented by four spaces; in a line stand ``code``, **bold** and links.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

SpanKind = Literal["text", "code", "bold", "link"]

_INLINE: Final = re.compile(
    r"\*\*(?P<bold>.+?)\*\*|`(?P<code>[^`]+)`|\[(?P<link>[^\]]+)\]\((?P<target>[^)]+)\)"
)
_ITEM: Final = re.compile(r"(?:-|(?P<number>[0-9]+)\.) +(?P<text>.*)")
_FENCE: Final = "```"
_INDENT: Final = "    "


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A part of a line; ``target`` is where a link leads, such as ``labels.md#print``."""

    kind: SpanKind
    text: str
    target: str = ""


Line = tuple[Span, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """One paragraph."""

    line: Line


@dataclass(frozen=True, slots=True, kw_only=True)
class ListBlock:
    """A list; ``first`` is its first number, None where it has no numbers."""

    items: tuple[Line, ...]
    first: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TableBlock:
    """A table; each row has as many cells as its head."""

    head: tuple[Line, ...]
    rows: tuple[tuple[Line, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeBlock:
    """Lines as they are typed; ``language`` is ``sh``, ``yaml``, ``text`` or, where they were indented, nothing."""

    lines: tuple[str, ...]
    language: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyBlock:
    """A key of an entry; ``below`` names the sections that hold the keys inside its value."""

    name: str
    means: str
    form: str
    example: str
    needed: str
    seen_by: str
    below: tuple[str, ...] = ()


Block = Paragraph | ListBlock | TableBlock | CodeBlock | KeyBlock


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """What stands below one heading; the beginning of a page has an empty ``title``."""

    title: str
    blocks: tuple[Block, ...]

    @property
    def anchor(self) -> str:
        """The fragment of its address."""
        return re.sub(r"[^a-z0-9]+", "-", self.title.lower()).strip("-")


@dataclass(frozen=True, slots=True, kw_only=True)
class HandbookPage:
    """One page; ``summary`` is its first sentence."""

    name: str
    title: str
    summary: str
    sections: tuple[Section, ...]


def page_from(name: str, text: str) -> HandbookPage:
    """A page from its Markdown."""
    head, *parts = re.split(r"^## +", text, flags=re.MULTILINE)
    title, _, rest = head.partition("\n")
    summary, _, opening = rest.strip().partition("\n\n")
    sections = [Section(title="", blocks=_blocks(opening))]
    for part in parts:
        heading, _, below = part.partition("\n")
        sections.append(Section(title=heading.strip(), blocks=_blocks(below)))
    return HandbookPage(
        name=name,
        title=title.removeprefix("# ").strip(),
        summary=" ".join(summary.split()),
        sections=tuple(section for section in sections if section.blocks),
    )


def spans(text: str) -> Line:
    """The parts of a line of Markdown."""
    return tuple(_spans(text))


def plain_line(line: Line) -> str:
    """What a line says."""
    return "".join(span.text for span in line)


def _spans(text: str) -> Iterator[Span]:
    at = 0
    for found in _INLINE.finditer(text):
        if found.start() > at:
            yield Span(kind="text", text=text[at : found.start()])
        at = found.end()
        if found["bold"]:
            yield Span(kind="bold", text=found["bold"].replace("`", ""))
        elif found["code"]:
            yield Span(kind="code", text=found["code"])
        else:
            yield Span(kind="link", text=found["link"].replace("`", ""), target=found["target"])
    if at < len(text):
        yield Span(kind="text", text=text[at:])


def _blocks(text: str) -> tuple[Block, ...]:
    lines = text.split("\n")
    blocks: list[Block] = []
    while lines:
        if not lines[0].strip():
            del lines[0]
            continue
        block, taken = _first_block(lines)
        blocks.append(block)
        del lines[:taken]
    return tuple(blocks)


def _first_block(lines: Sequence[str]) -> tuple[Block, int]:
    """The block that the first line begins, and how many lines it takes."""
    first = lines[0]
    if first.startswith(_FENCE):
        end = lines.index(_FENCE, 1)
        return CodeBlock(lines=tuple(lines[1:end]), language=first.removeprefix(_FENCE)), end + 1
    taken = next((at for at, line in enumerate(lines) if not line.strip()), len(lines))
    taken = next((at for at, line in enumerate(lines[:taken]) if at and line.startswith(_FENCE)), taken)
    own = lines[:taken]
    if first.startswith(_INDENT):
        return CodeBlock(lines=tuple(line.removeprefix(_INDENT) for line in own)), taken
    if first.startswith("|"):
        return _table(own), taken
    if _ITEM.match(first):
        return _list(own), taken
    return Paragraph(line=spans(" ".join(line.strip() for line in own))), taken


def _table(lines: Sequence[str]) -> TableBlock:
    head, _rule, *rows = (
        tuple(spans(cell.strip()) for cell in line.strip().strip("|").split("|")) for line in lines
    )
    return TableBlock(head=head, rows=tuple(rows))


def _list(lines: Sequence[str]) -> ListBlock:
    items: list[str] = []
    first = _ITEM.match(lines[0])
    for line in lines:
        begun = _ITEM.match(line)
        if begun:
            items.append(begun["text"])
        else:
            items[-1] += f" {line.strip()}"
    number = first["number"] if first else None
    return ListBlock(items=tuple(map(spans, items)), first=int(number) if number else None)
