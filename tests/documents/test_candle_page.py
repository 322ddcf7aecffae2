"""A candle's page: its figures with their basis, its pictures, and nothing that is the maker's own business."""

import json
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from generator.documents.house import House, Rendition
from generator.documents.pages.candle_page import candle_page
from generator.documents.printed import named
from generator.facts.facts import ContainerFacts, Figure, Input
from generator.model.candle import ScentNotes, Sold
from generator.model.sizes import Size, Status
from generator.model.vessel import Hexagon
from tests.documents.sample_house import (
    ADVICE,
    CANDLE,
    FACTS,
    MELT,
    RECORDED,
    VESSEL,
    WORDS,
    house,
    size,
    with_vessel,
)

SECRET = 0.987654321
PUBLIC = Figure(
    name="burnable_g",
    label="burnable",
    value=200.4,
    unit="g",
    formula="net_g - heel_g * secret",
    inputs=(
        Input(name="net_g", value=249.9, unit="g"),
        Input(name="heel_g", value=49.5, unit="g"),
        Input(name="secret", value=SECRET, unit="", shown="private"),
    ),
    source="tested",
    shown="public",
)
PRIVATE = PUBLIC._replace(name="canary_of_the_workshop", label="density_set", value=SECRET, shown="private")


def told(shop: House) -> Any:
    """The page of the house's one scent, as any JSON reader sees it."""
    return json.loads(json.dumps(candle_page(shop, shop.scents[0]).value, default=dict))


def rows(panel: Any) -> dict[str, str]:
    return {row["key"]: row["text"].replace("\u00a0", " ") for row in panel["rows"]}


def test_the_panel_says_what_a_shopper_asks() -> None:
    (panel,) = told(house())["sizes"]

    assert rows(panel) == {
        "net_weight": "240 g",
        "burn_hours": "about 40 hours",
        "longest_session": "4 h",
        "stop_at": "13 mm of wax left",
        "vessel": "Clear beaker, glass",
        "inside": "74 mm across, 92 mm deep",
        "wick": "Flat braid 9",
    }


def test_markets_that_read_the_weight_differently_are_named() -> None:
    (panel,) = told(house())["sizes"]

    assert panel["rows"][0]["further"] == ["United States: 8.4 oz (240 g)"]


def test_the_first_burn_is_said_with_its_limit() -> None:
    (panel,) = told(house())["sizes"]

    assert panel["first_burn"] == (
        "First burn: let the wax melt to the edge, about 3 h; never more than 4 h."
    )


def test_a_melt_has_no_word_of_burning() -> None:
    value = told(house(MELT))

    assert set(rows(value["sizes"][0])) == {"net_weight", "vessel", "inside"}
    assert value["sizes"][0]["first_burn"] is None
    assert [one["sign"] for one in value["care"]] == ["unlit", "warmer", "catches", "reach"]


@pytest.mark.parametrize(
    ("material", "expected"),
    [("glass", "Tin beaker, glass"), ("tin", "Tin beaker")],
    ids=["another word", "a word of its name"],
)
def test_a_vessel_is_not_called_the_same_twice(material: str, expected: str) -> None:
    container = ContainerFacts(id="beaker", name="Tin beaker", material=material)

    (panel,) = told(house(size(container=container)))["sizes"]

    assert rows(panel)["vessel"] == expected


def test_a_six_sided_vessel_is_as_wide_in_the_panel_as_on_its_plate() -> None:
    hexagon = replace(VESSEL, inside=Hexagon(shape="hexagon", across_mm=70.0, height_mm=78.0))
    jar = with_vessel(size(outline_mm=((35.0, 0.0), (35.0, 78.0))), hexagon)

    (panel,) = told(house(jar))["sizes"]

    assert rows(panel)["inside"] == "70 mm across, 78 mm deep"


def test_the_care_names_a_figure_only_where_all_sizes_share_it() -> None:
    shorter = size(stock_code="SM-12", advice={"GB": replace(ADVICE["GB"], trim="5 mm")})

    care = {one["sign"]: one["text"] for one in told(house(size(), shorter))["care"]}

    assert care["trim"] == "Trim the wick before every burn, to the length on the sheet for its size."
    assert care["session"] == "Burn for 4 h at most at a time, and stay in the room."


def test_melts_beside_candles_have_their_cautions_too() -> None:
    care = {one["sign"]: one["text"] for one in told(house(size(), MELT))["care"]}

    assert list(care) == ["trim", "session", "catches", "reach", "unlit", "warmer"]
    assert care["trim"] == "Trim the wick to 6 mm before every burn."
    assert care["unlit"] == "Wax melts have no wick. Never light them."


def test_a_melt_is_called_by_the_name_of_its_size() -> None:
    (panel,) = told(house(MELT))["sizes"]

    assert panel["vessel"] == "Snap bar"


def test_every_size_leads_to_its_burn_safety_page() -> None:
    value = told(house(size(), MELT))

    assert [one["safety_path"] for one in value["sizes"]] == ["safety/SM-30.html", "safety/SM-SB.html"]


@pytest.mark.parametrize(
    ("status", "sold", "expected"),
    [
        (Status.CURRENT, None, None),
        (Status.COMING, None, "Coming soon. Not on sale yet."),
        (
            Status.CURRENT,
            Sold(from_=date(2027, 2, 20)),
            "On sale from 20 February 2027.",
        ),
        (
            Status.CURRENT,
            Sold(until=date(2026, 1, 31)),
            "Out of season. Not on sale at the moment.",
        ),
        (
            Status.DISCONTINUED,
            None,
            "Discontinued. The burn-safety sheets stay here for anyone who still has one.",
        ),
    ],
    ids=["current", "coming", "on a day to come", "out of season", "discontinued"],
)
def test_what_cannot_be_bought_says_so_and_has_no_price(
    status: Status, sold: Sold | None, expected: str | None
) -> None:
    value = told(house(size(status=status), candle=replace(CANDLE, sold=sold)))

    assert value["standing"] == expected
    assert (value["sizes"][0]["price"] is None) == (expected is not None)


