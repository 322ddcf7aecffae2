"""The end of the story of a changed gram: each buyer is led to the sheet that her own candle was sold with."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from generator.commands import build, lots_add
from generator.commands.lots_add import Pour
from generator.making.options import CommandOptions
from tests.site.story import CODE, NEW, OLD, add_a_gram, issue_again, issued_in

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

OLD_LOT, NEW_LOT = "QF-30-2026305-T4RD", "QF-30-2026319-K7QX"
LATER = date(2026, 11, 15)
PATIENCE_MS = 5000


def pour(asked: CommandOptions, lot: str) -> None:
    assert lots_add.run(asked, Pour(stock_code=CODE, made=24, poured_on=asked.as_of, code=lot)) == 0


def sheet_of(page: "Page", site: Path, lot: str) -> tuple[str, str]:
    """Where the look-up leads with a lot code, and what stands there."""
    page.goto((site / "find.html").as_uri())
    page.get_by_label("Lot code").fill(lot)
    page.get_by_role("button", name="Find my sheet").click()
    page.wait_for_url(f"{site.as_uri()}/safety/*", timeout=PATIENCE_MS)
    return page.url.removeprefix(f"{site.as_uri()}/"), page.inner_text("main")


def test_after_a_changed_gram_an_old_and_a_new_lot_lead_to_their_own_sheets(
    page: "Page", tmp_path: Path
) -> None:
    asked = issued_in(tmp_path)
    pour(asked, OLD_LOT)
    add_a_gram(asked)
    later = replace(asked, as_of=LATER)
    issue_again(later)
    pour(later, NEW_LOT)
    assert build.run(later) == 0

    (old, old_says), (new, new_says) = (
        sheet_of(page, asked.output / "site", lot) for lot in (OLD_LOT, NEW_LOT)
    )

    assert (old, new) == (OLD, NEW)
    assert "Revision 1 of this sheet has been superseded." in old_says
    assert "about 38 hours (early test)" in old_says
    assert "superseded" not in new_says
    assert "about 25 hours" in new_says
