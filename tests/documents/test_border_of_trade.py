"""The border around the trade: what shops pay, who they are and what was agreed never reaches a public file.

Canaries are planted in every field of the terms, of a buyer and of a price list, and in two own-label candles; the
shop is built whole. What may be shown is what the maker names: terms on the enquiry page, and of an own label its
brand and who answers for it, on that candle's safety pages and nowhere else.
"""

import dataclasses
import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from generator.commands import issue
from generator.commands.build import build
from generator.making.options import CommandOptions
from generator.model.shop import Shop
from generator.model.sizes import OwnLabel
from generator.model.trade import Buyer, PriceRow, Terms
from tests.conftest import PROJECT
from tests.loaded import loaded_shop

FIRST_SHOP = PROJECT / "generator/data/first_shop"
CANARY = "canary"
FILES = {
    "trade/terms.yaml": """
        opening_order: 4713.00
        repeat_order: 4717.00
        lead_time: canary days
        payment: canary payment
        carriage: canary carriage
        returns: canary returns
        from: 2025-04-13
        until: 2027-04-17
        levels: {canary-level: {off_retail: 43.17 %}}
        rounding: to 5 cents
        testers: canary testers
        enquiry: []
        notes: canary terms
        """,
    "trade/buyers.yaml": """
        canary-buyer:
          name: Canary Stores
          level: canary-level
          price_list: canary-list
          country: GB
          currency: GBP
          language: en
          offered: [WG-20, WG-21]
          withheld: [WG-21]
          opening_order: 4721.00
          repeat_order: 4723.00
          contact: canary contact
          bill_to: [canary bill]
          ship_to: [canary ship]
          tax_number: canary tax
          notes: canary notes
        """,
    "prices.csv": """
        stock_code,format,list,currency,price,includes_tax,from,until
        WG-20,,canary-list,GBP,8.37,no,2025-04-13,2027-04-17
        WG-20,,trade,GBP,8.53,no,2025-04-13,2027-04-17
        WG-20,,retail,EUR,27.43,23.7 %,2025-04-13,2027-04-17
        """,
}
OWN_LABELS = """
  - stock_code: WG-21
    kind: container
    vessel: amber-20
    wick: cotton-18
    fill: {to: 60 mm, level: set}
    price: 18.31
    trade: {price: 8.83, case: 6, minimum: 6}
    burn_time: {like: WG-20}
    barcode: "2044710001139"
    made_for: canary-buyer
    brand: Lanthorn
    responsible: {name: Brightside Ltd, address: [9 Gable End], email: ask@brightside.example}
    public: [brand, responsible]
    notes: canary size
  - stock_code: WG-22
    kind: container
    vessel: amber-20
    wick: cotton-18
    fill: {to: 60 mm, level: set}
    burn_time: {like: WG-20}
    price: 18.31
    trade: {price: 8.83, case: 6, minimum: 6}
    made_for: canary-buyer
    brand: canary brand
    responsible: {name: canary name, address: [canary street], email: canary@shop.example, phone: "+44 1632 960171"}
"""
"""One own label that may be named, and one that may not."""

NAMED = ("Lanthorn", "Brightside Ltd", "9 Gable End", "ask@brightside.example")
NUMBERS = (
    "4713",
    "4717",
    "4721",
    "4723",
    "43.17",
    "8.37",
    "8.53",
    "27.43",
    "23.7",
    "18.31",
    "8.83",
    "960171",
)
DAYS = ("2025-04-13", "13 April 2025", "2027-04-17", "17 April 2027")
TEXTS = frozenset({".html", ".xml", ".txt", ".json", ".js", ".css", ".svg", ".csv"})
CIPHERTEXT = re.compile(r"<script type=\"application/octet-stream\"[^>]*>[^<]*</script>")


@pytest.fixture(name="asked", scope="module")
def _asked(tmp_path_factory: pytest.TempPathFactory) -> CommandOptions:
    """The planted shop, two of its sheets issued, built."""
    folder = tmp_path_factory.mktemp("border-of-trade")
    content = folder / "content"
    shutil.copytree(FIRST_SHOP, content)
    (content / "trade").mkdir()
    for name, text in FILES.items():
        (content / name).write_text(text.replace("\n        ", "\n").lstrip(), encoding="utf-8")
    with (content / "candles/wet-garden.yaml").open("a", encoding="utf-8") as candle:
        candle.write(OWN_LABELS)
    asked = CommandOptions(content=content, output=folder / "output", as_of=None, as_data=False)
    assert issue.run(asked, ["WG-20", "WG-21", "WG-22"], f"{CANARY} reason") == 0
    built = build(asked)
    assert built.laid is not None, [str(problem) for problem in built.problems]
    return asked


