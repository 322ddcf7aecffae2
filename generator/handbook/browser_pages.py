"""Pages of the handbook as documents for a browser, and the index that its search box reads."""

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from generator.document import Document, PlainText, Value
from generator.handbook.in_terminal import ITS_KEYS, block_texts, told_of_key
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
)

HANDBOOK_FOLDER: Final = "workshop/handbook"
_INDEX: Final = f"{HANDBOOK_FOLDER}/sections.js"


def browser_pages(
    pages: Sequence[HandbookPage], words: Mapping[str, str], language: str
) -> Iterator[Document | PlainText]:
    """Each page with the list of all and its neighbours, and the index; ``words`` are those of the frame."""
    contents = tuple({"title": page.title, "address": _address(page.name)} for page in pages)
    for at, page in enumerate(pages):
        value: dict[str, Value] = {
            "words": words,
            "language": language,
            "title": page.title,
            "summary": page.summary,
            "sections": tuple(map(_section, page.sections)),
            "contents": contents,
            "here": at,
            "before": contents[at - 1] if at else None,
            "after": contents[at + 1] if at + 1 < len(contents) else None,
        }
        yield Document(
            path=f"{HANDBOOK_FOLDER}/{page.name}.html", template="pages/handbook.html", value=value
        )
    yield PlainText(path=_INDEX, text=_index(pages))


def _address(page: str, anchor: str = "") -> str:
    """A page's address from any other, which stands in the same folder."""
    return f"{page}.html#{anchor}" if anchor else f"{page}.html"


def _index(pages: Sequence[HandbookPage]) -> str:
    """A script of one list, because a page that is opened from disk may read no other file."""
    entries = [
        {
            "page": page.title,
            "title": section.title,
            "address": _address(page.name, section.anchor),
            "text": "\n".join((page.summary, *_texts(section)) if not section.title else _texts(section)),
        }
        for page in pages
        for section in page.sections
    ]
    return f"const SECTIONS = {json.dumps(entries, ensure_ascii=False, indent=0)};\n"


def _texts(section: Section) -> tuple[str, ...]:
    return tuple(text for block in section.blocks for text in block_texts(block))


def _section(section: Section) -> Mapping[str, Value]:
    return {
        "title": section.title,
        "anchor": section.anchor,
        "blocks": tuple(map(_block, section.blocks)),
    }


def _block(block: Block) -> Mapping[str, Value]:
    match block:
        case Paragraph(line=line):
            return {"kind": "paragraph", "line": _line(line)}
        case ListBlock(items=items, first=first):
            return {"kind": "list", "items": tuple(map(_line, items)), "first": first}
        case CodeBlock(lines=lines):
            return {"kind": "code", "text": "\n".join(lines)}
        case TableBlock(head=head, rows=rows):
            cells = tuple(tuple(map(_line, row)) for row in rows)
            return {"kind": "table", "head": tuple(map(_line, head)), "rows": cells}
        case KeyBlock():
            return _key(block)


def _key(key: KeyBlock) -> Mapping[str, Value]:
    below = tuple(
        {"title": title, "address": f"#{Section(title=title, blocks=()).anchor}"} for title in key.below
    )
    return {
        "kind": "key",
        "name": key.name,
        "means": key.means,
        "example": key.example,
        "needed": key.needed,
        "told": tuple({"label": label, "text": text} for label, text in told_of_key(key)),
        "its_keys": ITS_KEYS,
        "below": below,
    }


def _line(line: Line) -> tuple[Mapping[str, Value], ...]:
    return tuple({"kind": span.kind, "text": span.text, "address": _link(span.target)} for span in line)


def _link(target: str) -> str:
    page, mark, anchor = target.partition("#")
    return f"{page.removesuffix('.md')}.html{mark}{anchor}" if page.endswith(".md") else target
