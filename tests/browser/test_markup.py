"""Every page in both themes by the rules of HTML and CSS, and every way through the site leads somewhere."""

import itertools
import json
import re
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urljoin, urlsplit

import pytest
from bs4 import BeautifulSoup, Tag

from tests.browser.whole_shop import THEMES, Printed

pytestmark = pytest.mark.browser

DATA = 'type="application/octet-stream"'
"""No browser runs such a script, so no policy stops it; the checker warns of it as of one that is run."""

CHECK_STYLES = Path(__file__).with_name("check_styles.mjs")
MOST_STYLES = 24 * 1024
MOST_SCRIPT = 12 * 1024
MOST_OF_A_CANDLE = 60 * 1024
"""What the look of the site promises. (CHOICE)"""
CARRIERS = ("href", "src", "srcset", "poster", "data")


def soup(path: Path) -> BeautifulSoup:
    return BeautifulSoup(path.read_bytes(), "html.parser")


def told_by_the_checker(tools: Path, run: Callable[[str], str], *paths: Path) -> list[str]:
    """Every error and every warning of the Nu HTML checker."""
    jar = tools / "vnu-jar" / "build" / "dist" / "vnu.jar"
    command = [
        run("java"),
        "-Xmx512m",
        "-jar",
        str(jar),
        "--format",
        "json",
        "--skip-non-html",
        *map(str, paths),
    ]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    messages: list[dict[str, Any]] = json.loads(done.stderr)["messages"]
    warned = (one for one in messages if one["type"] != "info" or one.get("subType") == "warning")
    told = [one for one in warned if DATA not in one.get("extract", "")]
    return [f"{one.get('url')}:{one.get('lastLine')}: {one['message']}" for one in told]


def told_of_styles(tools: Path, run: Callable[[str], str], styles: list[dict[str, str]]) -> list[str]:
    """Every fault that the CSS grammar finds."""
    command = [run("node"), str(CHECK_STYLES), str(tools)]
    done = subprocess.run(command, input=json.dumps(styles), capture_output=True, text=True, check=True)
    return list(json.loads(done.stdout))


def styles_of(printed: Printed) -> list[dict[str, str]]:
    """Each style sheet and each style within a page or on an element, once."""
    files = {path.read_text(encoding="utf-8"): path.name for path in printed.output.rglob("*.css")}
    pages = {path: soup(path) for path in printed.pages()}
    within = {style.text: path.name for path, page in pages.items() for style in page.find_all("style")}
    on_elements = {
        f"x {{{element['style']}}}": path.name
        for path, page in pages.items()
        for element in page.select("[style]")
    }
    return [{"name": name, "text": text} for text, name in {**files, **within, **on_elements}.items()]


def test_the_checker_of_html_has_nothing_to_say(
    whole: Callable[[str], Printed], tools: Path, run: Callable[[str], str]
) -> None:
    outputs = [whole(theme).output / part for theme in THEMES for part in ("site", "workshop")]

    assert told_by_the_checker(tools, run, *outputs) == []


def test_a_fault_of_html_would_be_noticed(tools: Path, run: Callable[[str], str], tmp_path: Path) -> None:
    (tmp_path / "x.html").write_text(
        "<!doctype html><html lang=en><title>x</title><p><div></p>", encoding="utf-8"
    )

    assert told_by_the_checker(tools, run, tmp_path) != []


def test_every_style_is_css(printed: Printed, tools: Path, run: Callable[[str], str]) -> None:
    styles = styles_of(printed)

    assert len(styles) > 15
    assert told_of_styles(tools, run, styles) == []


@pytest.mark.parametrize(
    "text",
    ["a { colr: red }", "a { color: 12px }", "a { colr: var(--x) }", "@media print { a { margin: red } }"],
)
def test_a_fault_of_css_would_be_noticed(text: str, tools: Path, run: Callable[[str], str]) -> None:
    assert len(told_of_styles(tools, run, [{"name": "x.css", "text": text}])) == 1


def out_of_order(page: BeautifulSoup) -> list[str]:
    """Headings that skip a level, and every first heading but one."""
    levels = [int(heading.name[1]) for heading in page.find_all(["h1", "h2", "h3", "h4", "h5", "h6"])]
    skipped = [f"h{two} after h{one}" for one, two in itertools.pairwise(levels) if two > one + 1]
    return skipped + ([] if levels[:1] == [1] and levels.count(1) == 1 else [f"levels {levels}"])


