"""Every kind of page judged by axe-core, by the rules of the WCAG, on a small light and a wide dark screen."""

from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest

from tests.browser.whole_shop import KINDS, Printed

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

SCREENS: tuple[tuple[int, Literal["light", "dark"]], ...] = ((390, "light"), (1280, "dark"))
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
JUDGE = """async (rules) => {
  const { violations, passes } = await axe.run({ runOnly: { type: "tag", values: rules } });
  const told = violations.flatMap((one) => one.nodes.map((node) => `${one.id}: ${node.target} ${node.failureSummary}`));
  return { told, passed: passes.length };
}"""
PATIENCE_MS = 5000


@pytest.fixture(name="axe", scope="session")
def _axe(tools: Path) -> str:
    """The checker's own script."""
    return (tools / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


def judged(page: "Page", axe: str) -> list[str]:
    """What a page does wrong; a page of which nothing was judged is wrong as well."""
    page.evaluate(axe)
    verdict = page.evaluate(JUDGE, RULES)
    assert verdict["passed"] > 5
    return list(verdict["told"])


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_breaks_no_rule_of_accessibility(
    kind: str, printed: Printed, browser: "Browser", axe: str
) -> None:
    told = []
    for width, scheme in SCREENS:
        context = browser.new_context(
            bypass_csp=True, viewport={"width": width, "height": 900}, color_scheme=scheme
        )
        page = context.new_page()
        page.goto(printed.page(kind).as_uri())
        told += judged(page, axe)
        context.close()

    assert told == []


@pytest.mark.parametrize(("width", "scheme"), SCREENS, ids=["small and light", "wide and dark"])
def test_an_opened_price_sheet_breaks_no_rule_of_accessibility(
    width: int, scheme: Literal["light", "dark"], printed: Printed, browser: "Browser", axe: str
) -> None:
    context = browser.new_context(
        bypass_csp=True, viewport={"width": width, "height": 900}, color_scheme=scheme
    )
    page = context.new_page()
    page.goto(f"{(printed.output / 'site').as_uri()}/{printed.link}")
    page.get_by_role("heading", name="The Lamp Room").wait_for(timeout=PATIENCE_MS)

    told = judged(page, axe)
    context.close()

    assert told == []


def test_unfolded_derivations_and_ways_to_narrow_break_none_either(
    printed: Printed, page: "Page", axe: str
) -> None:
    told = []
    for kind in ("home", "candle"):
        page.goto(printed.page(kind).as_uri())
        page.eval_on_selector_all("details", "all => all.forEach((one) => { one.open = true; })")
        told += judged(page, axe)

    assert told == []


def test_a_broken_rule_would_be_noticed(page: "Page", axe: str) -> None:
    page.set_content(
        "<html lang=en><title>x</title><main><h1>A</h1><p style='color:#999'>grey</p><img src=x></main>"
    )

    told = judged(page, axe)

    assert {line.partition(":")[0] for line in told} == {"color-contrast", "image-alt"}
