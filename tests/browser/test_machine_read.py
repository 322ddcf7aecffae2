"""What machines read of the example site, parsed back and held against the standards, the pages and the facts."""

import json
import re
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from xml.etree.ElementTree import Element, fromstring

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from tests.browser.whole_shop import KINDS, Printed

pytestmark = pytest.mark.browser

WEB = "https://quillfern.example/"
ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"

PRODUCT_HAS = {"@type", "sku", "name", "url", "offers", "weight", "material", "additionalProperty"}
GROUP_HAS = {
    "@type",
    "name",
    "description",
    "url",
    "brand",
    "manufacturer",
    "productGroupID",
    "variesBy",
    "hasVariant",
}
OFFER_HAS = {"@type", "url", "price", "priceCurrency", "availability", "itemCondition"}
"""schema.org: Product, ProductGroup, Offer (reference rows W8 to W10, FOUND in part, else MEMORY)."""

AVAILABILITIES = {
    "BackOrder", "Discontinued", "InStock", "InStoreOnly", "LimitedAvailability", "MadeToOrder", "OnlineOnly",
    "OutOfStock", "PreOrder", "PreSale", "Reserved", "SoldOut",
}  # fmt: skip
"""schema.org, ItemAvailability (MEMORY)."""

UNITS = {"GRM", "KGM", "ONZ", "LBR", "MMT", "CMT", "INH", "HUR", "LTR", "MLT"}
"""UN/ECE Recommendation 20 (reference row W9, MEMORY)."""


def soup(path: Path) -> BeautifulSoup:
    return BeautifulSoup(path.read_bytes(), "html.parser")


def read(path: Path) -> Element:
    return fromstring(path.read_text(encoding="utf-8"))  # noqa: S314  # our own text


def described(page: Path) -> Any:
    """What the page says of its scent to machines."""
    script = soup(page).select_one("script[type='application/ld+json']")
    assert script is not None
    return json.loads(script.text)


def products(printed: Printed) -> dict[str, Any]:
    """Every product of the site by its number, the members of groups with what their group says of all."""
    found = [described(page) for page in printed.output.glob("site/candles/*.html")]
    return {one["sku"]: {**group, **one} for group in found for one in group.get("hasVariant", [group])}


def facts(printed: Printed) -> dict[str, Any]:
    return dict(json.loads((printed.output / "workshop/facts.json").read_text(encoding="utf-8")))


def listed(one: dict[str, Any]) -> dict[str, tuple[float, str]]:
    """The further properties of a product."""
    return {each["name"]: (each["value"], each["unitCode"]) for each in one["additionalProperty"]}


def test_every_product_has_what_the_vocabulary_asks_of_it(printed: Printed) -> None:
    found = [described(page) for page in printed.output.glob("site/candles/*.html")]
    groups = [one for one in found if one["@type"] == "ProductGroup"]

    assert {one["@context"] for one in found} == {"https://schema.org"}
    assert [GROUP_HAS - group.keys() for group in groups if GROUP_HAS - group.keys()] == []
    lacking = {sku: PRODUCT_HAS - one.keys() for sku, one in products(printed).items()}
    assert {sku: lacks for sku, lacks in lacking.items() if lacks - {"offers", "weight"}} == {}


def test_every_candle_with_a_price_is_offered_for_it(printed: Printed) -> None:
    sold, offered = facts(printed), products(printed)

    prices = {sku: one["offers"] for sku, one in offered.items() if "offers" in one}

    assert len(prices) > 30
    assert {sku: OFFER_HAS - offer.keys() for sku, offer in prices.items() if OFFER_HAS - offer.keys()} == {}
    assert {sku: (Decimal(o["price"]), o["priceCurrency"]) for sku, o in prices.items()} == {
        sku: (Decimal(sold[sku]["price"]), sold[sku]["currency"]) for sku in prices
    }
    assert {urlsplit(o["availability"]).path[1:] for o in prices.values()} <= AVAILABILITIES


def test_every_product_is_found_at_its_own_place_on_its_page(printed: Printed) -> None:
    lost = []
    for sku, one in products(printed).items():
        path, _, place = one["url"].removeprefix(WEB).partition("#")
        target = soup(printed.output / "site" / path).find(id=place)
        if target is None or sku not in target.text:
            lost.append(one["url"])

    assert lost == []


