"""What machines read of a candle: true to the papers, whole addresses, and safe inside a page."""

import json
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from generator.documents.house import House, Rendition, SizeOf
from generator.documents.pages.structured import product
from generator.model.burn_safety import BurnHours
from generator.model.candle import Sold
from generator.model.money import Money
from generator.model.sizes import Size, Status
from tests.documents.sample_house import CANDLE, MAKER, MELT, VESSEL, house, size, with_vessel


def described(shop: House) -> Any:
    text = product(shop, shop.scents[0])
    return None if text is None else json.loads(text)


def properties(one: SizeOf) -> Any:
    return {
        found["name"]: (found["value"], found["unitCode"])
        for found in described(house(one))["additionalProperty"]
    }


def test_one_size_is_a_product_with_its_number_and_offer() -> None:
    found = described(house())

    assert [found[key] for key in ("@context", "@type", "name", "sku", "gtin", "color", "material")] == [
        "https://schema.org", "Product", "Samphire Bank, Clear beaker", "SM-30", "6291041500213", "wet slate", "glass",
    ]  # fmt: skip
    assert found["offers"] == {
        "@type": "Offer",
        "url": "https://saltmarsh.example/candles/samphire-bank.html#size-SM-30",
        "price": "24.00",
        "priceCurrency": "GBP",
        "availability": "https://schema.org/InStock",
        "itemCondition": "https://schema.org/NewCondition",
    }


def test_several_sizes_are_a_group_whose_members_differ_by_size() -> None:
    found = described(house(size(), MELT))

    assert (found["@type"], found["productGroupID"]) == ("ProductGroup", "samphire-bank")
    assert found["variesBy"] == ["https://schema.org/size"]
    assert [variant["sku"] for variant in found["hasVariant"]] == ["SM-30", "SM-SB"]


@pytest.mark.parametrize(
    ("status", "expected"),
    [
        (Status.CURRENT, "InStock"),
        (Status.COMING, "PreOrder"),
        (Status.MADE_TO_ORDER, "MadeToOrder"),
        (Status.LAST_FEW, "LimitedAvailability"),
        (Status.DISCONTINUED, "Discontinued"),
    ],
)
def test_a_status_is_told_in_the_words_of_the_standard(status: Status, expected: str) -> None:
    offer = described(house(size(status=status)))["offers"]

    assert offer["availability"] == f"https://schema.org/{expected}"


@pytest.mark.parametrize(
    ("sold", "expected"),
    [
        (Sold(from_=date(2026, 12, 1)), "PreOrder"),
        (Sold(until=date(2026, 10, 1)), "OutOfStock"),
        (Sold(from_=date(2026, 10, 1), until=date(2026, 12, 1)), "InStock"),
    ],
    ids=["before its season", "after it", "in it"],
)
def test_out_of_season_nothing_is_in_stock(sold: Sold, expected: str) -> None:
    offer = described(house(candle=replace(CANDLE, sold=sold)))["offers"]

    assert offer["availability"] == f"https://schema.org/{expected}"


def test_a_trial_is_described_nowhere() -> None:
    assert described(house(size(status=Status.TRIAL))) is None


def test_without_an_address_there_is_no_description() -> None:
    assert described(house(maker=replace(MAKER, web=None))) is None


def test_what_has_no_price_has_no_offer() -> None:
    assert "offers" not in described(house(size(price=None)))


def test_a_price_keeps_its_own_currency_and_decimals() -> None:
    offer = described(house(size(price=Money(Decimal("24.5"), "USD"))))["offers"]

    assert (offer["price"], offer["priceCurrency"]) == ("24.50", "USD")


def test_the_weight_of_the_wax_is_no_weight_of_the_product() -> None:
    """``weight`` is the shipping view; net wax goes elsewhere (reference W10)."""
    found = described(house())

    assert found["weight"] == {"@type": "QuantitativeValue", "value": 591, "unitCode": "GRM"}
    assert properties(size())["Net wax weight"] == (240, "GRM")