def test_a_discontinued_size_stays_beside_its_current_ones() -> None:
    value = told(house(size(), size(stock_code="SM-22", status=Status.DISCONTINUED)))

    assert [(one["price"], one["remark"]) for one in value["sizes"]] == [
        ("£24.00", None),
        (None, "discontinued"),
    ]


def test_a_trial_is_not_on_the_page() -> None:
    value = told(house(size(), size(stock_code="SM-X", status=Status.TRIAL)))

    assert [one["stock_code"] for one in value["sizes"]] == ["SM-30"]


def test_the_notes_come_as_top_heart_and_base() -> None:
    notes = ScentNotes(top=("salt", "lemon"), base=("slate",))

    value = told(house(candle=replace(CANDLE, scent_notes=notes)))

    assert value["notes"] == [{"name": "Top", "text": "salt, lemon"}, {"name": "Base", "text": "slate"}]


def test_the_derivation_shows_public_figures_with_their_public_inputs() -> None:
    ((derivation,),) = [told(house(size(figures=(PUBLIC, PRIVATE))))["derivations"]]

    (figure,) = derivation["figures"]
    assert figure["formula"] == "net − unburnt wax × secret"
    assert [(one["name"], one["value"]) for one in figure["inputs"]] == [
        ("net", "249\u00a0g"),
        ("unburnt wax", "49\u00a0g"),
    ]
    assert figure["kept"] == "figures we keep private"


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        (Input(name="level_set_mm", value=38.1234, unit="mm"), "38\u00a0mm"),
        (Input(name="stop_US_mm", value=12.7, unit="mm"), "12.7\u00a0mm"),
        (Input(name="rim_mm", value=74.3, unit="mm", origin=("vessel", "inside", "rim")), "74.3\u00a0mm"),
    ],
    ids=["worked out", "quoted from advice", "recorded"],
)
def test_a_length_that_was_worked_out_is_no_finer_than_it_is_drawn(given: Input, expected: str) -> None:
    figure = PUBLIC._replace(inputs=(given,))

    (derivation,) = told(house(size(figures=(figure,))))["derivations"]

    assert derivation["figures"][0]["inputs"] == [{"name": named(given, WORDS), "value": expected}]


def test_a_size_whose_working_is_not_shown_says_why() -> None:
    value = told(house(size(figures=(PUBLIC,)), size(stock_code="SM-22")))

    assert [one["stock_code"] for one in value["derivations"]] == ["SM-30"]
    assert value["not_worked_out"] == (
        "Not shown for Clear beaker (SM-22) at the moment: a new burn-safety sheet is on its way."
    )


def test_where_all_working_is_shown_nothing_is_missing() -> None:
    assert told(house(size(figures=(PUBLIC,))))["not_worked_out"] is None


def test_nothing_private_reaches_the_page() -> None:
    recorded = replace(RECORDED, claim_hours=4321.0, cased=None)
    private = {"density_set_g_per_ml": SECRET, "fragrance_of_total_percent": SECRET, "heat_w": SECRET}
    shop = house(replace(size(figures=(PUBLIC, PRIVATE), **private), recorded=recorded))

    page = json.dumps(told(shop))

    for canary in ("0.98765", "0.9877", "canary", "4321", "12.00"):
        assert canary not in page


def test_a_photo_comes_in_both_formats_with_its_size() -> None:
    candle = replace(CANDLE, sizes=(Size(stock_code="SM-30", photos=("bank.jpg",)),))
    renditions = tuple(
        Rendition(path=f"photos/bank-{width}.{form}", width=width, height=width * 3 // 4, format=form)
        for form in ("jpeg", "webp")
        for width in (480, 960)
    )

    (photo,) = told(replace(house(candle=candle), photos={"bank.jpg": renditions}))["photos"]

    assert [one["width"] for one in photo["webp"]] == [one["width"] for one in photo["jpeg"]] == [480, 960]
    assert (photo["path"], photo["width"], photo["height"]) == ("photos/bank-960.jpeg", 960, 720)
    assert photo["alt"] == "Samphire Bank in the Clear beaker"


def test_without_photos_the_page_is_whole() -> None:
    value = told(house())

    assert value["photos"] == []
    assert value["plate"]["drawing"].startswith("<svg")


def test_markup_in_an_entry_stays_text() -> None:
    candle = replace(CANDLE, description="<script>alert(1)</script> & *so on*")

    value = told(house(candle=candle))

    assert "<script" not in value["prose"]
    assert "<em>so on</em>" in value["prose"]


def test_an_estimated_weight_says_so_for_every_market() -> None:
    nothing_declared = {"GB": None, "EU": None, "US": None}
    (panel,) = told(house(size(declared=nothing_declared, net_weight_basis="geometry")))["sizes"]

    assert panel["rows"][0]["text"] == "249 g (approx.)"
    assert panel["rows"][0]["further"] == ["United States: about 8.8 oz (249 g)"]


def test_the_page_stands_where_the_facts_say() -> None:
    shop = house()

    assert candle_page(shop, shop.scents[0]).path == f"site/{FACTS.site_path}"