def test_headings_are_in_order(printed: Printed) -> None:
    told = {path.name: wrong for path in printed.pages() if (wrong := out_of_order(soup(path)))}

    assert told == {}


def test_headings_out_of_order_would_be_noticed() -> None:
    assert out_of_order(BeautifulSoup("<h1>a</h1><h3>b</h3>", "html.parser")) == ["h3 after h1"]
    assert out_of_order(BeautifulSoup("<h2>a</h2>", "html.parser")) == ["levels [2]"]


def test_every_page_brings_its_icon(printed: Printed) -> None:
    """A browser asks the host for one that no page names, and is told that it is missing."""
    without = [
        path.name for path in printed.pages() if not soup(path).select("link[rel=icon][href^='data:']")
    ]

    assert without == []


def addresses(page: BeautifulSoup) -> Iterator[str]:
    """Everything a page leads to or fetches."""
    for element in page.find_all(True):
        for carrier in CARRIERS:
            written = str(element.get(carrier, ""))
            if carrier == "srcset":
                yield from (one.split()[0] for one in written.split(",") if one.strip())
            elif written:
                yield written


def leads_nowhere(path: Path, address: str, anchors: dict[Path, set[str]]) -> bool:
    """Whether an address of this site has no file behind it, or its file no such place."""
    target = urlsplit(urljoin(path.as_uri(), address))
    if (
        target.scheme in ("mailto", "data") or target.netloc
    ):  # Whether somebody else's page is there, nobody can promise.
        return False
    file = Path(unquote(target.path))
    if not file.is_file():
        return True
    return bool(target.fragment) and file in anchors and unquote(target.fragment) not in anchors[file]


def test_every_link_and_every_anchor_leads_somewhere(printed: Printed) -> None:
    pages = {path: soup(path) for path in printed.pages()}
    anchors = {path: {str(one["id"]) for one in page.select("[id]")} for path, page in pages.items()}

    lost = [
        f"{path.relative_to(printed.output)}: {address}"
        for path, page in pages.items()
        for address in addresses(page)
        if not address.startswith("https://quillfern.example/")
        and not _opens_a_seal(path, address)
        and leads_nowhere(path, address, anchors)
    ]

    assert lost == []


def _opens_a_seal(path: Path, address: str) -> bool:
    """A buyer's link on the workshop's list carries its key where others name a place; its file must be there."""
    return path.name == "links.html" and (path.parent / address.partition("#")[0]).is_file()


def test_every_address_that_names_the_web_site_has_its_file(printed: Printed) -> None:
    web = "https://quillfern.example/"
    pages = {path: soup(path) for path in printed.pages()}
    whole = {address for page in pages.values() for address in addresses(page) if address.startswith(web)}
    texts = [
        (printed.output / "site" / name).read_text(encoding="utf-8") for name in ("feed.xml", "sitemap.xml")
    ]
    whole |= {address for text in texts for address in re.findall(rf"{web}[^<\"&\s]*", text)}

    paths = {unquote(urlsplit(address).path).removeprefix("/") or "index.html" for address in whole}

    assert len(paths) > 60
    assert [path for path in sorted(paths) if not (printed.output / "site" / path).is_file()] == []


def weight(path: Path, page: BeautifulSoup, kind: str, link: str) -> int:
    """The bytes of one kind that a page brings, in its files and within it."""
    files = [path.parent / str(one.get("href") or one.get("src")) for one in page.select(link)]
    within = [one.text for one in page.find_all(kind) if isinstance(one, Tag) and one.get("type") is None]
    return sum(file.stat().st_size for file in files) + sum(len(text.encode()) for text in within)


def test_styles_and_scripts_of_every_page_stay_small(printed: Printed) -> None:
    heavy = {}
    for path in printed.pages():
        page = soup(path)
        styles = weight(path, page, "style", "link[rel=stylesheet]")
        script = weight(path, page, "script", "script[src]")
        if styles >= MOST_STYLES or script >= MOST_SCRIPT:
            heavy[path.name] = (styles, script)

    assert heavy == {}


def test_a_candle_page_stays_small(printed: Printed) -> None:
    candles = list(printed.output.glob("site/candles/*.html"))

    assert len(candles) == 15
    assert {
        path.name: path.stat().st_size for path in candles if path.stat().st_size >= MOST_OF_A_CANDLE
    } == {}
