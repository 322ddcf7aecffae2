"""Every kind of page in a real browser, in both themes: quiet, complete, and readable on the smallest screen."""

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from tests.browser.whole_shop import KINDS, Printed

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

SHIFTS = """
  window.shifted = 0;
  new PerformanceObserver((list) => { for (const one of list.getEntries()) window.shifted += one.value; })
    .observe({ type: "layout-shift", buffered: true });
"""
FOCUSABLE = """() => [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex='0']")]
  .filter((one) => one.checkVisibility({ visibilityProperty: true }) && !one.disabled)
  .map((one, number) => { one.dataset.stop = number; return one; }).length
"""
AT_STOP = """() => {
  const one = document.activeElement, style = getComputedStyle(one), place = one.getBoundingClientRect();
  const seen = place.bottom > 0 && place.right > 0 && place.top < innerHeight && place.left < innerWidth;
  const ring = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 1;
  return { stop: Number(one.dataset.stop), shown: seen && ring, html: one.outerHTML.slice(0, 90) };
}"""


def plain(text: str) -> str:
    """A heading without what styles do to its letters and spaces."""
    return "".join(text.split()).lower()


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_is_quiet_and_asks_nobody_else_for_anything(kind: str, printed: Printed, page: "Page") -> None:
    messages: list[str] = []
    requests: list[str] = []
    page.on("console", lambda message: messages.append(message.text))
    page.on("pageerror", lambda error: messages.append(str(error)))
    page.on("requestfailed", lambda request: messages.append(f"failed: {request.url}"))
    page.on("request", lambda request: requests.append(request.url))

    page.goto(printed.page(kind).as_uri())

    ours = (printed.output.as_uri(), "data:")
    assert messages == []
    assert [url for url in requests if not url.startswith(ours)] == []


@pytest.mark.parametrize("kind", KINDS)
def test_no_page_scrolls_sideways(kind: str, printed: Printed, page: "Page") -> None:
    widths = {}
    page.goto(printed.page(kind).as_uri())
    for width in (320, 768, 1440):
        page.set_viewport_size({"width": width, "height": 800})
        widths[width] = page.evaluate("document.documentElement.scrollWidth")

    assert {width: wide for width, wide in widths.items() if wide > width} == {}


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_moves_while_a_page_loads_and_is_scrolled(kind: str, printed: Printed, page: "Page") -> None:
    page.add_init_script(SHIFTS)
    page.goto(printed.page(kind).as_uri())
    for _ in range(4):
        page.mouse.wheel(0, 900)
        page.wait_for_timeout(30)

    assert page.evaluate("window.shifted") == 0


@pytest.mark.parametrize("kind", KINDS)
def test_the_keyboard_reaches_everything_in_order_and_shows_where_it_is(
    kind: str, printed: Printed, page: "Page"
) -> None:
    """WCAG 2.2, success criteria 2.1.1, 2.1.2, 2.4.3 and 2.4.7. (MEMORY)"""
    page.goto(printed.page(kind).as_uri())
    expected = list(range(page.evaluate(FOCUSABLE)))

    stops = []
    for _ in expected:
        page.keyboard.press("Tab")
        stops.append(page.evaluate(AT_STOP))

    assert [stop["stop"] for stop in stops] == expected
    assert [stop["html"] for stop in stops if not stop["shown"]] == []


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_says_the_same_without_script(kind: str, printed: Printed, browser: "Browser") -> None:
    path = printed.page(kind)
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(path.as_uri())
    seen = {plain(text) for text in page.locator("h1:visible, h2:visible, h3:visible").all_text_contents()}
    context.close()

    written = BeautifulSoup(path.read_bytes(), "html.parser").find_all(["h1", "h2", "h3"])
    assert written
    assert {plain(heading.text) for heading in written} - seen == set()


@pytest.mark.parametrize("kind", ["candle", "figures", "home"])
def test_a_page_says_the_same_without_pictures(kind: str, printed: Printed, browser: "Browser") -> None:
    """The words of a picture stand in its place, and none of the page's own are missing."""
    path, said = printed.page(kind), []
    for shown in (True, False):
        context = browser.new_context()
        if not shown:
            context.route(
                "**/*",
                lambda route: route.abort() if route.request.resource_type == "image" else route.continue_(),
            )
        page = context.new_page()
        page.goto(path.as_uri())
        said.append(page.inner_text("body"))
        alternatives = page.eval_on_selector_all("img", "pictures => pictures.map((one) => one.alt.length)")
        context.close()

    assert said[0] == said[1]
    assert 0 not in alternatives


@pytest.mark.parametrize("kind", ["sheet of three wicks", "trade"])
def test_no_figure_of_a_table_is_out_of_view_on_a_small_screen(
    kind: str, printed: Printed, page: "Page"
) -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    page.goto(printed.page(kind).as_uri())

    beyond = "cells => cells.filter(cell => cell.getBoundingClientRect().right > 360).length"
    assert page.eval_on_selector_all("td", beyond) == 0


def test_shelves_are_filled_from_left_to_right(whole: Callable[[str], Printed], page: "Page") -> None:
    """On a wide screen, four scents of a shelf of four stand side by side."""
    page.set_viewport_size({"width": 1440, "height": 900})
    page.goto(whole("netloft").page("home").as_uri())

    heights = "pieces => new Set(pieces.map(piece => piece.getBoundingClientRect().top)).size"
    assert page.eval_on_selector_all("section[aria-labelledby=the-loft] .piece", heights) == 1


def test_a_list_has_one_column(whole: Callable[[str], Printed], page: "Page") -> None:
    page.set_viewport_size({"width": 1440, "height": 900})
    page.goto(whole("ledger").page("home").as_uri())

    edges = "pieces => new Set(pieces.map(piece => piece.getBoundingClientRect().left)).size"
    assert page.eval_on_selector_all(".piece", edges) == 1


def test_narrowing_leaves_what_was_asked_for_and_keeps_it_in_the_address(
    printed: Printed, page: "Page"
) -> None:
    page.goto(printed.page("home").as_uri())

    page.fill("#find", "samphire")

    page.wait_for_function("new URLSearchParams(location.search).get('find') === 'samphire'")
    visible = [heading.inner_text() for heading in page.locator("h3").all() if heading.is_visible()]
    assert visible == ["Slate & Samphire"]
