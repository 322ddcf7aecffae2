"""Which candles stand on the shelves on which day."""

from dataclasses import replace
from datetime import date

import pytest

from generator.documents.shelves import Standing, public_sizes, shelves, standing
from generator.model.candle import Sold
from generator.model.maker import Collection
from generator.model.sizes import Status
from tests.documents.sample_house import CANDLE, house, size

TODAY = date(2026, 11, 1)


@pytest.mark.parametrize(
    ("status", "expected"),
    [
        (Status.CURRENT, Standing.ON_THE_SHELF),
        (Status.MADE_TO_ORDER, Standing.ON_THE_SHELF),
        (Status.LAST_FEW, Standing.ON_THE_SHELF),
        (Status.COMING, Standing.COMING),
        (Status.DISCONTINUED, Standing.DISCONTINUED),
        (Status.TRIAL, Standing.NOT_PUBLIC),
    ],
    ids=lambda value: value.value,
)
def test_the_status_decides(status: Status, expected: Standing) -> None:
    assert standing(status, None, TODAY) is expected


@pytest.mark.parametrize(
    ("sold", "expected"),
    [
        (Sold(from_=date(2026, 11, 2)), Standing.COMING),
        (Sold(from_=date(2026, 11, 1)), Standing.ON_THE_SHELF),
        (Sold(until=date(2026, 11, 1)), Standing.ON_THE_SHELF),
        (Sold(until=date(2026, 10, 31)), Standing.OUT_OF_SEASON),
        (Sold(from_=date(2026, 10, 1), until=date(2027, 1, 31)), Standing.ON_THE_SHELF),
    ],
    ids=["from tomorrow", "from today", "until today", "until yesterday", "in its season"],
)
def test_the_dates_of_sale_include_both_days(sold: Sold, expected: Standing) -> None:
    assert standing(Status.CURRENT, sold, TODAY) is expected


def test_no_date_of_sale_brings_back_what_is_discontinued() -> None:
    assert standing(Status.DISCONTINUED, Sold(from_=date(2027, 1, 1)), TODAY) is Standing.DISCONTINUED


def test_a_size_with_a_status_of_its_own_leaves_the_shelf_alone() -> None:
    shop = house(size(), size(stock_code="SM-22", status=Status.DISCONTINUED))

    (shelf,) = shelves(shop, Standing.ON_THE_SHELF)

    assert [one.facts.stock_code for one in shelf.scents[0].sizes] == ["SM-30"]


def test_a_trial_has_no_place_on_the_site() -> None:
    shop = house(size(), size(stock_code="SM-X", status=Status.TRIAL))

    assert [one.facts.stock_code for one in public_sizes(shop.scents[0])] == ["SM-30"]


def test_shelves_follow_the_order_of_the_collections_and_empty_ones_are_left_out() -> None:
    shop = house()
    later = replace(CANDLE, id="later", scent="Later", collection="attic")
    collections = {
        "attic": Collection(name="Attic", order=2), "cellar": Collection(name="Cellar", order=3), **shop.collections,
    }  # fmt: skip
    scents = (replace(shop.scents[0], candle=later), *shop.scents)

    found = shelves(replace(shop, collections=collections, scents=scents), Standing.ON_THE_SHELF)

    assert [shelf.id for shelf in found] == ["tideline", "attic"]
