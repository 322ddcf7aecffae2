"""What ``publish --headers`` prints, sent by a server: every page works under it, and no browser complains."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stdout
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from io import StringIO
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING

import pytest

from generator.cli import main
from tests.conftest import PROJECT
from tests.example.trade import WEB, sell_to_the_trade

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

LOT = "WG-20-2026201-T4RD"
PATIENCE_MS = 5000


def wickwright(folder: Path, *words: str) -> str:
    """What a command prints."""
    with redirect_stdout(StringIO()) as printed:
        assert main([*words, "--content", str(folder / "content"), "--output", str(folder / "output")]) == 0
    return printed.getvalue()


@pytest.fixture(name="shop", scope="module")
def _shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop with an issued sheet, a lot poured under it and trade links, built."""
    folder = tmp_path_factory.mktemp("headers")
    shutil.copytree(PROJECT / "generator" / "data" / "first_shop", folder / "content")
    sell_to_the_trade(folder / "content")
    wickwright(folder, "issue", "WG-20", "--reason", "the first one")
    wickwright(folder, "lots", "add", "WG-20", "--made", "48", "--lot", LOT, "--poured", "2026-11-01")
    wickwright(folder, "link", "--all")
    wickwright(folder, "build")
    return folder


@pytest.fixture(name="headers", scope="module")
def _headers(shop: Path) -> str:
    return wickwright(shop, "publish", "--headers")


@contextmanager
def served(site: Path, headers: str) -> Iterator[str]:
    """A server that goes by the printed lines, the later before the earlier."""
    lines = [line.split("*  ", maxsplit=1) for line in headers.splitlines()]

    class Host(SimpleHTTPRequestHandler):
        def __init__(self, *words: object) -> None:
            super().__init__(*words, directory=str(site))  # type: ignore[arg-type]  # as the server calls it

        def end_headers(self) -> None:
            fitting = (
                header.split(": ", maxsplit=1) for start, header in lines if self.path.startswith(start)
            )
            for name, value in dict(fitting).items():
                self.send_header(name, value)
            super().end_headers()

        def log_message(self, *_words: object) -> None:
            """Nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Host)
    Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()


@pytest.fixture(name="root", scope="module")
def _root(shop: Path, headers: str) -> Iterator[str]:
    with served(shop / "output" / "site", headers) as root:
        yield root


@pytest.fixture(name="told")
def _told(page: "Page") -> list[str]:
    """Every complaint of the browser, of whatever page; it tells there what a policy kept away."""
    told: list[str] = []
    page.on("console", lambda message: told.append(message.text))
    page.on("pageerror", lambda fault: told.append(str(fault)))
    return told


def test_every_page_opens_without_a_complaint(shop: Path, root: str, page: "Page", told: list[str]) -> None:
    site = shop / "output" / "site"
    pages = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    assert len(pages) > 10

    for path in pages:
        page.goto(f"{root}{path}")

    assert told == []


def test_a_page_has_its_styles_and_its_colour(root: str, page: "Page") -> None:
    """A policy that kept them away would leave black on white."""
    page.goto(f"{root}candles/wet-garden.html")

    shade = page.evaluate("getComputedStyle(document.querySelector('.scent')).getPropertyValue('--shade')")

    assert shade.strip() == "#a9b48a"
    assert page.evaluate("[...document.styleSheets].every(sheet => sheet.cssRules.length > 0)")


def test_a_lot_is_found(root: str, page: "Page", told: list[str]) -> None:
    page.goto(f"{root}find.html")
    page.get_by_label("Lot code").fill(LOT)
    page.get_by_role("button", name="Find my sheet").click()

    page.wait_for_url(f"{root}safety/WG-20-r1.html", timeout=PATIENCE_MS)

    assert told == []


def test_a_sealed_sheet_opens_and_adds_up(shop: Path, root: str, page: "Page", told: list[str]) -> None:
    link = wickwright(shop, "link", "quay-stores").strip().removeprefix(f"{WEB}/")

    page.goto(f"{root}{link}")
    page.get_by_text("Quay Stores").first.wait_for(timeout=PATIENCE_MS)
    page.locator("input").first.fill("2")

    assert told == []
    assert page.get_by_text("£").count() > 0


def test_what_is_sealed_is_neither_kept_nor_found(shop: Path, root: str, page: "Page") -> None:
    link = wickwright(shop, "link", "quay-stores").strip().removeprefix(f"{WEB}/")

    said = page.request.get(f"{root}{link.partition('#')[0]}").headers

    assert said["cache-control"] == "no-store"
    assert said["x-robots-tag"] == "noindex, nofollow, noarchive"


def test_a_policy_without_the_hashes_is_complained_of(
    shop: Path, headers: str, page: "Page", told: list[str]
) -> None:
    """Under a policy that is too narrow these tests would fail."""
    narrow = "\n".join(line.partition("; script-src")[0] for line in headers.splitlines())
    link = wickwright(shop, "link", "quay-stores").strip().removeprefix(f"{WEB}/")

    with served(shop / "output" / "site", narrow) as root:
        page.goto(f"{root}{link}")

    assert [words for words in told if "Content Security Policy" in words] != []


def test_names_that_may_be_kept_for_ever_hold_a_digest(shop: Path) -> None:
    site = shop / "output" / "site"
    kept = [path.name for folder in ("photos", "scripts", "styles") for path in (site / folder).rglob("*.*")]

    assert kept != []
    assert [name for name in kept if len(name.split(".")) < 3] == []
