"""A buyer at a price sheet in a real browser: what is typed adds up, is kept, and leaves in three ways."""

import re
import shutil
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING
from urllib.parse import unquote

import pytest

from generator.documents.line_sheet import line_sheet
from generator.documents.printed import parcel
from generator.documents.published import as_published
from generator.documents.stock_lines import OfferedLine, Stock
from generator.making.options import CommandOptions
from generator.memory import Remembered
from generator.model.trade import Offer
from generator.reading.languages import words_of
from generator.rules.trade.prices import offers_by_buyer
from tests.browser.order_sums import OrderLine, OrderTotals, order_totals
from tests.browser.test_sealed import wickwright
from tests.conftest import PROJECT
from tests.loaded import house_and_theme, loaded_shop

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

BUYER = "lamp-room"
ORDERS = 1000
TYPE_ALL = """orders => {
  const inputs = [...document.querySelectorAll("input[data-code]")];
  const read = (name) => document.querySelector(`[data-${name}]`).textContent;
  return orders.map((order) => {
    inputs.forEach((input, place) => { input.value = order[place] || ""; });
    inputs[0].dispatchEvent(new Event("input", { bubbles: true }));
    return [read("total"), read("parcel")];
  });
}"""


@pytest.fixture(name="shop", scope="module")
def _shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example shop with its links given out, built."""
    folder = tmp_path_factory.mktemp("order")
    shutil.copytree(PROJECT / "content", folder / "content", ignore=shutil.ignore_patterns(".shop-secret"))
    wickwright(folder, "link", "--all")
    wickwright(folder, "build")
    return folder


@pytest.fixture(name="offered", scope="module")
def _offered(shop: Path) -> tuple[Stock, tuple[Offer, ...], tuple[OfferedLine, ...]]:
    """The same sheet as the program works it out."""
    asked = CommandOptions(content=shop / "content", output=shop / "output", as_of=None, as_data=False)
    known = loaded_shop(asked)
    stock = Stock(house=as_published(house_and_theme(asked).house, Remembered()))
    offers = offers_by_buyer(known.shop)[BUYER]
    return stock, offers, tuple(stock.offered(known.shop.buyers[BUYER], offers))


@pytest.fixture(name="sheet")
def _sheet(page: "Page", shop: Path) -> "Page":
    """The buyer's sheet, opened from disk with its key; a fault of its script is a fault of the test."""
    page.on("pageerror", _raise)
    link = wickwright(shop, "link", BUYER).strip().partition("/t/")[2]
    page.goto(f"{(shop / 'output' / 'site' / 't').as_uri()}/{link}")
    page.get_by_role("heading", name="The Lamp Room").wait_for(timeout=5000)
    return page


def _raise(error: Exception) -> None:
    raise error


def order_line(line: OfferedLine) -> OrderLine:
    pack_g = line.printed["pack_g"]
    return OrderLine(
        price=int(str(line.printed["coins"])),
        pieces=line.offer.case or 1,
        is_case=line.offer.case is not None,
        least=line.offer.minimum or 0,
        pack_g=pack_g if isinstance(pack_g, int) else None,
    )


def pence(text: str) -> int:
    return int(re.sub(r"[£.,]", "", text))


def parcel_of(order: OrderTotals) -> str:
    """The line under the total, as far as its numbers go."""
    weight = "" if order.weight_g is None else parcel(order.weight_g, "GB", words_of("en"))
    return f"{order.pieces} {order.cases} {weight}"


def numbers_in(text: str) -> str:
    candles = re.search(r"([\d,]+) candle", text)
    cases = re.search(r"([\d,]+) case", text)
    weight = re.search(r"[\d,]+\.\d\s?kg", text)
    counts = (int(found[1].replace(",", "")) if found else 0 for found in (candles, cases))
    return " ".join(map(str, (*counts, weight[0] if weight else "")))


def test_a_thousand_orders_come_to_the_same_on_the_page_and_here(
    sheet: "Page", offered: tuple[Stock, tuple[Offer, ...], tuple[OfferedLine, ...]]
) -> None:
    lines, dice = [order_line(line) for line in offered[2]], Random(3406)  # noqa: S311  # no secret is made of it
    orders = [[dice.choice([0, 0, 0, dice.randrange(1, 40)]) for _ in lines] for _ in range(ORDERS)]

    told = sheet.evaluate(TYPE_ALL, orders)

    totals = [order_totals(zip(lines, order, strict=True)) for order in orders]
    assert [pence(total) for total, _ in told] == [order.amount for order in totals]
    assert [numbers_in(text) for _, text in told if text] == [parcel_of(order) for order in totals]