def test_measures_are_those_of_the_facts_and_wax_is_not_the_weight_of_the_parcel(printed: Printed) -> None:
    known = facts(printed)
    for sku, one in products(printed).items():
        told = listed(one)

        assert {unit for _, unit in told.values()} <= UNITS
        if "weight" in one:
            assert one["weight"] == {
                "@type": "QuantitativeValue", "value": round(known[sku]["gross_g"]), "unitCode": "GRM",
            }  # fmt: skip
        if "Net wax weight" in told:
            assert told["Net wax weight"][0] < one["weight"]["value"]
        assert ("Burn time" in told) == ((known[sku]["burn_hours"] or {}).get("basis") == "tested")


def rfc_3339(text: str | None) -> datetime:
    """A date as Atom wants it; a fault if it is none."""
    assert text is not None
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)", text)
    return datetime.fromisoformat(text)


def assert_one_of_each(parent: Element, *names: str) -> None:
    assert {name: len(parent.findall(f"{ATOM}{name}")) for name in names} == dict.fromkeys(names, 1)


def test_the_news_keeps_every_must_of_atom_that_concerns_it(printed: Printed) -> None:
    """RFC 4287: 3.3 dates, 4.1.1 feed, 4.1.2 entry, 4.2.6 id, 4.2.7 link. (FOUND)"""
    feed = read(printed.output / "site/feed.xml")
    entries = feed.findall(f"{ATOM}entry")

    assert feed.tag == f"{ATOM}feed"
    assert_one_of_each(feed, "id", "title", "updated")
    assert feed.findtext(f"{ATOM}author/{ATOM}name")
    assert [link.get("href") for link in feed.findall(f"{ATOM}link") if link.get("rel") == "self"] == [
        f"{WEB}feed.xml"
    ]
    assert len(entries) > 10
    for entry in entries:
        assert_one_of_each(entry, "id", "title", "updated")
        assert urlsplit(entry.findtext(f"{ATOM}id") or "").scheme
        assert rfc_3339(entry.findtext(f"{ATOM}published")) <= rfc_3339(entry.findtext(f"{ATOM}updated"))
        ways = [(link.get("type"), link.get("hreflang")) for link in entry.findall(f"{ATOM}link")]
        assert len(ways) == len(set(ways)) == 1
    ids = [entry.findtext(f"{ATOM}id") for entry in entries]
    assert len(ids) == len(set(ids))
    assert rfc_3339(feed.findtext(f"{ATOM}updated")) == max(
        rfc_3339(entry.findtext(f"{ATOM}updated")) for entry in entries
    )


def test_the_map_keeps_the_rules_of_sitemaps(printed: Printed) -> None:
    """sitemaps.org, protocol 0.9: urlset of url with one loc each, whole, escaped, of one host, under 2,048
    characters; at most 50,000 of them and 50 MB. (MEMORY)"""
    path = printed.output / "site/sitemap.xml"
    root = read(path)
    addresses = [url.findtext(f"{MAP}loc") or "" for url in root]

    assert root.tag == f"{MAP}urlset"
    assert {child.tag for child in root} == {f"{MAP}url"}
    assert {each.tag for url in root for each in url} == {f"{MAP}loc"}
    assert all(address.startswith(WEB) and len(address) < 2048 and address.isascii() for address in addresses)
    assert len(addresses) == len(set(addresses)) <= 50_000
    assert path.stat().st_size < 50 * 1024 * 1024


def test_the_map_names_exactly_the_pages_that_may_be_found(printed: Printed) -> None:
    site = printed.output / "site"
    may_be_found = {
        path.relative_to(site).as_posix()
        for path in site.rglob("*.html")
        if not soup(path).select("meta[content*=noindex]")
    }
    root = read(site / "sitemap.xml")

    mapped = {(url.findtext(f"{MAP}loc") or "").removeprefix(WEB) or "index.html" for url in root}

    assert mapped == may_be_found


@pytest.mark.parametrize(
    "kind",
    [
        kind
        for kind, path in KINDS.items()
        if path.startswith("site/") and "*" not in path and "revision" not in kind and "name" not in kind
    ],
)
def test_a_link_to_a_page_shows_a_picture_that_is_there(kind: str, printed: Printed) -> None:
    """ogp.me: title, type, image and url on every page (FOUND); 1200 by 630 (common practice, no source)."""
    told = {
        str(one["property"]): str(one["content"]) for one in soup(printed.page(kind)).select("meta[property]")
    }

    assert {"og:title", "og:type", "og:image", "og:url", "og:image:alt"} <= told.keys()
    with Image.open(printed.output / "site" / told["og:image"].removeprefix(WEB)) as picture:
        assert picture.size == (1200, 630) == (int(told["og:image:width"]), int(told["og:image:height"]))
