"""A real browser for the tests that need one: the computer's own Chromium."""

import os
import shutil
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

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


@pytest.fixture(name="browser", scope="session")
def _browser() -> "Iterator[Browser]":
    """Skipped where there is none, unless the surroundings say that there must be one."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        chromium = None
    if chromium is None:
        missing = "no browser: install the extra 'browser' and Chromium to run these tests"
        if os.environ.get("WICKWRIGHT_BROWSER") == "required":
            pytest.fail(missing)
        pytest.skip(missing)
    with sync_playwright() as browsers:
        browser = browsers.chromium.launch(executable_path=chromium, args=list(ARGUMENTS))
        yield browser
        browser.close()


@pytest.fixture(name="page")
def _page(browser: "Browser") -> "Iterator[Page]":
    page = browser.new_page()
    yield page
    page.close()
