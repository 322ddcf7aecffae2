"""The burn-safety sheet is one page of paper, on both sides of the Atlantic, whatever the entries say."""

import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from generator.document import Document
from generator.documents.frame import frame
from generator.documents.house import House, SizeOf
from generator.documents.pages.safety import issued_pages, safety_page
from generator.model.burn_safety import BurnHours
from generator.model.maker import Contact
from generator.model.vessel import Lid
from generator.reading.languages import words_of
from generator.writing.templates import Templates
from generator.writing.themes import Theme, theme_assets
from tests.documents.sample_house import (
    MAKER,
    MELT,
    NAMING,
    ROOT,
    SKIN_AND_EYES,
    VESSEL,
    house,
    issued_of,
    saying,
    size,
    speech_in,
    with_issued,
    with_vessel,
)

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

THEME = Theme(name="netloft", folders=(ROOT / "themes/netloft",))
FAR = Contact(
    name="Importers of Candles and Household Goods Limited",
    address=("The Old Custom House", "112 North Quay Street", "Averness AV3 9QN", "United Kingdom"),
    email="responsible-person@importers.example",
    phone="+44 1632 960199",
)
LONG = replace(MAKER, gb_contact=FAR, eu_contact=replace(FAR, address=(*FAR.address[:3], "Ireland")))
WORDY = with_vessel(
    size(
        scent="Kelp, Driftwood and the Smoke of a Fire on the Shingle",
        size_name="Stoneware bowl with three wicks and a wooden lid",
        burn_hours=BurnHours(claim=17, low=17.2, mean=None, high=31.0, basis="untested"),
        hazards={"GB": SKIN_AND_EYES, "EU": SKIN_AND_EYES, "US": None},
        ufi="C23S-PQ2V-AMH9-VVRF",
    ),
    replace(VESSEL, lid=Lid(name="snug-fitting stoneware lid", snuffs=True)),
)

LABELLED = size(hazards={"GB": SKIN_AND_EYES, "EU": SKIN_AND_EYES, "US": None})
HEAVY = saying(
    SKIN_AND_EYES,
    pictograms=("GHS07", "GHS09"),
    h=("H317", "H411"),
    p=("P101", "P102", "P273", "P302+P352", "P333+P313", "P391", "P501"),
    named_substances=(
        "alpha-Isomethyl ionone", "alpha-Methyl-1,3-benzodioxole-5-propionaldehyde", "Benzyl salicylate",
        "Tetramethyl acetyloctahydronaphthalenes", "Linalool",
    ),
)  # fmt: skip
"""A longer label than any candle of the example shop carries."""

APART = replace(WORDY, facts=replace(WORDY.facts, hazards={"GB": NAMING, "EU": SKIN_AND_EYES, "US": None}))
TWICE_LABELLED = replace(
    WORDY, facts=replace(WORDY.facts, hazards={"GB": HEAVY, "EU": SKIN_AND_EYES, "US": None})
)
LABELLED_MELT = replace(MELT, facts=replace(MELT.facts, hazards=WORDY.facts.hazards))


SMALLEST_PT = 7


def laid_out(shop: House, document: Document, folder: Path) -> Path:
    """The sheet as a file, with the theme's styles beside it."""
    for path, data in theme_assets(THEME).items():
        place = folder / "site" / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
    place = folder / document.path
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_bytes(Templates(THEME).render(document, frame(shop)))
    return place


def pages_in(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(
    "one",
    [WORDY, APART, TWICE_LABELLED, MELT, LABELLED_MELT],
    ids=["long names", "two labels", "two longer labels", "a melt", "a melt with a label"],
)
def test_the_sheet_is_one_page(one: SizeOf, paper: str, page: "Page", tmp_path: Path) -> None:
    shop = house(one, maker=LONG)
    page.goto(laid_out(shop, safety_page(shop, one), tmp_path).as_uri())

    assert pages_in(page.pdf(format=paper)) == 1


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("one", [APART, TWICE_LABELLED], ids=["labels of the example shop", "longer labels"])
def test_a_superseded_sheet_is_one_page_with_its_notice_its_code_and_two_labels(
    one: SizeOf, paper: str, page: "Page", tmp_path: Path
) -> None:
    revisions = (issued_of(one, maker=LONG), issued_of(one, revision=2, maker=LONG))
    shop = with_issued(house(one, maker=LONG), *revisions)
    old, _ = issued_pages(shop, one)
    page.goto(laid_out(shop, old.made(), tmp_path).as_uri())

    printed = page.pdf(format=paper)

    parts = [page.locator(part).count() for part in (".superseded", ".qr svg", ".label")]
    assert parts == [1, 1, 2]
    assert pages_in(printed) == 1


def test_no_text_on_paper_is_smaller_than_seven_points(page: "Page", tmp_path: Path) -> None:
    shop = house(TWICE_LABELLED, maker=LONG)
    page.goto(laid_out(shop, safety_page(shop, TWICE_LABELLED), tmp_path).as_uri())
    page.emulate_media(media="print")

    sizes_pt = page.eval_on_selector_all(
        ".sheet :not(.stop-drawing, svg, svg *)",
        "parts => parts.map(one => parseFloat(getComputedStyle(one).fontSize) * 0.75)",
    )

    assert min(sizes_pt) >= SMALLEST_PT


def test_a_longer_text_would_be_noticed(page: "Page") -> None:
    page.set_content("<p>one</p><p style='break-before: page'>two</p>")

    assert pages_in(page.pdf(format="A4")) == 2


@pytest.mark.parametrize("width", [320, 768, 1440])
def test_the_sheet_never_scrolls_sideways(width: int, page: "Page", tmp_path: Path) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    shop = house(WORDY, maker=LONG)
    page.goto(laid_out(shop, safety_page(shop, WORDY), tmp_path).as_uri())

    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("language", ["de", "fr"])
@pytest.mark.parametrize("one", [LABELLED, MELT], ids=["candle", "melt"])
def test_in_other_languages_the_sheet_is_one_page_too_and_fits_a_small_screen(
    one: SizeOf, language: str, page: "Page", tmp_path: Path
) -> None:
    speaking = house(one, maker=replace(MAKER, language=language))
    shop = replace(speaking, speech=speech_in(language, words_of(language)))
    page.set_viewport_size({"width": 320, "height": 800})
    page.goto(laid_out(shop, safety_page(shop, one), tmp_path).as_uri())

    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert [pages_in(page.pdf(format=paper)) for paper in ("A4", "Letter")] == [1, 1]
