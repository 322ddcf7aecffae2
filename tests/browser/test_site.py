"""The example site in a real browser: quiet, complete, and readable on the smallest screen."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from generator.stories.asked import Asked
from generator.stories.build import build
from tests.conftest import EXAMPLE

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

KINDS = (
    "site/index.html",
    "site/collections/shoreline.html",
    "site/candles/slate-and-samphire.html",
    "site/candles/bare-comb.html",
    "site/safety/index.html",
    "site/safety/OS-3W.html",
    "site/safety/SS-SB.html",
    "site/find.html",
    "site/figures.html",
    "site/glossary.html",
    "site/about.html",
    "site/404.html",
    "site/safety/TW-30.html",
    "site/candles/quillfern.html",
    "workshop/index.html",
    "workshop/hazards/bracken.html",
    "workshop/trade.html",
)
"""One page of every kind, and every sort of candle that looks different."""


@pytest.fixture(name="output", scope="module")
def _output(tmp_path_factory: pytest.TempPathFactory) -> Path:
    output = tmp_path_factory.mktemp("output")
    built = build(Asked(content=EXAMPLE, output=output, as_of=None, as_data=False))
    assert built.laid is not None
    return output


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_is_quiet_and_asks_nobody_else_for_anything(kind: str, output: Path, page: "Page") -> None:
    messages: list[str] = []
    requests: list[str] = []
    page.on("console", lambda message: messages.append(message.text))
    page.on("pageerror", lambda error: messages.append(str(error)))
    page.on("requestfailed", lambda request: messages.append(f"failed: {request.url}"))
    page.on("request", lambda request: requests.append(request.url))

    page.goto((output / kind).as_uri())

    assert messages == []
    assert [url for url in requests if not url.startswith(output.as_uri())] == []


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("width", [320, 768, 1440])
def test_no_page_scrolls_sideways(kind: str, width: int, output: Path, page: "Page") -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto((output / kind).as_uri())

    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("kind", ["site/safety/OS-3W.html", "workshop/trade.html"])
def test_no_figure_of_a_table_is_out_of_view_on_a_small_screen(kind: str, output: Path, page: "Page") -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    page.goto((output / kind).as_uri())

    beyond = "cells => cells.filter(cell => cell.getBoundingClientRect().right > 360).length"
    assert page.eval_on_selector_all("td", beyond) == 0


def pages_in(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


@pytest.mark.parametrize(
    ("kind", "most"),
    [("site/candles/slate-and-samphire.html", 3), ("site/index.html", 5)],
    ids=["candle", "home"],
)
def test_a_page_wastes_no_paper(kind: str, most: int, output: Path, page: "Page") -> None:
    page.goto((output / kind).as_uri())

    assert pages_in(page.pdf(format="Letter")) <= most


def test_shelves_are_filled_from_left_to_right(output: Path, page: "Page") -> None:
    """On a wide screen, four scents of a shelf of four stand side by side."""
    page.set_viewport_size({"width": 1440, "height": 900})
    page.goto((output / "site/index.html").as_uri())

    heights = "pieces => new Set(pieces.map(piece => piece.getBoundingClientRect().top)).size"
    assert page.eval_on_selector_all("section[aria-labelledby=the-loft] .piece", heights) == 1


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_says_the_same_without_script(kind: str, output: Path, browser: "Browser") -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((output / kind).as_uri())
    seen = "".join(page.inner_text("body").split()).lower()
    context.close()

    written = BeautifulSoup((output / kind).read_bytes(), "html.parser").find_all(["h1", "h2", "h3"])
    assert written
    assert [text for heading in written if (text := "".join(heading.text.split()).lower()) not in seen] == []


def test_narrowing_leaves_what_was_asked_for_and_keeps_it_in_the_address(output: Path, page: "Page") -> None:
    page.goto((output / "site/index.html").as_uri())
    box = page.locator("input[type=search], input[type=text]").first
    box.fill("samphire")
    page.wait_for_timeout(300)
    shown = [text for text in page.locator("h3").all_inner_texts() if text.strip()]
    visible = [heading for heading in page.locator("h3").all() if heading.is_visible()]

    assert "Slate & Samphire" in shown
    assert [heading.inner_text() for heading in visible] == ["Slate & Samphire"]
    assert "samphire" in page.url
