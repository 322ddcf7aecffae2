"""The example shop: a candle's page and its burn-safety sheet say the same, and every size goes by one name."""

import shutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from generator.commands.build import build
from generator.making.options import CommandOptions
from tests.conftest import EXAMPLE


@pytest.fixture(name="site", scope="module")
def _site(tmp_path_factory: pytest.TempPathFactory, built_example: Path) -> Iterator[Path]:
    """The example shop, built with drafts; its photos and papers are those of the build without."""
    output = tmp_path_factory.mktemp("output")
    shutil.copytree(built_example / ".store", output / ".store")
    assert (
        build(CommandOptions(content=EXAMPLE, output=output, as_of=None, as_data=False, drafts=True)).laid
        is not None
    )
    yield output / "site"
    read.cache_clear()


@cache
def read(path: Path) -> BeautifulSoup:
    """A page of the site; it is read by several tests and altered by none."""
    return BeautifulSoup(path.read_bytes(), "html.parser")


def part(of: Tag, selector: str) -> Tag:
    """The first part of a page that is called so."""
    found = of.select_one(selector)
    assert found is not None, selector
    return found


def panels(site: Path) -> Iterator[tuple[str, Tag]]:
    """Every stock code with its panel on its candle's page."""
    for path in sorted((site / "candles").glob("*.html")):
        for panel in read(path).select(".panel"):
            yield str(panel["id"]).removeprefix("size-"), panel


def test_page_and_sheet_tell_one_longest_burn_and_one_first_burn(site: Path) -> None:
    burning = {code: panel for code, panel in panels(site) if panel.select_one(".first-burn")}
    sheets = {code: read(site / "safety" / f"{code}.html") for code in burning}

    on_pages = {
        code: (
            part(panel, ".longest_session dd").text,
            part(panel, ".first-burn").text.split(": ")[1],
        )
        for code, panel in burning.items()
    }
    on_sheets = {
        code: (part(sheet, ".own dd").text, part(sheet, ".own .lesser").text.split(": ")[1])
        for code, sheet in sheets.items()
    }
    assert len(burning) > 20
    assert [code for code in burning if on_pages[code][0] != on_sheets[code][0]] == []
    assert [code for code in burning if not on_sheets[code][1].startswith(on_pages[code][1])] == []


def test_page_and_sheet_call_a_size_by_the_name_of_its_format(site: Path) -> None:
    on_pages = {code: part(panel, "h3").text for code, panel in panels(site)}
    on_sheets = {
        code: part(read(site / "safety" / f"{code}.html"), ".which").text.split(f" {code}")[0].strip()
        for code in on_pages
    }

    assert on_sheets == on_pages
    assert on_pages["SS-SB"] == "Melts, snap bar"


def test_only_the_pages_of_burn_safety_carry_the_draft_line(site: Path) -> None:
    drafted = {
        path.relative_to(site).parts[0] for path in site.rglob("*.html") if read(path).select(".draft")
    }

    assert drafted == {"safety"}


@pytest.mark.parametrize(
    "page", ["index.html", "candles/quillfern.html", "safety/QF-30.html", "figures.html"]
)
def test_a_page_names_its_own_address_and_the_news_and_has_an_icon(page: str, site: Path) -> None:
    links = {link["rel"][0]: str(link["href"]) for link in read(site / page).select("head link")}

    assert links["canonical"].endswith(f".example/{page}")
    assert (site / page).parent.joinpath(links["alternate"]).resolve() == (site / "feed.xml").resolve()
    assert links["icon"].startswith("data:image/svg+xml,")


def test_the_page_for_unknown_addresses_can_be_shared(site: Path) -> None:
    title = part(read(site / "404.html"), "meta[property='og:title']")

    assert title["content"] == "Page not found"


def test_landmarks_have_names_of_their_own(site: Path) -> None:
    sheet = read(site / "safety/QF-30.html")

    named = [part["aria-labelledby"] for part in sheet.select("section[aria-labelledby], [role=region]")]
    assert sorted(named) == sorted(set(named))
    assert sheet.select("main .draft")


def test_the_small_figures_say_where_they_come_from(site: Path) -> None:
    page = read(site / "candles/quillfern.html")

    names = [line.text.split(" = ")[0] for line in page.select(".formula")]
    assert "spread of the rate" in names
    assert part(page, ".worked-out .quiet a")["href"] == "../figures.html"


def test_styles_scripts_and_candle_pages_stay_small(site: Path) -> None:
    weigh = {kind: sum(p.stat().st_size for p in site.rglob(f"*.{kind}")) for kind in ("css", "js")}

    assert weigh["css"] < 24 * 1024
    assert weigh["js"] < 12 * 1024
    assert max(path.stat().st_size for path in (site / "candles").glob("*.html")) < 60 * 1024


@pytest.mark.parametrize(
    ("candle", "expected"),
    [("slate-and-samphire", "Declared, in grams"), ("low-water", "Rounded down, in grams")],
    ids=["proven", "estimated"],
)
def test_only_a_proven_weight_is_called_declared(candle: str, expected: str, site: Path) -> None:
    first = part(read(site / f"candles/{candle}.html"), "details")

    labels = [label.text for label in first.select(".result strong")]
    assert [label for label in labels if label.endswith(", in grams")] == [expected]


def test_hours_of_an_untested_candle_promise_no_least(site: Path) -> None:
    labels = {label.text for label in read(site / "candles/low-water.html").select(".result strong")}

    assert "Burn hours without a test" in labels
    assert [label for label in labels if "at least" in label] == []
