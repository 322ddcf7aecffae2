"""A buyer with a link in a real browser: the sheet opens for its key alone, and the page says what to do otherwise."""

import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from io import StringIO
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING, ClassVar

import pytest

from generator.cli import main
from tests.browser.conftest import ARGUMENTS
from tests.conftest import PROJECT
from tests.example.trade import WEB, sell_to_the_trade

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

pytestmark = pytest.mark.browser

PATIENCE_MS = 5000
MISSING = "needs the key at the end of the link"
CUT = "is incomplete, as some mail programs cut long links"
WRONG = "does not fit"


class _Logging(SimpleHTTPRequestHandler):
    """Serves a folder and keeps what a host would write into its log, with every header it was sent."""

    log: ClassVar[list[str]] = []

    def log_message(self, format: str, *words: object) -> None:  # noqa: A002  # the library names it so
        self.log.extend((format % words, str(self.headers)))


@pytest.fixture(name="shop", scope="module")
def _shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop with its links given out, built."""
    folder = tmp_path_factory.mktemp("sealed")
    shutil.copytree(PROJECT / "generator" / "data" / "first_shop", folder / "content")
    sell_to_the_trade(folder / "content")
    wickwright(folder, "link", "--all")
    wickwright(folder, "build")
    return folder


def wickwright(folder: Path, *words: str) -> str:
    """What a command prints."""
    with redirect_stdout(StringIO()) as printed:
        assert main([*words, "--content", str(folder / "content"), "--output", str(folder / "output")]) == 0
    return printed.getvalue()


@pytest.fixture(name="links", scope="module")
def _links(shop: Path) -> tuple[str, str]:
    """The links of two buyers from the site's root, with their keys."""
    one, other = (wickwright(shop, "link", buyer).strip() for buyer in ("quay-stores", "lamp-room"))
    return one.removeprefix(f"{WEB}/"), other.removeprefix(f"{WEB}/")


@pytest.fixture(name="link", scope="module")
def _link(links: tuple[str, str]) -> str:
    """The link of the first."""
    return links[0]


@pytest.fixture(name="served", scope="module")
def _served(shop: Path) -> Iterator[str]:
    """The site on a server of this computer, which browsers take for a safe one."""
    handler = partial(_Logging, directory=str(shop / "output" / "site"))
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


def pages_in(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def sheet(page: "Page") -> "Locator":
    return page.get_by_role("heading", name="Quay Stores")


def said(page: "Page") -> str:
    """The one sentence that the page shows."""
    shown = page.locator("main p:visible").filter(has_not_text=re.compile("^Ferry Lane"))
    shown.first.wait_for(timeout=PATIENCE_MS)
    return " ".join(shown.all_inner_texts())


@pytest.mark.parametrize("from_disk", [False, True], ids=["from a server", "from disk"])
def test_the_link_opens_the_buyers_sheet(
    page: "Page", shop: Path, served: str, link: str, from_disk: bool
) -> None:
    messages: list[str] = []
    page.on("console", lambda message: messages.append(message.text))
    page.on("pageerror", lambda error: messages.append(str(error)))
    root = f"{(shop / 'output' / 'site').as_uri()}" if from_disk else served

    page.goto(f"{root}/{link}")

    sheet(page).wait_for(timeout=PATIENCE_MS)
    assert page.url == f"{root}/{link}"
    assert messages == []


def test_the_log_of_a_visit_holds_no_key(page: "Page", served: str, link: str) -> None:
    address, _, key = link.partition("#")
    _Logging.log.clear()

    page.goto(f"{served}/{link}")
    sheet(page).wait_for(timeout=PATIENCE_MS)
    page.reload()
    sheet(page).wait_for(timeout=PATIENCE_MS)

    log = "\n".join(_Logging.log)
    assert address in log
    assert key not in log
    assert key[:8] not in log
    assert "Referer" not in log


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (lambda link, _: link.partition("#")[0], MISSING),
        (lambda link, _: link[:-1], CUT),
        (lambda link, _: link[:-20], CUT),
        (lambda link, other: f"{link.partition('#')[0]}#{other.partition('#')[2]}", WRONG),
    ],
    ids=["no key", "a letter cut off", "many letters cut off", "another buyer's key"],
)
def test_any_other_link_gets_a_sentence_on_what_to_do(
    page: "Page", served: str, links: tuple[str, str], change: Callable[[str, str], str], sentence: str
) -> None:
    page.goto(f"{served}/{change(*links)}")

    page.get_by_text(sentence).wait_for(timeout=PATIENCE_MS)
    assert said(page).count(". ") == 0
    assert page.get_by_label("Link or key").is_visible()


