"""The burn-safety page: core cautions always, this candle's own numbers, nothing stated that is only guessed."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from generator.documents.house import House, SizeOf
from generator.documents.pages.safety import draft_page, has_draft, issued_pages, safety_page
from generator.model.burn_safety import BurnHours, HoursBasis
from generator.model.markets import Market
from generator.model.vessel import Lid
from tests.documents.said import said, told
from tests.documents.sample_house import (
    MAKER,
    MELT,
    VESSEL,
    WORDS,
    house,
    issued_of,
    size,
    with_issued,
    with_vessel,
)

CORE = ("alone", "catches", "reach")


def page(one: SizeOf, shop: House | None = None) -> Any:
    return told(safety_page(shop or house(one), one))


def test_each_stock_code_has_its_own_page() -> None:
    document = safety_page(house(), size())

    assert (document.path, document.template) == ("site/safety/SM-30.html", "pages/safety.html")


@pytest.mark.parametrize("one", [size(), MELT], ids=["a candle", "a melt"])
def test_the_three_core_cautions_always_stand(one: SizeOf) -> None:
    """EN 15494:2019 and ASTM F2058 agree on these three (reference F3, F21: FOUND-2nd)."""
    core = page(one)["core"]

    assert tuple(sign["sign"].removesuffix("_melt") for sign in core) == CORE


def test_the_large_figures_are_longest_burn_stop_line_and_wick() -> None:
    numbers = page(size())["numbers"]

    assert [number["figure"] for number in numbers] == ["4 h", "13\u00a0mm", "6 mm"]


def test_the_stop_line_is_never_rounded_down() -> None:
    shallow, deep = page(size(stop_depth_mm=10.0)), page(size(stop_depth_mm=10.2))

    assert (shallow["numbers"][1]["figure"], deep["numbers"][1]["figure"]) == ("10\u00a0mm", "11\u00a0mm")


def test_a_house_in_the_united_states_prints_its_own_units() -> None:
    shop = house(maker=replace(MAKER, markets=("US",)))

    numbers = page(size(), shop)["numbers"]

    assert [number["figure"] for number in numbers] == ["4 h", "1/2 in", "1/4 in"]


def test_the_first_burn_is_no_large_figure_and_never_above_the_longest_burn() -> None:
    first_burn = page(size())["first_burn"]

    assert first_burn == ("First burn: let the wax melt to the edge, about 3 h; never more than 4 h.")


@pytest.mark.parametrize("basis", ["untested", "thin test"])
def test_estimated_hours_say_that_they_were_not_tested(basis: HoursBasis) -> None:
    guessed = BurnHours(claim=17, low=17.2, mean=None, high=31.0, basis=basis)

    assert page(size(burn_hours=guessed))["burn_hours"] == "Total: about 17 hours (estimate, not tested)."


def test_every_market_has_its_advice_in_its_own_units() -> None:
    rows = page(size())["advice"]["rows"]

    assert {row["market"]: row["cells"][3] for row in rows} == {
        "Great Britain": "10 mm",
        "European Union": "10 mm",
        "United States": "1/2 in",
    }


def test_a_distance_that_no_source_gives_is_put_in_words() -> None:
    rows = page(size())["advice"]["rows"]

    assert [row["cells"][-1] for row in rows] == ["well away", "well away", "12 in"]


def test_the_stop_line_of_this_candle_holds_wherever_it_is_sold() -> None:
    assert "Stop this candle at 13\u00a0mm wherever you are" in page(size())["advice_note"]


@pytest.mark.parametrize("step", ["smokes_1", "spills_1"])
def test_a_warmer_with_a_flame_can_be_put_out_too(step: str) -> None:
    assert "or put its flame out" in WORDS["safety"][step]


def test_a_burn_is_cooled_for_twenty_minutes() -> None:
    """The advice of the health service of the United Kingdom (MEMORY)."""
    assert "for at least 20 minutes" in WORDS["safety"]["skin"]


@pytest.mark.parametrize(
    ("snuffs", "expected"),
    [
        (True, "Put it out with a snuffer or its own lid (slip lid). Do not blow it out."),
        (False, "Put it out with a snuffer. Do not blow it out."),
    ],
    ids=["a lid that snuffs", "a lid that does not"],
)
def test_a_lid_is_advised_only_where_it_snuffs(snuffs: bool, expected: str) -> None:
    one = with_vessel(size(), replace(VESSEL, lid=Lid(name="slip lid", snuffs=snuffs)))

    sentences = {sign["sign"]: sign["words"] for sign in page(one)["signs"]}

    assert sentences["snuff"] == expected


def test_no_lid_is_named_where_it_may_not_be_used() -> None:
    one = with_vessel(size(), replace(VESSEL, lid=Lid(name="bell jar", snuffs=False)))

    assert "bell jar" not in said(safety_page(house(one), one))


def test_a_melt_has_no_numbers_and_no_advice_on_burning() -> None:
    melt = page(MELT)

    assert [melt[key] for key in ("numbers", "first_burn", "burn_hours", "advice", "drawing")] == [
        [], None, None, None, None,
    ]  # fmt: skip


def test_a_melt_is_never_lit_and_belongs_in_a_warmer() -> None:
    signs = [sign["sign"] for sign in page(MELT)["signs"]]

    assert signs == ["unlit", "warmer", "surface_melt", "move_melt", "set", "water_melt"]


def test_no_sentence_of_a_melt_speaks_of_burning_it() -> None:
    text = said(safety_page(house(MELT), MELT)).lower()

    assert [word for word in ("trim", "snuff", "lighting", "burn it", "burning") if word in text] == []


@pytest.mark.parametrize(
    ("markets", "expected"),
    [
        (("GB",), ["United Kingdom 999 or 112"]),
        (("EU",), ["European Union 112"]),
        (("US",), ["United States 911"]),
        (("GB", "EU", "US"), ["United Kingdom 999 or 112", "European Union 112", "United States 911"]),
    ],
    ids=["Britain", "Europe", "America", "all three"],
)
def test_the_emergency_numbers_are_those_of_the_markets(
    markets: tuple[Market, ...], expected: list[str]
) -> None:
    shop = house(maker=replace(MAKER, markets=markets))

    assert page(size(), shop)["calls"] == expected


@pytest.mark.parametrize("one", [size(), MELT], ids=["a candle", "a melt"])
def test_whatever_goes_wrong_what_to_do_comes_first_and_water_is_refused(one: SizeOf) -> None:
    emergencies = page(one)["emergencies"]

    assert ["if you can do so safely" in step for step in emergencies[0]["steps"]] == [
        True,
        False,
        False,
        False,
    ]
    assert ["water" in step for step in emergencies[0]["steps"]] == [False, True, False, False]
    assert "call the fire service" in emergencies[0]["steps"][3]
    assert "call the fire service" in emergencies[1]["steps"][2]


def test_who_answers_stands_with_postal_and_electronic_address() -> None:
    """Regulation (EU) 2023/988, Articles 9 and 19 (reference F43, F44: FOUND-2nd)."""
    maker, in_the_eu = page(size())["contacts"]

    assert (maker["address"][0], maker["email"]) == ("The Drying Shed", "hello@saltmarsh.example")
    assert (in_the_eu["name"], in_the_eu["email"]) == ("Comptoir du Large", "eu@large.example")


def test_a_draft_says_which_day_it_speaks_for_and_that_no_sheet_is_issued() -> None:
    draft = page(size())

    assert (draft["draft"], draft["permanent"]) == ("Draft", None)
    assert draft["sheet"] == "Draft of 1 November 2026. No sheet has been issued yet."


def test_an_issued_sheet_names_its_revision_and_its_permanent_address() -> None:
    issued = page(size(), with_issued(house(), issued_of(size())))

    assert (issued["draft"], issued["permanent"]) == (None, "https://saltmarsh.example/safety/SM-30-r1.html")
    assert issued["sheet"].startswith("Revision 1, issued on 15 October 2026. Fingerprint ")


def test_a_changed_sheet_keeps_showing_what_was_issued() -> None:
    shop = with_issued(house(size(burn_hours=None)), issued_of(size()))

    assert page(size(burn_hours=None), replace(shop, drafts=False))["burn_hours"] == "Total: about 40 hours."


def test_where_drafts_are_shown_a_changed_sheet_shows_what_it_says_today() -> None:
    shop = with_issued(house(size(burn_hours=None)), issued_of(size()))

    changed = page(size(burn_hours=None), shop)

    assert changed["burn_hours"] is None
    assert changed["sheet"] == "Draft of 1 November 2026. Revision 1 is the current sheet."


def test_without_an_issued_sheet_the_page_says_so_and_gives_no_number_of_the_candle() -> None:
    document = safety_page(replace(house(), drafts=False), size())

    assert told(document)["told"] == "No burn-safety sheet has been issued for this candle yet."
    assert [
        figure for figure in ("4 h", "40 hours", "6 mm", "13\u00a0mm", "240 g") if figure in said(document)
    ] == []
    assert [sign["sign"] for sign in told(document)["core"]] == list(CORE)


def test_a_superseded_revision_says_so_and_leads_to_the_one_in_force() -> None:
    shop = with_issued(house(), issued_of(size(burn_hours=None)), issued_of(size(), revision=2))

    old, new = (told(paper.made()) for paper in issued_pages(shop, size()))

    assert old["notice"] == (
        "Revision 1 of this sheet has been superseded. It stays here for candles sold with it."
    )
    assert (old["candle_path"], new["notice"]) == ("safety/SM-30.html", None)
    assert (old["burn_hours"], new["burn_hours"]) == (None, "Total: about 40 hours.")


def test_an_older_revision_depends_on_nothing_that_the_shop_says_today() -> None:
    shop = with_issued(house(), issued_of(size(burn_hours=None)), issued_of(size(), revision=2))
    elsewhere = replace(shop, as_of=date(2030, 1, 1), pages=(), maker=replace(MAKER, name="Somebody Else"))

    was, now = (next(issued_pages(one, size())).made().value for one in (shop, elsewhere))

    assert was == now


def test_only_a_sheet_that_is_not_in_force_has_a_draft_in_the_workshop() -> None:
    shops = (house(), with_issued(house(), issued_of(size())))

    assert [has_draft(shop, size()) for shop in shops] == [True, False]
    assert draft_page(house(), size()).path == "workshop/drafts/SM-30.html"


def test_the_page_defers_to_local_rules() -> None:
    assert WORDS["safety"]["local"] == (
        "These are the usual cautions. If your fire service, your building or local rules ask for more, "
        "follow them."
    )


def test_the_drawing_shows_the_stop_line_at_its_height() -> None:
    drawing = page(size(stop_depth_mm=12.7))["drawing"]

    assert 'M-49 -12.7h98" stroke="var(--no)"' in drawing
