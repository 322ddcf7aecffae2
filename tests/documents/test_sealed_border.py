"""The border around what a buyer pays: nothing of a buyer is in a public file but as ciphertext.

Canaries are planted in every field of a buyer, in the terms and in the price lists; the shop is built whole; every
public file is searched, and so is what is left of a sealed page without its ciphertext.
"""

import dataclasses
import gzip
import re
import shutil
from base64 import b64decode
from collections.abc import Iterator
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from generator.cli import main
from generator.model.secret import ShopSecret
from generator.model.trade import Buyer
from generator.model.trade_links import link_name, links_in_force
from generator.reading.read_shop import read_shop
from generator.reading.shop_secret import read_secret
from generator.writing.sealed import Link, link_of
from tests.conftest import PROJECT, TODAY
from tests.example.trade import sell_to_the_trade

CANARY = "canary"
PLANTED = f"""\
{CANARY}-id:
  name: {CANARY} name
  level: {CANARY}-level
  price_list: {CANARY}-list
  country: IE
  currency: EUR
  language: en
  offered: [WG-20]
  withheld: []
  opening_order: 173.91
  repeat_order: 71.93
  contact: {CANARY} contact, {CANARY}@shop.example
  bill_to: [{CANARY} bill]
  ship_to: [{CANARY} ship]
  tax_number: IE {CANARY} tax
  notes: {CANARY} notes
"""
PRICES = f"list,stock_code,currency,price\n{CANARY}-list,WG-20,EUR,13.79\nretail,WG-20,EUR,31.97\n"
NUMBERS = ("173.91", "71.93", "13.79")
SEALED = re.compile(r'data-path="([^"]*)">([^<]*)<')


@pytest.fixture(name="site", scope="module")
def _site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the planted shop, whose links are given out."""
    folder = tmp_path_factory.mktemp("trade-border")
    content = folder / "content"
    shutil.copytree(PROJECT / "generator" / "data" / "first_shop", content)
    sell_to_the_trade(content)
    plant(content)
    folders = ("--content", str(content), "--output", str(folder / "output"))
    with redirect_stdout(StringIO()) as printed:
        assert main(["link", "--all", *folders]) == 0
        assert main(["build", *folders]) == 0, printed.getvalue()
    return folder / "output" / "site"


def plant(content: Path) -> None:
    buyers, terms = content / "trade" / "buyers.yaml", content / "trade" / "terms.yaml"
    buyers.write_text(buyers.read_text(encoding="utf-8") + PLANTED, encoding="utf-8")
    planted = terms.read_text(encoding="utf-8").replace(
        "  shop:", f"  {CANARY}-level: {{off_trade: 7 %}}\n  shop:"
    )
    terms.write_text(f"{planted}notes: {CANARY} terms\n", encoding="utf-8")
    (content / "prices.csv").write_text(PRICES, encoding="utf-8")


@pytest.fixture(name="link", scope="module")
def _link(site: Path) -> Link:
    """The planted buyer's."""
    content = site.parents[1] / "content"
    secret, shop = read_secret(content, "content", 3), read_shop(content, "content", TODAY).shop
    assert isinstance(secret, ShopSecret)
    assert shop is not None
    return link_of(secret.key, link_name(links_in_force(shop.links)[f"{CANARY}-id"]))


@pytest.fixture(name="public", scope="module")
def _public(site: Path) -> dict[str, str]:
    """Every public file as text, and the names of all of them."""
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    texts = {name: path.read_bytes().decode("utf-8", errors="replace") for name, path in files.items()}
    return {**texts, "the names of all files": "\n".join(files)}


def sheet(page: str, link: Link) -> str:
    """What a sealed page holds."""
    found = SEALED.search(page)
    assert found is not None
    data = b64decode(found[2])
    plain = AESGCM(link.key).decrypt(data[:12], data[12:], link.path.encode())
    return gzip.decompress(plain[4 : 4 + int.from_bytes(plain[:4], "big")]).decode()


def around(pages: dict[str, str]) -> Iterator[str]:
    """The sealed pages without their addresses and ciphertext."""
    yield from (SEALED.sub("", page) for name, page in pages.items() if name.startswith("t/"))


def test_a_canary_is_planted_in_every_field_of_a_buyer() -> None:
    for field in dataclasses.fields(Buyer):
        key = {"opening": "opening_order", "repeat": "repeat_order", "id": f"{CANARY}-id"}.get(
            field.name, field.name
        )

        assert f"{key}:" in PLANTED


def test_nothing_of_a_buyer_is_public(public: dict[str, str]) -> None:
    assert [name for name, text in public.items() if CANARY in text.lower()] == []


@pytest.mark.parametrize("number", NUMBERS)
def test_no_figure_of_a_buyer_is_public(number: str, public: dict[str, str]) -> None:
    assert [name for name, text in public.items() if number in text] == []


def test_the_search_looks_where_the_canaries_are(public: dict[str, str], link: Link) -> None:
    """What nobody finds on the site stands in the sheet, once it is opened."""
    opened = sheet(public[link.path], link)

    assert f"{CANARY} name" in opened
    assert "13.79" in opened


def test_notes_are_the_makers_own_even_on_the_buyers_sheet(public: dict[str, str], link: Link) -> None:
    opened = sheet(public[link.path], link)

    assert f"{CANARY} notes" not in opened
    assert f"{CANARY} terms" not in opened


def test_but_for_ciphertext_and_address_the_pages_of_all_buyers_are_one(public: dict[str, str]) -> None:
    pages = tuple(around(public))

    assert len(pages) == 3
    assert len(set(pages)) == 1


def test_no_public_page_leads_to_a_sealed_one(public: dict[str, str]) -> None:
    sealed = [name for name in public if name.startswith("t/")]

    leading = {
        name
        for name, text in public.items()
        for path in sealed
        if name not in (path, "the names of all files") and path.removeprefix("t/") in text
    }

    assert len(sealed) == 3
    assert leading == set()


@pytest.mark.parametrize(
    "said",
    [
        '<meta name="robots" content="noindex, nofollow, noarchive">',
        '<meta name="referrer" content="no-referrer">',
        "default-src &#39;none&#39;; img-src data:; style-src &#39;sha256-",
        "base-uri &#39;none&#39;; form-action &#39;none&#39;",
    ],
)
def test_every_sealed_page_keeps_itself_to_itself(said: str, public: dict[str, str]) -> None:
    assert all(said in page for page in around(public))


def test_no_sealed_page_asks_for_another_file(public: dict[str, str]) -> None:
    assert [
        found for page in around(public) for found in re.findall(r'(?:src|href)="(?!data:)[^"]*"', page)
    ] == []
