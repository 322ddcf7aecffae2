"""The catalogue: what is listed, what is not, and how it is narrowed."""

import json
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from generator.document import Document
from generator.documents.house import House, Scent
from generator.documents.pages.catalogue import collection_page, home_page
from generator.model.candle import Candle, ScentNotes, Sold
from generator.model.sizes import Status
from tests.documents.sample_house import CANDLE, MELT, house, size


def told(document: Document) -> Any:
    """A document's value as any JSON reader sees it."""
    return json.loads(json.dumps(document.value, default=dict))


def home(shop: House) -> Any:
    return told(home_page(shop))


def pieces(value: Mapping[str, Any]) -> list[Any]:
    return [piece for shelf in value["shelves"] for piece in shelf["pieces"]]


def test_there_is_a_home_page_and_a_page_for_each_collection() -> None:
    assert [page(house()).path for page in (home_page, collection_page)] == [
        "site/index.html",
        "site/collections/tideline.html",
    ]


def test_a_candle_is_listed_with_its_sizes_weights_hours_and_prices() -> None:
    (piece,) = pieces(home(house(size(), MELT)))

    assert piece["scent"] == "Samphire Bank"
    assert piece["path"] == "candles/samphire-bank.html"
    assert [(one["net"], one["hours"], one["price"]) for one in piece["sizes"]] == [
        ("240 g", "about 40 hours", "£24.00"),
        ("240 g", None, "£24.00"),
    ]


def test_every_size_is_drawn() -> None:
    (piece,) = pieces(home(house(size(), size(stock_code="SM-22"), MELT)))

    assert len(piece["drawings"]) == 3


@pytest.mark.parametrize(
    "status", [Status.CURRENT, Status.MADE_TO_ORDER, Status.LAST_FEW], ids=lambda one: one.value
)
def test_what_can_be_bought_stands_on_the_shelves(status: Status) -> None:
    value = home(house(size(status=status)))

    assert len(pieces(value)) == 1
    assert value["coming"] == []


@pytest.mark.parametrize("status", [Status.DISCONTINUED, Status.TRIAL], ids=lambda one: one.value)
def test_what_is_not_for_sale_is_not_listed(status: Status) -> None:
    value = home(house(size(status=status)))

    assert value["shelves"] == value["coming"] == []


def test_what_is_coming_is_listed_apart_and_without_a_price() -> None:
    value = home(house(size(status=Status.COMING)))

    assert value["shelves"] == []
    assert value["coming"][0]["remark"] == "Coming soon"
    assert value["coming"][0]["sizes"][0]["price"] is None


def test_a_day_of_sale_still_ahead_is_named() -> None:
    candle = replace(CANDLE, sold=Sold(from_=date(2027, 2, 20)))

    value = home(house(candle=candle))

    assert value["coming"][0]["remark"] == "On sale from 20 February 2027"


def test_a_season_past_leaves_the_shelves() -> None:
    candle = replace(CANDLE, sold=Sold(until=date(2026, 10, 31)))

    value = home(house(candle=candle))

    assert value["shelves"] == value["coming"] == []


def test_the_last_day_of_sale_is_named() -> None:
    candle = replace(CANDLE, sold=Sold(until=date(2027, 1, 31)))

    (piece,) = pieces(home(house(candle=candle)))

    assert piece["remark"] == "On sale until 31 January 2027"


def of_two(one: Candle, other: Candle) -> House:
    """A house with two scents."""
    shop = house(candle=one)
    return replace(shop, scents=(*shop.scents, Scent(candle=replace(other, id="other"), sizes=(size(),))))


def test_the_shelves_are_narrowed_by_what_stands_on_them() -> None:
    notes = ScentNotes(top=("salt",), heart=("samphire", "salt & vinegar"), base=())
    candle = replace(CANDLE, scent_notes=notes, season="autumn and winter")

    value = home(of_two(candle, candle))

    choices = {way["key"]: [one["value"] for one in way["choices"]] for way in value["narrowing"]}
    assert choices == {
        "collection": ["tideline"],
        "vessel": ["Clear beaker"],
        "season": ["autumn", "winter"],
        "note": ["salt", "salt & vinegar", "samphire"],
    }


def test_a_choice_is_an_ordinary_address() -> None:
    candle = replace(CANDLE, scent_notes=ScentNotes(top=("salt & vinegar",)))

    ways = home(of_two(candle, candle))["narrowing"]

    assert ways[-1]["choices"][0]["path"] == "index.html?note=salt+%26+vinegar"


def test_a_note_of_one_scent_alone_is_no_way_to_narrow() -> None:
    other = replace(CANDLE, scent_notes=ScentNotes(top=("slate",)))

    ways = home(of_two(CANDLE, other))["narrowing"]

    assert [way["key"] for way in ways] == ["collection", "vessel"]


def test_a_candle_for_all_the_year_answers_to_every_season() -> None:
    (piece,) = pieces(home(house(candle=replace(CANDLE, season="all year"))))

    assert piece["season_keys"] == "spring|summer|autumn|winter|all year"


@pytest.mark.parametrize(
    "word", ["SM-SB", "wax melt", "hydrogenated soybean oil", "Salt first", "Clear beaker"]
)
def test_the_text_box_finds_codes_kinds_contents_prose_and_vessels(word: str) -> None:
    (piece,) = pieces(home(house(MELT)))

    assert word in piece["words"]


def test_the_count_is_of_all_that_is_shown() -> None:
    assert home(house())["count"] == "1 scent"
    assert home(house(size(status=Status.COMING)))["count"] == "1 scent"
