"""The trade sheet: quantities that are proven or marked as guesses, prices as recorded, a table that runs nothing."""

import csv
from dataclasses import replace
from decimal import Decimal
from io import StringIO
from typing import Any

import pytest

from generator.documents.house import House, SizeOf
from generator.documents.pages.trade_sheet import columns, trade_sheet, trade_table
from generator.model.burn_safety import BurnHours
from generator.model.money import Money
from generator.model.sizes import Status
from tests.documents.said import told
from tests.documents.sample_house import MAKER, MELT, house, size

ESTIMATED = size(declared={"GB": None, "EU": None, "US": None}, declared_status="estimated")
UNTESTED = size(burn_hours=BurnHours(claim=17, low=17.2, mean=None, high=31.0, basis="untested"))


def sheet(shop: House) -> Any:
    return told(trade_sheet(shop))


def row_of(one: SizeOf) -> Any:
    return sheet(house(one))["shelves"][0]["scents"][0]["sizes"][0]


def table(shop: House) -> list[dict[str, str]]:
    text = trade_table(shop).text
    return list(csv.DictReader(StringIO(text.removeprefix("\ufeff"))))


def test_the_sheet_and_its_table_are_private() -> None:
    assert [trade_sheet(house()).path, trade_table(house()).path] == [
        "workshop/trade.html",
        "workshop/trade.csv",
    ]


def test_a_row_says_what_a_shop_must_know() -> None:
    row = row_of(size())

    assert [row[key] for key in ("code", "trade_price", "retail", "margin", "case", "minimum", "barcode")] == [
        "SM-30", "£12.00", "£24.00", "40\u00a0%", "6", "6", "6291041500213",
    ]  # fmt: skip


def test_a_proven_quantity_stands_as_it_is_declared() -> None:
    row = row_of(size())

    assert (row["net_quantity"], row["weight_estimate"]) == ("240 g", "")


def test_an_estimate_is_no_net_quantity_and_has_a_column_of_its_own() -> None:
    (row,) = table(house(ESTIMATED))
    printed = row_of(ESTIMATED)

    assert (printed["net_quantity"], printed["weight_estimate"]) == ("", "about 249 g")
    assert [row[key] for key in ("net_quantity_GB", "net_quantity_EU", "net_quantity_US", "weight_estimate")] == [
        "", "", "", "about 249 g",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("one", "expected"),
    [
        (size(), {"text": "about 40 hours", "mark": "tested"}),
        (UNTESTED, {"text": "about 17 hours", "mark": "estimate"}),
        (MELT, {"text": "wax melt", "mark": None}),
    ],
    ids=["tested", "untested", "a melt"],
)
def test_hours_never_stand_without_their_basis(one: SizeOf, expected: Any) -> None:
    assert row_of(one)["hours"] == expected


def test_what_is_not_sold_is_not_on_the_sheet() -> None:
    shop = house(size(status=Status.DISCONTINUED), size(status=Status.TRIAL))

    assert (sheet(shop)["shelves"], table(shop)) == ([], [])


def test_what_is_coming_says_so() -> None:
    coming = size(status=Status.COMING)

    assert (row_of(coming)["remark"], table(house(coming))[0]["status"]) == ("coming soon", "coming")


def test_a_missing_price_is_said_and_not_left_blank() -> None:
    assert row_of(size(trade_price=None))["trade_price"] == "price on request"


@pytest.mark.parametrize(
    ("tax", "expected"),
    [
        (20.0, "Trade prices exclude tax. Suggested retail prices include 20\u00a0% tax."),
        (None, "Trade prices and suggested retail prices exclude tax."),
    ],
    ids=["with tax", "without"],
)
def test_the_sheet_says_which_prices_hold_tax(tax: float | None, expected: str) -> None:
    assert sheet(house(maker=replace(MAKER, prices_include_tax_percent=tax)))["tax"] == expected


def test_the_table_has_the_columns_it_promises_and_plain_numbers() -> None:
    (row,) = table(house())

    assert tuple(row) == columns()
    assert [row[key] for key in ("trade_price", "retail_price", "currency", "margin_percent", "burn_hours")] == [
        "12.00", "24.00", "GBP", "40.0", "40",
    ]  # fmt: skip


def test_the_table_tells_a_spreadsheet_that_it_is_utf_8() -> None:
    assert trade_table(house()).text.encode().startswith(b"\xef\xbb\xbf")


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_can_be_taken_for_a_formula(start: str) -> None:
    (row,) = table(house(size(scent=f'{start}HYPERLINK("https://elsewhere.example")')))

    assert row["scent"] == f'\'{start}HYPERLINK("https://elsewhere.example")'


def test_a_cell_with_commas_quotes_and_lines_comes_back_whole() -> None:
    (row,) = table(house(size(scent='Salt, "Stone"\nand Rope')))

    assert row["scent"] == 'Salt, "Stone"\nand Rope'


def test_prices_round_half_up_to_the_penny() -> None:
    (row,) = table(house(size(trade_price=Money(Decimal("12.005")))))

    assert row["trade_price"] == "12.01"
