"""The burn-safety sheets to print, as the site offers them."""

from pathlib import Path

import pytest

from tests.conftest import EXAMPLE
from tests.site.paper_tools import codes_of, is_tagged, page_sizes_mm, tags_of, text_of

PRIVATE = ("g/ml", "Pays late", "One shelf by the till", "% of wax", "% of total", "4.10", "An Seomra")
"""Words of densities, notes, shares, prices of material and buyers, none of which a public paper may hold."""


ISSUED = sum(
    ledger.read_text(encoding="utf-8").count("\n- revision: ")
    for ledger in (EXAMPLE / "sheets").glob("*.yaml")
)
"""Revisions in the ledgers of the example shop."""


@pytest.fixture(name="site")
def _site(built_example: Path) -> Path:
    return built_example / "site"


@pytest.mark.parametrize(("paper", "size"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_every_issued_sheet_is_one_page_of_its_paper(
    site: Path, paper: str, size: tuple[float, float]
) -> None:
    sheets = sorted((site / "safety").glob(f"*-{paper}.pdf"))

    assert len(sheets) == ISSUED
    assert {sheet.name: page_sizes_mm(sheet) for sheet in sheets} == {sheet.name: [size] for sheet in sheets}


def test_a_sheet_reads_from_the_warning_to_its_revision(site: Path) -> None:
    text = text_of(site / "safety" / "SS-30-r2-a4.pdf")

    marks = (
        "Slate & Samphire",
        "WARNING",
        "This candle’s figures",
        "Every time",
        "Hazards",
        "If it flares",
        "Made by",
    )
    assert [text.index(mark) for mark in marks] == sorted(text.index(mark) for mark in marks)


def test_the_code_of_a_sheet_leads_to_its_own_revision(site: Path) -> None:
    assert codes_of(site / "safety" / "SS-30-r1-a4.pdf") == ["https://quillfern.example/safety/SS-30-r1.html"]


def test_a_sheet_is_tagged_with_headings_lists_and_its_table(site: Path) -> None:
    sheet = site / "safety" / "SS-30-r1-a4.pdf"

    assert is_tagged(sheet)
    assert {"H1", "H2", "Table", "TH", "L", "Figure"} <= set(tags_of(sheet))


def test_the_page_links_the_sheet_to_print(site: Path) -> None:
    page = (site / "safety" / "SS-30.html").read_text(encoding="utf-8")

    assert "SS-30-r2-a4.pdf" in page
    assert "SS-30-r2-letter.pdf" in page


def test_no_printed_sheet_holds_what_is_private(site: Path) -> None:
    said = {sheet.name: text_of(sheet) for sheet in site.rglob("*-a4.pdf")}

    assert len(said) == ISSUED
    assert [(name, word) for name, text in said.items() for word in PRIVATE if word in text] == []
