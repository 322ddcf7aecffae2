"""Pages printed from a browser, on both sides of the Atlantic: as many sheets of paper as we promise."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.whole_shop import Printed

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

PAPERS = ("A4", "Letter")
MOST_PAGES = {
    "home": 5,
    "collection": 3,
    "candle": 3,
    "all sheets": 2,
    "recall": 1,
    "for shops": 1,
    "not found": 1,
    "trade": 2,
}
"""On the paper that takes more. (CHOICE)"""


def pages_in(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def is_of_its_own(path: Path) -> bool:
    """Most first revisions are printed like the page that shows them as the sheet in force."""
    return not path.stem.endswith("-r1") or any(
        mark in path.read_bytes() for mark in (b'class="superseded"', b'class="recall"')
    )


def test_every_burn_safety_sheet_is_one_page(printed: Printed, page: "Page") -> None:
    sheets = [path for path in sorted(printed.output.glob("site/safety/*.html")) if path.stem != "index"]
    drafts = sorted(printed.output.glob("workshop/drafts/*.html"))
    counted = {}
    for path in (*(path for path in sheets if is_of_its_own(path)), *drafts):
        page.goto(path.as_uri())
        counted[path.relative_to(printed.output).as_posix()] = [
            pages_in(page.pdf(format=paper)) for paper in PAPERS
        ]

    assert len(counted) > 50
    assert {name: pages for name, pages in counted.items() if pages != [1, 1]} == {}


@pytest.mark.parametrize("kind", MOST_PAGES)
def test_a_page_wastes_no_paper(kind: str, printed: Printed, page: "Page") -> None:
    page.goto(printed.page(kind).as_uri())

    assert max(pages_in(page.pdf(format=paper)) for paper in PAPERS) <= MOST_PAGES[kind]
