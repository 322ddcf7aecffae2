"""Stock codes become addresses, and no two pages of the site may have one."""

from dataclasses import replace
from pathlib import Path

import pytest

from generator.documents.frame import RESERVED_PAGES
from generator.model.shop import Shop
from generator.problems import Fault
from generator.reading.read_shop import read_shop
from generator.rules.entries.taken_names import taken_addresses
from tests.conftest import EXAMPLE, TODAY


@pytest.fixture(name="shop")
def _shop(shop_folder: Path) -> Shop:
    shop = read_shop(shop_folder, "content", TODAY).shop
    assert shop is not None
    return shop


def coded(shop: Shop, *codes: str) -> Shop:
    """The small shop whose candle comes in sizes with these stock codes."""
    (candle,) = shop.candles.values()
    sizes = tuple(replace(candle.sizes[0], stock_code=code) for code in codes)
    return replace(shop, candles={candle.id: replace(candle, sizes=sizes)})


def test_a_stock_code_that_reads_as_a_revision_of_another_is_an_error(shop: Shop) -> None:
    assert list(taken_addresses(coded(shop, "WG-20", "wg-20-r1"))) == [
        Fault(
            path=("candles/wet-garden.yaml", "sizes", 1, "stock_code"),
            what="stock code wg-20-r1 takes the address of an issued sheet of WG-20",
            why="both pages would be safety/wg-20-r1.html, and one of them would be lost",
            fix="use a stock code that no page of the site is named after",
        )
    ]


def test_a_stock_code_that_reads_as_the_list_of_sheets_is_an_error(shop: Shop) -> None:
    (fault,) = taken_addresses(coded(shop, "Index"))

    assert fault.what == "stock code Index takes the address of the list of all sheets"


@pytest.mark.parametrize("code", ["WG-20-r0", "WG-20-rx", "WG-21-r1"])
def test_other_stock_codes_have_an_address_of_their_own(shop: Shop, code: str) -> None:
    assert list(taken_addresses(coded(shop, "WG-20", code))) == []


def test_no_page_of_the_makers_own_takes_the_address_of_one_that_the_program_makes(
    built_example: Path,
) -> None:
    written = {path.stem for path in (EXAMPLE / "pages").glob("*.md")}

    made = {path.stem for path in (built_example / "site").glob("*.html")} - written

    assert made >= {"index", "404", "glossary", "for-shops"}
    assert made <= RESERVED_PAGES