def test_a_kilogram_is_told_in_kilograms() -> None:
    heavy = size(declared={"GB": "1.27 kg", "EU": "1.27 kg", "US": "2 lb 12.9 oz (1.27 kg)"})

    assert properties(heavy)["Net wax weight"] == (1.27, "KGM")


def test_the_metric_half_of_an_american_declaration_is_read() -> None:
    american = size(declared={"US": "8.4 oz (240 g)"})

    assert properties(american)["Net wax weight"] == (240, "GRM")


def test_an_estimated_weight_is_not_told() -> None:
    guessed = size(declared={"GB": None, "EU": None, "US": None}, declared_status="estimated")

    assert "Net wax weight" not in properties(guessed)


@pytest.mark.parametrize(
    ("basis", "expected"),
    [
        ("tested", {"Burn time": (40, "HUR")}),
        ("provisional", {"Burn time, early test": (40, "HUR")}),
        ("thin test", {}),
        ("untested", {}),
    ],
)
def test_hours_are_told_only_where_candles_were_burnt(basis: Any, expected: Any) -> None:
    one = size(burn_hours=BurnHours(claim=40, low=40.1, mean=None, high=None, basis=basis))

    assert {name: told for name, told in properties(one).items() if name.startswith("Burn")} == expected


def test_the_width_is_the_outside_and_only_where_the_wall_is_known() -> None:
    thin = with_vessel(size(), replace(VESSEL, wall_mm=None))

    assert described(house())["width"] == {"@type": "QuantitativeValue", "value": 80, "unitCode": "MMT"}
    assert "width" not in described(house(thin))


@pytest.mark.parametrize("barcode", [None, "2044710001139", "0212345678901", "0412345678909"])
def test_a_number_that_counts_only_in_the_house_is_not_told_as_a_global_one(barcode: str | None) -> None:
    """GS1: numbers beginning with 2, 02 or 04 are for use within one house (MEMORY)."""
    assert "gtin" not in described(house(size(barcode=barcode)))


def test_photos_are_told_by_their_largest_common_file() -> None:
    files = (
        Rendition(path="photos/jar-480.jpg", width=480, height=360, format="jpeg"),
        Rendition(path="photos/jar-960.jpg", width=960, height=720, format="jpeg"),
        Rendition(path="photos/jar-960.webp", width=960, height=720, format="webp"),
    )
    candle = replace(CANDLE, sizes=(Size(stock_code="SM-30", photos=("jar.jpg",)),))

    shop = replace(house(candle=candle), photos={"jar.jpg": files})

    assert described(shop)["image"] == ["https://saltmarsh.example/photos/jar-960.jpg"]


def test_a_size_of_a_group_has_its_own_photos_and_no_others() -> None:
    photo = (Rendition(path="photos/jar.jpg", width=480, height=360, format="jpeg"),)
    candle = replace(CANDLE, sizes=(Size(stock_code="SM-30", photos=("jar.jpg",)), Size(stock_code="SM-SB")))

    found = described(replace(house(size(), MELT, candle=candle), photos={"jar.jpg": photo}))

    assert found["image"] == ["https://saltmarsh.example/photos/jar.jpg"]
    assert [variant.get("image") for variant in found["hasVariant"]] == [found["image"], None]


def test_no_text_can_end_the_script_around_it() -> None:
    candle = replace(CANDLE, description="<!-- & \u2028")
    shop = house(size(scent="</script><script>alert(1)"), candle=candle)

    text = product(shop, shop.scents[0])

    assert text is not None
    assert [sign for sign in "<>&\u2028" if sign in text] == []
    assert json.loads(text)["name"] == "</script><script>alert(1), Clear beaker"


def test_the_same_house_twice_gives_the_same_text() -> None:
    assert product(house(), house().scents[0]) == product(house(), house().scents[0])
