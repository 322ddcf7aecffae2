"""What robots and feed readers request: the site's rules, map and news."""

from collections.abc import Iterable
from datetime import date
from typing import Final
from urllib.parse import quote, urlsplit
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from generator.document import PlainText
from generator.documents.frame import NEWS, NOT_FOUND, ROBOTS, SITEMAP
from generator.documents.house import House, Scent
from generator.documents.link_previews import absolute
from generator.documents.pages.markdown_pages import text_without_markup
from generator.documents.shelves import Standing, sizes_that_are

_PUBLIC: Final = "site/"
_UNLISTED: Final = frozenset({NOT_FOUND})
_SITEMAP_NAMES: Final = "http://www.sitemaps.org/schemas/sitemap/0.9"
_ATOM_NAMES: Final = "http://www.w3.org/2005/Atom"
_LANGUAGE: Final = "{http://www.w3.org/XML/1998/namespace}lang"


def robots(web: str | None) -> PlainText:
    """Everything may be fetched: a page to keep out of searches says so itself, and must be read for that (W12)."""
    lines = ["User-agent: *", "Disallow:"]
    if web is not None:
        lines.append(f"Sitemap: {absolute(web, SITEMAP)}")
    return PlainText(path=f"site/{ROBOTS}", text="".join(f"{line}\n" for line in lines))


def sitemap(web: str, paths: Iterable[str]) -> PlainText:
    """The map of a site that has an address: these pages, except those to be kept out of searches."""
    public = {path.removeprefix(_PUBLIC) for path in paths if path.startswith(_PUBLIC)}
    root = Element("urlset", xmlns=_SITEMAP_NAMES)
    for path in sorted(public - _UNLISTED):
        _child(SubElement(root, "url"), "loc", absolute(web, quote(path)))
    return PlainText(path=f"site/{SITEMAP}", text=_written(root))


def news(house: House, web: str) -> PlainText:
    """The candles by the day they were added, newest first, as Atom (RFC 4287)."""
    items = sorted(_items(house), key=lambda item: (-item[0].toordinal(), item[1].candle.id))
    root = Element("feed", {"xmlns": _ATOM_NAMES, _LANGUAGE: house.maker.language})
    _child(root, "id", absolute(web, ""))
    _child(root, "title", house.maker.name)
    _child(root, "updated", _midnight(items[0][0] if items else house.as_of))
    SubElement(root, "link", rel="self", href=absolute(web, NEWS))
    SubElement(root, "link", rel="alternate", type="text/html", href=absolute(web, ""))
    _child(SubElement(root, "author"), "name", house.maker.name)
    for added, scent in items:
        _entry(SubElement(root, "entry"), added, scent, web)
    return PlainText(path=f"site/{NEWS}", text=_written(root))


def _items(house: House) -> Iterable[tuple[date, Scent]]:
    """The scents shown, each with the day it was added."""
    for scent in house.scents:
        shown = (Standing.ON_THE_SHELF, Standing.COMING)
        added = scent.candle.added
        if added is None or added > house.as_of:
            continue
        if any(sizes_that_are(where, scent, house.as_of) for where in shown):
            yield added, scent


def _entry(entry: Element, added: date, scent: Scent, web: str) -> None:
    candle = scent.candle
    _child(entry, "id", f"tag:{urlsplit(web).hostname},{added.isoformat()}:{candle.id}")
    _child(entry, "title", candle.scent)
    _child(entry, "published", _midnight(added))
    _child(entry, "updated", _midnight(added))
    address = absolute(web, quote(scent.sizes[0].facts.site_path))
    SubElement(entry, "link", rel="alternate", type="text/html", href=address)
    if candle.description:
        _child(entry, "summary", text_without_markup(candle.description))


def _midnight(day: date) -> str:
    return f"{day.isoformat()}T00:00:00Z"


def _child(parent: Element, name: str, text: str) -> None:
    SubElement(parent, name).text = text


def _written(root: Element) -> str:
    indent(root)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{tostring(root, encoding="unicode")}\n'