def test_the_page_and_the_program_write_one_table(
    sheet: "Page", offered: tuple[Stock, tuple[Offer, ...], tuple[OfferedLine, ...]], shop: Path
) -> None:
    stock, offers, lines = offered
    sheet.locator("input[data-code]").nth(0).fill("3")

    with sheet.expect_download() as downloaded:
        sheet.get_by_role("button", name="Download").click()

    asked = CommandOptions(content=shop / "content", output=shop / "output", as_of=None, as_data=False)
    known = loaded_shop(asked)
    ours = line_sheet(stock, known.shop.buyers[BUYER], offers, {lines[0].line.size.facts.stock_code: 3})
    assert downloaded.value.path().read_bytes() == ours.text.encode()


def test_an_order_is_there_again_after_the_page_was_closed(sheet: "Page") -> None:
    sheet.locator("input[data-code]").nth(2).fill("4")
    sheet.get_by_label("Your order number").fill("LR 17")
    total = sheet.locator("[data-total]").inner_text()

    sheet.reload()

    sheet.get_by_role("heading", name="The Lamp Room").wait_for(timeout=5000)
    assert sheet.locator("input[data-code]").nth(2).input_value() == "4"
    assert sheet.get_by_label("Your order number").input_value() == "LR 17"
    assert sheet.locator("[data-total]").inner_text() == total


def test_what_is_still_to_reach_is_told_until_it_is_reached(sheet: "Page") -> None:
    first = sheet.locator("input[data-code]").nth(0)

    first.fill("1")
    few = sheet.locator("[data-lacks]").inner_text()
    first.fill("30")
    many = sheet.locator("[data-lacks]").inner_text()

    assert "£90.00" in few  # 150.00 less one case of six at 10.00
    assert "£90.00" not in many
    assert many.count(": met") == 2


def test_an_order_is_shown_as_text_where_it_cannot_be_copied(sheet: "Page") -> None:
    sheet.evaluate("Object.defineProperty(navigator, 'clipboard', { value: undefined })")
    sheet.locator("input[data-code]").nth(0).fill("2")

    sheet.get_by_role("button", name="Copy").click()

    text = sheet.locator("[data-text]")
    text.wait_for(state="visible", timeout=5000)
    assert "£120.00" in text.input_value()


def test_an_order_becomes_a_message_to_the_maker(sheet: "Page") -> None:
    sheet.locator("input[data-code]").nth(0).fill("2")
    sheet.evaluate(
        "navigation.addEventListener('navigate', (told) => { window.told = told.destination.url; })"
    )

    sheet.get_by_role("button", name="E-mail order").click()

    address = unquote(sheet.evaluate("window.told"))
    assert address.startswith("mailto:hello@quillfern.example?subject=")
    assert "£120.00" in address


def test_the_sheet_is_whole_without_its_script(shop: Path, page: "Page", tmp_path: Path) -> None:
    link = wickwright(shop, "link", BUYER).strip().partition("/t/")[2]
    page.goto(f"{(shop / 'output' / 'site' / 't').as_uri()}/{link}")
    page.get_by_role("heading", name="The Lamp Room").wait_for(timeout=5000)
    saved = tmp_path / "saved.html"
    saved.write_text(re.sub(r"<script>.*?</script>", "", page.content(), flags=re.DOTALL), encoding="utf-8")

    page.goto(saved.as_uri())

    assert page.locator("input[data-code]").count() > 30
    assert page.get_by_text("£10.00").first.is_visible()


@pytest.mark.parametrize("width", [320, 768, 1440])
def test_the_sheet_never_scrolls_sideways(sheet: "Page", width: int) -> None:
    sheet.set_viewport_size({"width": width, "height": 900})

    assert sheet.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize(("width", "height"), [(320, 640), (768, 900), (1440, 900)])
def test_the_sums_never_hide_the_field_that_is_typed_into(sheet: "Page", width: int, height: int) -> None:
    """WCAG 2.2, success criterion 2.4.11 Focus Not Obscured (Minimum). (MEMORY)"""
    sheet.set_viewport_size({"width": width, "height": height})

    for _ in range(12):
        sheet.keyboard.press("Tab")
        field, sums = (sheet.locator(one).bounding_box() for one in (":focus", ".sums"))

        assert field is not None
        assert sums is not None
        assert field["y"] + field["height"] <= sums["y"]


@pytest.mark.parametrize("width", [320, 768, 1440])
def test_every_number_has_a_name_at_every_width(sheet: "Page", width: int) -> None:
    sheet.set_viewport_size({"width": width, "height": 900})

    shown = sheet.locator("table").first.inner_text()

    assert all(
        name in shown
        for name in ("Per case", "Suggested retail, your margin", "Trade price, each", "Cases to order")
    )


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_sheet_prints_on_three_pages(sheet: "Page", paper: str) -> None:
    pages = len(re.findall(rb"/Type\s*/Page\b", sheet.pdf(format=paper)))

    assert pages == 3  # 43 lines