@pytest.mark.parametrize("pasted", ["key", "whole link", "wrapped", "in capitals"])
def test_the_box_takes_the_key_or_the_whole_link_as_a_mail_program_left_it(
    page: "Page", served: str, link: str, pasted: str
) -> None:
    address, _, key = link.partition("#")
    forms = {
        "key": key,
        "whole link": f"{WEB}/{link}",
        "wrapped": f" {WEB}/{address}%23{key[:20]}\n > {key[20:]} ",
        "in capitals": key.upper(),
    }
    page.goto(f"{served}/{address}")

    page.get_by_label("Link or key").fill(forms[pasted])
    page.get_by_role("button", name="Open").press("Enter")

    sheet(page).wait_for(timeout=PATIENCE_MS)
    assert page.url == f"{served}/{link}"


def test_without_scripts_the_page_says_so(browser: "Browser", served: str, link: str) -> None:
    page = browser.new_page(java_script_enabled=False)

    page.goto(f"{served}/{link}")

    assert said(page) == ("This page needs JavaScript: allow it in your browser, then reload the page.")
    assert not page.get_by_label("Link or key").is_visible()
    page.close()


def test_on_plain_http_the_page_says_so(browser: "Browser", served: str, link: str) -> None:
    """A browser calls its own computer safe by name and number, so the site gets another name here."""
    named = [*ARGUMENTS, "--host-resolver-rules=MAP ferry-lane.example 127.0.0.1"]
    with browser.browser_type.launch(executable_path=shutil.which("chromium"), args=named) as other:
        page = other.new_page()

        page.goto(f"{served.replace('127.0.0.1', 'ferry-lane.example')}/{link}")

        assert said(page) == (
            "This page needs https: write https:// at the start of the address and load it again."
        )


@pytest.mark.parametrize("where", ["text", "path"])
def test_a_page_that_was_changed_is_refused(
    page: "Page", shop: Path, link: str, tmp_path: Path, where: str
) -> None:
    path, _, key = link.partition("#")
    text = (shop / "output" / "site" / path).read_text(encoding="utf-8")
    begins = text.index(">", text.index("data-path")) + 101
    flipped = "A" if text[begins] != "A" else "B"
    changed = {
        "text": text[:begins] + flipped + text[begins + 1 :],
        "path": text.replace(f'data-path="{path}"', 'data-path="t/another.html"'),
    }
    (tmp_path / "changed.html").write_text(changed[where], encoding="utf-8")

    page.goto(f"{(tmp_path / 'changed.html').as_uri()}#{key}")

    page.get_by_text(WRONG).wait_for(timeout=PATIENCE_MS)


def test_a_renewed_link_ends_the_old_one(page: "Page", shop: Path, tmp_path: Path) -> None:
    own = tmp_path / "shop"
    shutil.copytree(shop, own)
    old = wickwright(own, "link", "quay-stores").strip().removeprefix(f"{WEB}/")
    new = wickwright(own, "link", "--renew", "quay-stores").strip().removeprefix(f"{WEB}/")
    wickwright(own, "build")
    site = own / "output" / "site"

    page.goto(f"{site.as_uri()}/{new.partition('#')[0]}#{old.partition('#')[2]}")
    page.get_by_text(WRONG).wait_for(timeout=PATIENCE_MS)
    page.goto("about:blank")
    page.goto(f"{site.as_uri()}/{new}")

    sheet(page).wait_for(timeout=PATIENCE_MS)
    assert not (site / old.partition("#")[0]).exists()


