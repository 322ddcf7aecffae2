"""What robots and feed readers ask for: well-formed, whole addresses, and the same bytes for the same house."""

from dataclasses import replace
from datetime import date
from xml.etree.ElementTree import Element, fromstring

import pytest

from generator.documents.house import House, Scent
from generator.documents.pages.feeds import news, robots, sitemap
from generator.model.candle import Candle, Sold
from generator.model.sizes import Status
from tests.documents.sample_house import CANDLE, house, size

ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"


WEB = "https://saltmarsh.example"


def read(xml: str) -> Element:
    return fromstring(xml)  # noqa: S314  # our own output, read back to see that it is well formed


def news_of(shop: House) -> Element:
    return read(news(shop, WEB).text)


def with_candles(*candles: Candle) -> House:
    return replace(house(), scents=tuple(Scent(candle=candle, sizes=(size(),)) for candle in candles))


def ids(feed: Element) -> list[str]:
    return [entry.findtext(f"{ATOM}id", "") for entry in feed.iter(f"{ATOM}entry")]


def test_the_map_names_every_public_page_once_in_order_by_its_whole_address() -> None:
    pages = ("site/index.html", "site/a b.html", "workshop/trade.html", "site/404.html")

    root = read(sitemap(WEB, pages).text)

    assert [found.text for found in root.iter(f"{MAP}loc")] == [
        "https://saltmarsh.example/a%20b.html",
        "https://saltmarsh.example/index.html",
    ]


def test_robots_may_fetch_everything_and_find_the_map() -> None:
    """A page can only ask to stay out of searches if it may be fetched (reference W12: FOUND)."""
    assert robots(WEB).text == ("User-agent: *\nDisallow:\nSitemap: https://saltmarsh.example/sitemap.xml\n")


def test_without_an_address_robots_are_told_of_no_map() -> None:
    assert robots(None).text == "User-agent: *\nDisallow:\n"


def test_the_news_has_what_atom_requires() -> None:
    """RFC 4287, 4.1.1 and 4.1.2: id, title, updated, an author, a link to itself; id, title, updated (MEMORY)."""
    feed = news_of(house())
    (entry,) = feed.iter(f"{ATOM}entry")

    assert [feed.findtext(f"{ATOM}{name}") for name in ("id", "title", "updated")] == [
        "https://saltmarsh.example/", "Saltmarsh Wax", "2026-03-01T00:00:00Z",
    ]  # fmt: skip
    assert feed.findtext(f"{ATOM}author/{ATOM}name") == "Saltmarsh Wax"
    assert {link.get("rel"): link.get("href") for link in feed.findall(f"{ATOM}link")} == {
        "self": "https://saltmarsh.example/feed.xml",
        "alternate": "https://saltmarsh.example/",
    }
    assert [entry.findtext(f"{ATOM}{name}") for name in ("id", "title", "updated", "summary")] == [
        "tag:saltmarsh.example,2026-03-01:samphire-bank",
        "Samphire Bank",
        "2026-03-01T00:00:00Z",
        "Salt first, then stone.",
    ]


def test_the_newest_candle_comes_first() -> None:
    older = replace(CANDLE, id="older", added=date(2026, 1, 5))
    newer = replace(CANDLE, id="newer", added=date(2026, 9, 5))

    feed = news_of(with_candles(older, newer))

    assert ids(feed) == ["tag:saltmarsh.example,2026-09-05:newer", "tag:saltmarsh.example,2026-01-05:older"]


@pytest.mark.parametrize(
    "candle",
    [
        replace(CANDLE, added=None),
        replace(CANDLE, added=date(2027, 1, 1)),
        replace(CANDLE, sold=Sold(until=date(2026, 1, 1))),
    ],
    ids=["added on no day", "added later", "out of season"],
)
def test_what_is_no_news_is_left_out(candle: Candle) -> None:
    feed = news_of(house(candle=candle))

    assert ids(feed) == []
    assert feed.findtext(f"{ATOM}updated") == "2026-11-01T00:00:00Z"


def test_a_trial_is_no_news() -> None:
    assert ids(news_of(house(size(status=Status.TRIAL)))) == []


def test_names_with_signs_of_markup_are_still_well_formed() -> None:
    feed = news_of(house(candle=replace(CANDLE, scent="Salt & <Stone>", description="A < B & C")))

    assert feed.findtext(f"{ATOM}entry/{ATOM}title") == "Salt & <Stone>"
    assert feed.findtext(f"{ATOM}entry/{ATOM}summary") == "A < B & C"


def test_the_order_of_pages_changes_nothing() -> None:
    assert sitemap(WEB, ("site/a.html", "site/b.html")) == sitemap(WEB, ("site/b.html", "site/a.html"))
