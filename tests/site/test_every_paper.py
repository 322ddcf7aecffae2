"""Labels and sheets of every stock code of the example shop, measured, read back and looked into."""

from pathlib import Path

import pytest

from generator.cli import main
from tests.conftest import EXAMPLE
from tests.site.paper_tools import Box, codes_of, is_tagged, page_sizes_mm, paths_mm, tags_of, text_of

pytestmark = pytest.mark.thorough

CODES = sorted(path.stem for path in (EXAMPLE / "sheets").glob("*.yaml"))
LABELLED = [code for code in CODES if code != "HF-TG"]
"""The sheet of HF-TG has changed since it was issued."""


def in_force(code: str) -> int:
    """The number of the last revision in its ledger."""
    ledger = (EXAMPLE / "sheets" / f"{code}.yaml").read_text(encoding="utf-8")
    return ledger.count("\n- revision: ")


FIRST: Box = (4.6, 8.8, 99.1, 93.1)
WITHIN_MM = 0.1


def sheet_of_labels(output: Path, code: str, market: str, kind: str) -> Path:
    # The example's maker has no UFI, so classified candles get a proof for the EU.
    how = ("--outlines", "--blank-lot", "--incomplete")
    stock = ("--stock", "box-99x93-a4", "--kind", kind, "--market", market, *how)
    shop = ("--content", str(EXAMPLE), "--output", str(output))
    assert main(["papers", "labels", f"{code}=1", *stock, *shop]) == 0
    return output / "workshop" / "papers" / "labels" / f"{kind}-{market}-box-99x93-a4.pdf"


@pytest.mark.parametrize("market", ["GB", "EU", "US"])
@pytest.mark.parametrize("code", LABELLED)
def test_a_warning_label_lies_at_its_place_is_tagged_and_leads_to_its_sheet(
    warm_output: Path, code: str, market: str
) -> None:
    paper = sheet_of_labels(warm_output, code, market, "warning")

    assert [box for box in paths_mm(paper) if box[2] > 95] == [pytest.approx(FIRST, abs=WITHIN_MM)]
    assert codes_of(paper) == [f"https://quillfern.example/safety/{code}-r{in_force(code)}.html"]
    assert is_tagged(paper)
    assert {"H1", "P", "Figure"} <= set(tags_of(paper))


@pytest.mark.parametrize("market", ["GB", "US"])
@pytest.mark.parametrize("code", LABELLED)
def test_a_front_lies_at_its_place_and_is_tagged(warm_output: Path, code: str, market: str) -> None:
    paper = sheet_of_labels(warm_output, code, market, "product")

    assert [box for box in paths_mm(paper) if box[2] > 95] == [pytest.approx(FIRST, abs=WITHIN_MM)]
    assert is_tagged(paper)
    assert {"H1", "P"} <= set(tags_of(paper))


@pytest.mark.parametrize(("paper", "size"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
@pytest.mark.parametrize("code", CODES)
def test_a_sheet_is_one_page_in_order_tagged_and_leads_to_itself(
    built_example: Path, code: str, paper: str, size: tuple[float, float]
) -> None:
    number = in_force(code)
    sheet = built_example / "site" / "safety" / f"{code}-r{number}-{paper}.pdf"
    text = text_of(sheet)

    marks = ("WARNING", "Every time you", "Hazards", "Emergency", f"Revision {number}")
    assert page_sizes_mm(sheet) == [size]
    assert [text.index(mark) for mark in marks] == sorted(text.index(mark) for mark in marks)
    assert codes_of(sheet) == [f"https://quillfern.example/safety/{code}-r{number}.html"]
    assert {"H1", "H2", "L", "LI", "Figure"} <= set(tags_of(sheet))