def test_the_file_to_attach_opens_with_the_key_that_was_printed(
    page: "Page", shop: Path, tmp_path: Path
) -> None:
    file = tmp_path / "sheet.html"
    key = wickwright(shop, "link", "quay-stores", "--file", str(file)).split()[-1]
    page.goto(file.as_uri())

    page.get_by_label("Link or key").fill(key)
    page.get_by_role("button", name="Open").click()

    sheet(page).wait_for(timeout=PATIENCE_MS)


@pytest.mark.parametrize("width", [320, 1280])
def test_the_closed_page_fits_its_screen(page: "Page", served: str, link: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 700})
    page.goto(f"{served}/{link[:-3]}")
    page.get_by_text(CUT).wait_for(timeout=PATIENCE_MS)

    assert page.evaluate("document.documentElement.scrollWidth") <= width


OWN_SHEET = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>{{ page.title }}</title>
<style>
h1 { color: rgb(1, 2, 3); }
@media print { #count { break-before: page; } }
</style>
</head>
<body>
<h1>{{ page.heading }}</h1>
<p id="count">0</p>
<script type="application/json">{"read": "and not run"}</script>
<script>
  const count = document.querySelector("#count");
  addEventListener("click", () => { count.textContent += "1"; });
  document.querySelector("h1").insertAdjacentHTML("afterend", "<button onclick='document.title = 1'>Press</button>");
  fetch("https://elsewhere.example/").catch(() => { count.textContent = "fetched nothing "; });
</script>
</body>
</html>
"""
"""A sheet that does what it may and tries what it may not."""


@pytest.fixture(name="own_link", scope="module")
def _own_link(shop: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The whole address on disk of a sheet that is printed by a theme of the maker's own."""
    own = tmp_path_factory.mktemp("own")
    shutil.copytree(shop / "content", own / "content")
    (own / "themes" / "mine" / "pages").mkdir(parents=True)
    (own / "themes" / "mine" / "theme.yaml").write_text("name: Mine\nextends: netloft\n", encoding="utf-8")
    (own / "themes" / "mine" / "pages" / "buyer_sheet.html").write_text(OWN_SHEET, encoding="utf-8")
    maker = own / "content" / "maker.yaml"
    maker.write_text(maker.read_text(encoding="utf-8").replace("netloft", "mine"), encoding="utf-8")
    wickwright(own, "build")
    link = wickwright(own, "link", "quay-stores").strip().removeprefix(f"{WEB}/")
    return f"{(own / 'output' / 'site').as_uri()}/{link}"


def test_an_opened_sheet_runs_its_own_script_and_shows_its_own_style(page: "Page", own_link: str) -> None:
    page.goto(own_link)
    page.get_by_text("fetched nothing").wait_for(timeout=PATIENCE_MS)

    page.get_by_role("button", name="Press").click()

    assert page.locator("#count").inner_text() == "fetched nothing 1"
    assert page.evaluate("getComputedStyle(document.querySelector('h1')).color") == "rgb(1, 2, 3)"


def test_an_opened_sheet_can_neither_fetch_nor_run_what_was_slipped_into_it(
    page: "Page", own_link: str
) -> None:
    requests: list[str] = []
    page.on("request", lambda request: requests.append(request.url))
    page.goto(own_link)
    page.get_by_text("fetched nothing").wait_for(timeout=PATIENCE_MS)

    page.get_by_role("button", name="Press").click()

    assert page.title() == "Quay Stores: prices and order"
    assert [address for address in requests if "elsewhere" in address] == []


def test_an_opened_sheet_prints_as_its_own_style_says(page: "Page", own_link: str) -> None:
    page.goto(own_link)
    page.get_by_text("fetched nothing").wait_for(timeout=PATIENCE_MS)

    assert pages_in(page.pdf(format="A4")) == 2
