"""A buyer with a lot code in a real browser: led to the sheet of her lot, from disk as from a server."""

import io
import shutil
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING

import pytest
import zxingcpp
from PIL import Image

from generator.cli import main
from tests.conftest import PROJECT

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

OLD, NEW, RECALLED = "WG-20-2026201-T4RD", "WG-20-2026260-K7QX", "WG-20-2026270-FFHM"
RECALL = f"""\
lots: [{RECALLED}]
hazard: The glass can crack while the candle burns, and hot wax runs out.
what_to_do: [Put it outside.]
remedy: Your money back.
contact: hello@ferry-lane.example
on: 2026-10-30
"""
PATIENCE_MS = 5000


class _Quiet(SimpleHTTPRequestHandler):
    """Serves a folder and says nothing of it."""

    def log_message(self, *_words: object) -> None:
        """Nothing."""


@pytest.fixture(name="site", scope="module")
def _site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop with its sheet issued twice, a lot poured under each, and a third one called back."""
    folder = tmp_path_factory.mktemp("find")
    content = folder / "content"
    shutil.copytree(PROJECT / "generator" / "data" / "first_shop", content)

    def wickwright(*words: str) -> None:
        assert main([*words, "--content", str(content), "--output", str(folder / "output")]) == 0

    def pour(lot: str, day: str) -> None:
        wickwright("lots", "add", "WG-20", "--made", "48", "--lot", lot, "--poured", day)

    wickwright("issue", "WG-20", "--reason", "the first one", "--date", "2026-03-01")
    pour(OLD, "2026-07-20")
    vessel = content / "vessels" / "amber-20.yaml"
    vessel.write_text(vessel.read_text(encoding="utf-8").replace("20 cl", "Brown 20 cl"), encoding="utf-8")
    wickwright("issue", "WG-20", "--reason", "another name for the jar", "--date", "2026-08-01")
    pour(NEW, "2026-09-17")
    pour(RECALLED, "2026-09-27")
    (content / "recalls").mkdir()
    (content / "recalls" / "cracked-glass.yaml").write_text(RECALL, encoding="utf-8")
    wickwright("build")
    return folder / "output" / "site"


@pytest.fixture(name="root", params=["from disk", "from a server"])
def _root(request: pytest.FixtureRequest, site: Path) -> Iterator[str]:
    """The address of the site, with a slash at its end."""
    if request.param == "from disk":
        yield f"{site.as_uri()}/"
        return
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(site))) as server:
        Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def look_up(page: "Page", root: str, code: str) -> None:
    page.goto(f"{root}find.html")
    page.get_by_label("Lot code").fill(code)
    page.get_by_role("button", name="Find my sheet").click()


@pytest.mark.parametrize(
    ("typed", "revision"),
    [(OLD, 1), (NEW, 2), ("wg 20 2026201 t4rd", 1)],
    ids=["an old lot", "a new lot", "an old lot in small letters"],
)
def test_a_lot_leads_to_the_sheet_of_its_revision(typed: str, revision: int, root: str, page: "Page") -> None:
    look_up(page, root, typed)

    page.wait_for_url(f"{root}safety/WG-20-r{revision}.html", timeout=PATIENCE_MS)
    assert f"revision {revision}" in page.inner_text("main").lower()


def test_a_recalled_lot_says_so_before_anything_else(root: str, page: "Page") -> None:
    look_up(page, root, RECALLED)

    page.wait_for_url(f"{root}lots/*.html", timeout=PATIENCE_MS)
    told = page.inner_text("main")
    assert told.index("Product safety recall") < told.index("Burn-safety sheet for your lot")
    page.get_by_role("link", name="The hazard, and what to do").click()
    assert page.inner_text("h1") == "Product safety recall"


def test_an_unknown_lot_gets_plain_words(root: str, page: "Page") -> None:
    look_up(page, root, "WG-20-2026201-XXXX")

    answer = page.get_by_text("We have no lot with this code.")
    answer.wait_for(timeout=PATIENCE_MS)
    assert page.url == f"{root}find.html"


def test_no_code_gets_a_word_of_advice(root: str, page: "Page") -> None:
    look_up(page, root, " - ")

    assert page.get_by_text("Please type the lot code").is_visible()


def test_what_is_typed_goes_nowhere(root: str, page: "Page") -> None:
    requests: list[str] = []
    page.on("request", lambda request: requests.append(request.url))

    look_up(page, root, NEW)
    page.wait_for_url(f"{root}safety/*", timeout=PATIENCE_MS)

    assert [url for url in requests if not url.startswith(root) or "K7QX" in url.upper()] == []


@pytest.mark.parametrize(
    "kind", ["index.html", "find.html", "recalls/*.html", "lots/*.html", "safety/WG-20.html"]
)
def test_a_notice_fits_on_the_smallest_screen(kind: str, site: Path, page: "Page") -> None:
    page.set_viewport_size({"width": 320, "height": 640})
    widths = []
    staying = [path for path in site.glob(kind) if b'http-equiv="refresh"' not in path.read_bytes()]
    for path in staying:
        page.goto(path.as_uri())
        widths.append(page.evaluate("document.documentElement.scrollWidth"))

    assert widths
    assert max(widths) <= 320


def test_without_script_the_page_says_so_and_shows_another_way(root: str, browser: "Browser") -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{root}find.html")

    assert "This search needs JavaScript, which is switched off." in page.inner_text("main")
    assert not page.get_by_label("Lot code").is_visible()
    page.get_by_role("link", name="All burn-safety sheets").first.click()
    assert page.url == f"{root}safety/index.html"
    context.close()


def test_the_code_on_a_printed_sheet_holds_its_permanent_address(site: Path, page: "Page") -> None:
    page.goto((site / "safety" / "WG-20.html").as_uri())
    page.emulate_media(media="print")

    picture = Image.open(io.BytesIO(page.locator(".qr svg").screenshot(scale="css")))

    (found,) = zxingcpp.read_barcodes(picture)
    assert found.text == "https://ferry-lane.example/safety/WG-20-r2.html"