@pytest.fixture(name="shop", scope="module")
def _shop(asked: CommandOptions) -> Shop:
    return loaded_shop(asked).shop


@pytest.fixture(name="public", scope="module")
def _public(asked: CommandOptions) -> dict[str, str]:
    """Every public file that holds text but for its ciphertext, and the names of all of them."""
    site = asked.output / "site"
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    texts = {name: path.read_text(encoding="utf-8") for name, path in files.items() if path.suffix in TEXTS}
    plain = {name: CIPHERTEXT.sub("", text) for name, text in texts.items()}
    return {**plain, "the names of all files": "\n".join(files)}


def places_of(text: str, public: dict[str, str]) -> list[str]:
    """The public files in which a text stands, a number by itself."""
    alone = re.compile(rf"(?<![\d.,#-]){re.escape(text)}(?!\d)", re.IGNORECASE)
    return sorted(name for name, said in public.items() if alone.search(said))


def empty_fields(entry: Any) -> Iterator[str]:
    """The fields of an entry in which nothing is planted."""
    for field in dataclasses.fields(entry):
        if getattr(entry, field.name) in (None, (), {}):
            yield field.name


def test_something_is_planted_in_every_field(shop: Shop) -> None:
    (buyer,) = shop.buyers.values()
    own_labels = [size.own_label for candle in shop.candles.values() for size in candle.sizes]

    assert list(empty_fields(buyer)) == []
    assert list(empty_fields(shop.terms)) == ["enquiry"]
    assert list(empty_fields(shop.prices[0])) == ["format"]
    assert [isinstance(own, OwnLabel) for own in own_labels] == [False, True, True]
    assert {type(buyer), type(shop.terms), type(shop.prices[0])} == {Buyer, Terms, PriceRow}


def test_no_word_of_terms_buyers_or_price_lists_is_public(public: dict[str, str]) -> None:
    assert places_of(CANARY, public) == []


@pytest.mark.parametrize("written", [*NUMBERS, *DAYS])
def test_no_number_and_no_day_of_the_trade_is_public(written: str, public: dict[str, str]) -> None:
    assert places_of(written, public) == []


@pytest.mark.parametrize("word", NAMED)
def test_an_own_label_is_named_on_its_safety_pages_and_nowhere_else(
    word: str, public: dict[str, str]
) -> None:
    assert places_of(word, public) == ["safety/WG-21-r1.html", "safety/WG-21.html"]


@pytest.mark.parametrize("code", ["WG-21", "WG-22"])
def test_an_own_label_stands_in_no_list_of_the_site(code: str, public: dict[str, str]) -> None:
    names = {f"safety/{code}.html", f"safety/{code}-r1.html", "the names of all files"}

    assert set(places_of(code, public)) == names


def test_the_page_of_an_own_label_asks_not_to_be_listed_and_leads_to_no_catalogue(
    public: dict[str, str],
) -> None:
    page = public["safety/WG-21.html"]

    assert '<meta name="robots" content="noindex">' in page
    assert re.findall(r'<a [^>]*href="([^"]*)"', page) == ["mailto:ask@brightside.example"]
    assert "Wet Garden" in page


def test_an_own_label_that_names_nobody_leaves_the_maker_to_answer(
    public: dict[str, str], shop: Shop
) -> None:
    page = public["safety/WG-22.html"]

    assert shop.maker.name in page
    assert shop.maker.email in page


def test_the_general_trade_sheet_shows_no_own_label(asked: CommandOptions) -> None:
    workshop = Path(asked.output) / "workshop"

    for name in ("trade.html", "trade.csv"):
        text = (workshop / name).read_text(encoding="utf-8")
        assert "WG-20" in text
        assert "WG-21" not in text


def test_the_search_finds_what_it_looks_for(public: dict[str, str]) -> None:
    """A search that cannot find would never fail: here canaries are let out on purpose."""
    leaking = {**public, "leak.html": "<p>Canary Stores pays £8.37.</p>"}

    assert places_of(CANARY, leaking) == ["leak.html"]
    assert places_of("8.37", leaking) == ["leak.html"]


def test_an_own_label_without_an_issued_sheet_has_no_page(asked: CommandOptions, tmp_path: Path) -> None:
    content = tmp_path / "content"
    shutil.copytree(asked.content, content)
    (content / "sheets/WG-21.yaml").unlink()

    built = build(replace(asked, content=content, output=tmp_path / "output"))

    assert built.laid is not None
    assert not (tmp_path / "output/site/safety/WG-21.html").exists()
    assert (tmp_path / "output/workshop/drafts/WG-21.html").exists()
