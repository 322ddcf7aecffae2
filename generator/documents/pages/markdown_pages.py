"""The pages a maker writes in Markdown, and the page for an unknown address; the home of ``markdown``."""

import re
from dataclasses import dataclass
from functools import cache
from html import unescape
from typing import Final
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.blockparser import BlockParser
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AMP_SUBSTITUTE

from generator.document import Document
from generator.documents.frame import NOT_FOUND, page_path
from generator.documents.house import HOME_PAGE, House
from generator.documents.link_previews import preview_of_house, site_page
from generator.documents.text_comments import Aside, comment_fault, comments_set_aside, settle
from generator.model.shop import Page
from generator.problems import Fault, Path

_SCHEMES: Final = frozenset({"http", "https", "mailto", "tel"})
_MAY_LEAD: Final = re.compile(r"[\[<]")
"""Every picture and link contains one of these."""

MOST_BRACKETS: Final = 2_000
LONGEST_PARAGRAPH: Final = 10_000
_DEEPEST: Final = 20
"""Brackets of a text, characters without an empty line, and nested lists or quotes (CHOICE): the library's time
grows with the square of the first two, and it recurses for each of the third."""

_TOP_HEADING: Final = 2
_LAST_HEADING: Final = 6


def from_markdown(text: str, *, to_root: str = "") -> str:
    """A maker's text as HTML: HTML markup is shown as typed, comments are left out, headings begin below the page's.

    ``to_root`` leads from the page to the site's root, to which local links are relative.
    """
    return _converted(text, to_root).html


def text_without_markup(text: str) -> str:
    """A maker's text without any markup, in one line."""
    apart = re.sub(r"(</(?:p|h\d|li|td|th)>)", r" \1", from_markdown(text))
    return " ".join(unescape(re.sub(r"<[^>]*>", "", apart)).split())


def text_faults(path: Path, text: str) -> tuple[Fault, ...]:
    """Pictures and broken links, which a maker's text may not contain, and its comments."""
    try:
        converted = _converted(text, "")
    except _Unwieldy as fault:
        return (_unwieldy_fault(path, str(fault)),)
    comments = tuple(comment_fault(path, aside) for aside in converted.comments)
    pictures = tuple(_picture_fault(path, address) for address in converted.pictures)
    return comments + pictures + tuple(_link_fault(path, address) for address in converted.refused_links)


def local_links(text: str) -> tuple[str, ...]:
    """The addresses in a maker's text that lead to other pages of the site, from its root."""
    return _converted(text, "").local_links


def written_page(house: House, page: Page) -> Document:
    """One of the maker's own pages."""
    description = house.words["pages"]["description"].format(title=page.title, house=house.maker.name)
    value = {"title": page.title, "description": description, "body": from_markdown(page.markdown)}
    return site_page(house, page_path(page.id), "pages/page.html", value)


