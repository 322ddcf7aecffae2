"""A real browser, the example shop printed in both themes, and the tools that judge pages."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import pytest

from tests.browser.whole_shop import THEMES, Printed, printed_in
from tests.conftest import once

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
PAGE_TOOLS = "WICKWRIGHT_PAGE_TOOLS"
"""Names the folder that holds RFC 4287 and node_modules with `JUDGES`; `.ci/run` fills it."""

JUDGES = ("axe-core", "vnu-jar", "css-tree", "sitemap")


def _is_missing(told: str) -> NoReturn:
    """A test is skipped where its tool is missing, unless the surroundings say that it must be there."""
    if os.environ.get("CI") == "true" or os.environ.get("WICKWRIGHT_BROWSER") == "required":
        pytest.fail(told)
    pytest.skip(told)


@pytest.fixture(name="browser", scope="session")
def _browser() -> "Iterator[Browser]":
    """The computer's own Chromium."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        chromium = None
    if chromium is None:
        _is_missing("no browser: install the extra 'browser' and Chromium to run these tests")
    with sync_playwright() as browsers:
        browser = browsers.chromium.launch(executable_path=chromium, args=list(ARGUMENTS))
        yield browser
        browser.close()


@pytest.fixture(name="page")
def _page(browser: "Browser") -> "Iterator[Page]":
    page = browser.new_page()
    yield page
    page.close()


@pytest.fixture(name="whole", scope="session")
def _whole(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Printed]:
    """Prints the whole shop in a theme, once for all tests."""

    def make(folder: Path) -> None:
        (folder / "link").write_text(printed_in(folder.name, folder).link, encoding="utf-8")

    def printed(theme: str) -> Printed:
        folder = once(tmp_path_factory, theme, make)
        link = (folder / "link").read_text(encoding="utf-8")
        return Printed(theme=theme, output=folder / "output", link=link)

    return printed


@pytest.fixture(name="printed", params=THEMES)
def _printed(request: pytest.FixtureRequest, whole: Callable[[str], Printed]) -> Printed:
    """The whole shop, printed in each theme in turn."""
    return whole(request.param)


@pytest.fixture(name="tools", scope="session")
def _tools() -> Path:
    """The folder of the tools that judge pages."""
    folder = Path(os.environ.get(PAGE_TOOLS, ""), "node_modules").resolve()
    if not os.environ.get(PAGE_TOOLS) or not all((folder / one).is_dir() for one in JUDGES):
        _is_missing(f"no page tools: name the folder with {', '.join(JUDGES)} in {PAGE_TOOLS}")
    return folder


@pytest.fixture(name="rfc_4287", scope="session")
def _rfc_4287(tools: Path) -> Path:
    """The standard of feeds, its text packed."""
    text = tools.parent / "rfc4287.txt.gz"
    if not text.is_file():
        _is_missing(f"no rfc4287.txt.gz in the folder that {PAGE_TOOLS} names: it holds the schema of feeds")
    return text


@pytest.fixture(name="run", scope="session")
def _run() -> Callable[[str], str]:
    """The path of an installed program, e.g. of node."""

    def path_of(program: str) -> str:
        return shutil.which(program) or _is_missing(f"no {program}: install it to run these tests")

    return path_of