def not_found(house: House) -> Document:
    """The page a web host shows for an unknown address, at any depth: it needs no other file."""
    words = house.words["pages"]
    return Document(
        path=f"site/{NOT_FOUND}",
        template="pages/404.html",
        value={
            "title": words["not_found_title"],
            "house": house.maker.name,
            "text": words["not_found"],
            "why": words["not_found_why"],
            "preview": preview_of_house(house, HOME_PAGE, words["not_found_title"], words["not_found"]),
            "home": {"words": words["not_found_home"], "address": f"{(house.maker.web or '').rstrip('/')}/"},
        },
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Converted:
    html: str
    pictures: tuple[str, ...]
    refused_links: tuple[str, ...]
    local_links: tuple[str, ...]
    comments: tuple[Aside, ...]


def _converted(text: str, to_root: str) -> _Converted:
    """A text without a link is the same on every page."""
    return _convert(text, to_root if _MAY_LEAD.search(text) else "")


@cache
def _convert(text: str, to_root: str) -> _Converted:
    """Remembered, because one description is on several papers."""
    if text.count("[") > MOST_BRACKETS:
        raise _Unwieldy(f"more than {MOST_BRACKETS} brackets [")
    if max(map(len, text.split("\n\n"))) > LONGEST_PARAGRAPH:
        raise _Unwieldy(f"a paragraph longer than {LONGEST_PARAGRAPH} characters")
    markdown, gate = _converter()
    gate.begin(to_root)
    try:
        html = markdown.reset().convert(text)
    except (RecursionError, _Unwieldy) as fault:
        _converter.cache_clear()  # It still believes that it is inside a list.
        raise _Unwieldy(_TOO_DEEP) from fault
    return _Converted(
        html=html,
        pictures=tuple(gate.pictures),
        refused_links=tuple(gate.refused_links),
        local_links=tuple(gate.local_links),
        comments=gate.comments,
    )


@cache
def _converter() -> "tuple[Markdown, _Gate]":
    """Made once: building it takes as long as converting two descriptions (measured)."""
    markdown, gate = Markdown(extensions=["tables", "smarty"]), _Gate()
    # Without these two the library ignores HTML: angle brackets are ordinary text.
    markdown.preprocessors.deregister("html_block")
    markdown.inlinePatterns.deregister("html")
    markdown.preprocessors.register(_Doorkeeper(gate), "comments", priority=0)
    # The library creates the element itself, with everything found in the text.
    markdown.parser.__class__ = _Blocks
    markdown.treeprocessors.register(gate, "gate", priority=0)
    return markdown, gate


class _Unwieldy(Exception):
    """A text that would take too long to convert, and what it has too much of."""


class _Blocks(BlockParser):
    """Limits the depth of nested lists and quotes."""

    depth = 0

    def parseBlocks(self, parent: Element, blocks: list[str]) -> None:  # noqa: N802  (the library's name)
        self.depth += 1
        try:
            if self.depth > _DEEPEST:
                raise _Unwieldy
            super().parseBlocks(parent, blocks)
        finally:
            self.depth -= 1


_TOO_DEEP: Final = f"more than {_DEEPEST} lists or quotes, one inside another"


class _Gate(Treeprocessor):
    """Lets through what a page may contain, and records what it may not."""

    def begin(self, to_root: str) -> None:
        """Forget the previous text."""
        self.to_root = to_root
        self.pictures: list[str] = []
        self.refused_links: list[str] = []
        self.local_links: list[str] = []
        self.comments: tuple[Aside, ...] = ()

    def run(self, root: Element) -> None:
        """Put the whole tree in order."""
        if self.comments:
            self.comments = settle(root, self.comments)
        headings = [element for element in root.iter() if _level(element)]
        ranks = sorted({_level(heading) for heading in headings})
        for heading in headings:
            heading.tag = f"h{min(ranks.index(_level(heading)) + _TOP_HEADING, _LAST_HEADING)}"
        for link in root.iter("a"):
            self._check_link(link)
        for picture in root.iter("img"):
            self.pictures.append(picture.get("src", ""))
            picture.tag = "span"
            picture.attrib.clear()

    def _check_link(self, link: Element) -> None:
        written = link.get("href", "")
        address = _as_a_browser_reads(written)
        beginning = re.split(r"[/?#]", address)[0]
        scheme, colon, _ = beginning.partition(":")
        if (colon and scheme.lower() not in _SCHEMES) or address.startswith("//"):
            self.refused_links.append(address)
            del link.attrib["href"]
        elif not colon and not address.startswith("#"):
            self.local_links.append(address.replace("\\", "/").lstrip("/"))
            link.set("href", self.to_root + written.replace("\\", "/").lstrip("/"))


class _Doorkeeper(Preprocessor):
    """Sets comments aside for the gate before anything else parses them."""

    def __init__(self, gate: _Gate) -> None:
        super().__init__()
        self._gate = gate

    def run(self, lines: list[str]) -> list[str]:
        """The lines without comments."""
        text, self._gate.comments = comments_set_aside("\n".join(lines))
        return text.split("\n")


def _level(element: Element) -> int:
    """The rank of a heading, or 0."""
    return int(element.tag[1]) if re.fullmatch(r"h[1-6]", str(element.tag)) else 0


def _as_a_browser_reads(address: str) -> str:
    """An address with its entities resolved and without the spaces and controls that a browser ignores.

    A backslash counts as a slash (WHATWG URL Standard, "special" schemes).
    """
    written = unescape(address.replace(AMP_SUBSTITUTE, "&"))
    return re.sub(r"[\x00-\x20]", "", written).replace("\\", "/")


def _picture_fault(path: Path, address: str) -> Fault:
    return Fault(
        path=path,
        what=f"the text contains the picture '{address}'",
        why="the page would load it from another site, or show an empty frame",
        fix="delete the picture; list a photo under photos: of a candle's size",
    )


def _unwieldy_fault(path: Path, what: str) -> Fault:
    return Fault(
        path=path,
        what=f"the text has {what}",
        why="no reader could follow it, and printing it could take for ever",
        fix="use shorter paragraphs, fewer brackets and less indentation",
    )


def _link_fault(path: Path, address: str) -> Fault:
    return Fault(
        path=path,
        what=f"'{address}' is a broken link",
        why="it would lead visitors nowhere, or start a program",
        fix=(
            "write [words](https://shop.example), [words](mailto:shop@shop.example), or [words](about.html)"
        ),
    )
