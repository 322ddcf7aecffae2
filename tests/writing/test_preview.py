"""The preview as a real process, asked over real HTTP and a real websocket."""

import asyncio
import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from http.client import HTTPConnection
from pathlib import Path

import pytest
from tornado.websocket import WebSocketClientConnection, websocket_connect

import generator
from generator.writing.preview_server import free_port

PREVIEW = """
import signal
import sys
import time
from pathlib import Path
from generator.problems import Place, Problem, Severity
from generator.writing.preview_server import Rebuilt, serve

folder, port = Path(sys.argv[1]), int(sys.argv[2])

def rebuild():
    with (folder / "rebuilds").open("a") as tally:
        tally.write("|")
    text = (folder / "content [1]" / "entry.yaml").read_text()
    if text == "long":
        time.sleep(60)
    if text == "crash":
        raise RuntimeError("a slip in <rebuild>")
    if text in ("error", "warning"):
        place = Place("content/entry.yaml", 1, 7)
        what, why, fix = "fill is '<8>'", "8 mm or 8 cm", "fill: 8 mm"
        problem = Problem(place=place, what=what, why=why, fix=fix, severity=Severity(text))
        return Rebuilt(problems=(problem,), site_changed=False)
    if text == "slow":
        time.sleep(0.5)
    page, before = folder / "site" / "index.html", ""
    page.parent.mkdir(exist_ok=True)
    if page.exists():
        before = page.read_text()
    page.write_text(f"<html><head></head><body class='x'>{text}</body></html>")
    return Rebuilt(problems=(), site_changed=page.read_text() != before)

# Whoever runs the tests behind a shell's back has Ctrl+C switched off, and a process inherits that.
signal.signal(signal.SIGINT, signal.default_int_handler)
serve(folder / "site", (folder / "content [1]",), rebuild, port)
"""
SCRIPT = "/livereload.js?port="
TOLD = (
    "content/entry.yaml:1:7: error: fill is &#x27;&lt;8&gt;&#x27;\n    why: 8 mm or 8 cm\n    fix: fill: 8 mm"
)


class Preview:
    """A running preview of a tiny shop, and what it says."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.site = folder / "site"
        self.port = 0
        self.process: subprocess.Popen[str] | None = None

    def save(self, text: str, name: str = "entry.yaml") -> None:
        (self.folder / "content [1]").mkdir(exist_ok=True)
        (self.folder / "content [1]" / name).write_text(text, encoding="utf-8")

    def save_twelve_pictures(self) -> None:
        for number in range(12):
            self.save("x", f"{number}.jpg")
        self.save("twelve pictures")

    def start(self, port: int = 0) -> list[str]:
        """Start it, and wait until it says where it is; all it said until then."""
        self.launch(port)
        assert self.process is not None
        assert self.process.stdout is not None
        lines: list[str] = []
        while not lines or not lines[-1].startswith("Next: "):
            lines.append(self.process.stdout.readline().rstrip("\n"))
            assert self.process.poll() is None
        address = next(line for line in lines if line.startswith("The site is at "))
        self.port = int(address.split("/")[2].rpartition(":")[2])
        return lines

    def launch(self, port: int = 0) -> None:
        environment = {**os.environ, "PYTHONPATH": str(Path(generator.__file__).parents[1])}
        self.process = subprocess.Popen(
            [sys.executable, "-W", "error", "-c", PREVIEW, str(self.folder), str(port)],
            env=environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )

    def page(self, path: str = "/", headers: Mapping[str, str] | None = None, method: str = "GET") -> str:
        with closing(HTTPConnection("127.0.0.1", self.port, timeout=3)) as connection:
            given = {name: text.format(port=self.port) for name, text in (headers or {}).items()}
            connection.request(method, path, headers=given)
            answer = connection.getresponse()
            return f"{answer.status} {answer.read().decode()}"

    def rebuilds(self) -> int:
        tally = self.folder / "rebuilds"
        return len(tally.read_text(encoding="utf-8")) if tally.exists() else 0

    def reloads(self, *actions: Callable[[], None]) -> list[str]:
        """What an open page is told to load again after each action."""
        self.page()
        return asyncio.run(_told(f"ws://127.0.0.1:{self.port}/livereload", actions))

    def end(self) -> tuple[int, str]:
        assert self.process is not None
        self.process.send_signal(signal.SIGINT)
        errors = self.process.communicate(timeout=5)[1]
        return self.process.returncode, errors


async def _told(address: str, actions: tuple[Callable[[], None], ...]) -> list[str]:
    """What the page is told when it calls, once after each action, and what is left then."""
    page = await websocket_connect(address)
    try:
        await page.write_message(json.dumps({"command": "info", "url": "http://127.0.0.1/"}))
        told = await _told_so_far(page)
        for action in actions:
            action()
            message = await _message(page)
            told.append(f"{message['command']} {message['path']}")
        return told + await _told_so_far(page)
    finally:
        page.close()
        await asyncio.wait_for(_until_closed(page), timeout=2.5)


async def _told_so_far(page: WebSocketClientConnection) -> list[str]:
    """Everything before the answer to a greeting."""
    await page.write_message(json.dumps({"command": "hello"}))
    told = []
    while (message := await _message(page))["command"] != "hello":
        told.append(f"{message['command']} {message['path']}")
    return told


async def _until_closed(page: WebSocketClientConnection) -> None:
    """The socket would otherwise be left to the collector, which complains in some later test."""
    while await page.read_message() is not None:
        pass


async def _message(page: WebSocketClientConnection) -> dict[str, str]:
    text = await asyncio.wait_for(page.read_message(), timeout=2.5)
    assert text is not None
    return dict(json.loads(text))


@pytest.fixture(name="preview")
def _preview(tmp_path: Path) -> Iterator[Preview]:
    preview = Preview(tmp_path)
    yield preview
    if preview.process is not None:
        preview.process.kill()
        preview.process.communicate()


def test_the_site_is_built_and_served_with_the_script_that_reloads_it(preview: Preview) -> None:
    preview.save("slate")

    said = preview.start()

    assert said == [
        "No problems. The site is up to date.",
        f"The site is at http://127.0.0.1:{preview.port}/ (Ctrl-C to stop).",
        "Next: edit a file in content/ and save it.",
    ]
    page = preview.page()
    assert "<body class='x'>slate</body>" in page
    assert SCRIPT in page


def test_two_saves_within_three_seconds_are_both_shown_at_once(preview: Preview) -> None:
    preview.save("slate")
    preview.start()

    told = preview.reloads(lambda: preview.save("samphire"), lambda: preview.save("tide"))

    assert told == ["reload *", "reload *"]
    assert "tide" in preview.page()


def test_files_saved_together_are_built_once_and_the_whole_page_is_loaded_again(preview: Preview) -> None:
    preview.save("slate")
    preview.start()

    told = preview.reloads(preview.save_twelve_pictures)

    assert told == ["reload *"]
    time.sleep(0.3)  # More looks at the files.
    assert preview.rebuilds() == 2


def test_what_is_saved_during_a_rebuild_leads_to_one_more(preview: Preview) -> None:
    preview.save("slate")
    preview.start()

    def save_during_a_rebuild() -> None:
        preview.save("slow")
        while preview.rebuilds() == 1:
            time.sleep(0.02)
        preview.save_twelve_pictures()

    told = preview.reloads(save_during_a_rebuild, lambda: None)

    assert told == ["reload *", "reload *"]
    assert "twelve pictures" in preview.page()
    assert preview.rebuilds() == 3


def test_nothing_is_loaded_again_when_nothing_that_is_shown_has_changed(preview: Preview) -> None:
    preview.save("slate")
    preview.start()

    def save_twice() -> None:
        preview.save("a note", "notes.txt")
        while preview.rebuilds() == 1:
            time.sleep(0.02)
        time.sleep(0.2)
        preview.save("tide")

    assert preview.reloads(save_twice) == ["reload *"]
    assert preview.rebuilds() == 3


def test_dot_files_are_not_looked_at(preview: Preview) -> None:
    preview.save("slate")
    preview.start()

    preview.save("half", ".wickwright-0123abcd.part")
    preview.save("half", ".entry.yaml.swp")
    time.sleep(0.3)

    assert preview.rebuilds() == 1


def test_a_page_that_calls_only_after_the_next_change_is_told_of_it_once(preview: Preview) -> None:
    preview.save("slate")
    preview.start()
    assert preview.reloads() == []
    preview.save("tide")
    while "tide" not in (preview.site / "index.html").read_text(encoding="utf-8"):
        time.sleep(0.02)
    address = f"ws://127.0.0.1:{preview.port}/livereload"

    assert [asyncio.run(_told(address, ())) for _ in range(2)] == [["reload *"], []]


def test_errors_stand_on_the_last_good_page_until_they_are_mended(preview: Preview) -> None:
    preview.save("slate")
    preview.start()
    before = (preview.site / "index.html").stat()
    pages: list[str] = []

    def mend() -> None:
        pages.append(preview.page())
        preview.save("samphire")

    preview.reloads(lambda: preview.save("error"), mend)

    assert "<details open" in pages[0]
    assert "position:sticky;top:0;" in pages[0]
    assert "1 error. You still see the last good site." in pages[0]
    assert TOLD in pages[0]
    assert "slate</body>" in pages[0]
    assert before.st_ino == (preview.site / "index.html").stat().st_ino
    assert "<body class='x'>samphire</body>" in preview.page()


def test_warnings_are_folded_and_do_not_hold_the_site_back(preview: Preview) -> None:
    preview.save("slate")
    preview.site.mkdir()
    (preview.site / "index.html").write_text("<head></head><body></body>", encoding="utf-8")
    preview.save("warning")

    said = preview.start()

    assert "1 warning. The site is up to date." in said
    page = preview.page()
    assert "<details role=" in page
    assert TOLD.replace("error", "warning") in page


def test_a_fault_of_the_program_is_called_that_and_the_preview_outlives_it(preview: Preview) -> None:
    preview.save("crash")
    preview.start()

    page = preview.page("/candles/x.html")

    assert page.startswith("404 ")
    assert "This is a bug in Wickwright, not in your files. You still see the last good site." in page
    assert "RuntimeError: a slip in &lt;rebuild&gt;" in page


def test_before_the_first_good_build_every_address_shows_the_errors_and_reloads(preview: Preview) -> None:
    preview.save("error")
    preview.start()

    page = preview.page("/candles/<x>.html")

    assert "There is no page here: /candles/" in page
    assert "<x>" not in page
    assert TOLD in page
    assert SCRIPT in page


@pytest.mark.parametrize("html", ["<p>no head", "<HEAD></HEAD><BODY>loud", "<head></head><body>plain"])
def test_every_page_gets_the_script_and_the_panel(preview: Preview, html: str) -> None:
    preview.save("error")
    preview.site.mkdir()
    rule = "<meta http-equiv='Content-Security-Policy' content=\"script-src 'none'\">"
    (preview.site / "x.html").write_text(rule + html, encoding="utf-8")
    (preview.site / "x.txt").write_text(html, encoding="utf-8")
    preview.start()

    page = preview.page("/x.html")

    assert (page.count(SCRIPT), page.count("<details"), page.count("Security-Policy")) == (1, 1, 0)
    assert preview.page("/x.txt") == f"200 {html}"


ADDRESSES = ("/", "/%ff", "/livereload", "/livereload.js", "/forcereload")
SOCKET = {"Upgrade": "websocket", "Connection": "Upgrade", "Sec-WebSocket-Version": "13",
          "Sec-WebSocket-Key": "dGhlIHNhbXBsZSBub25jZQ=="}  # fmt: skip
"""The example of RFC 6455, section 1.2."""


@pytest.fixture(name="running", scope="module")
def _running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Preview]:
    """One with an error to tell of, over a good page."""
    preview = Preview(tmp_path_factory.mktemp("running"))
    preview.save("error")
    preview.site.mkdir()
    (preview.site / "index.html").write_text("<head></head><body>slate</body>", encoding="utf-8")
    preview.start()
    assert preview.process is not None
    yield preview
    preview.process.kill()
    assert preview.process.communicate()[1] == "", (
        "asked for what is not there, it told of it in the terminal"
    )


@pytest.mark.parametrize("host", ["127.0.0.1:{port}", "localhost:{port}", "LOCALHOST:{port}", "[::1]:{port}"])
def test_it_answers_to_the_names_of_this_computer(running: Preview, host: str) -> None:
    pages = [
        running.page(headers={"Host": host, **more}) for more in ({}, {"Origin": "http://localhost:{port}"})
    ]

    assert ["slate</body>" in page for page in pages] == [True, True]


@pytest.mark.parametrize(
    "headers",
    [
        {"Host": "evil.example"},
        {"Host": "evil.example:{port}"},
        {"Host": "127.0.0.1"},
        {"Host": "127.0.0.1:1"},
        {"Host": "127.0.0.1.evil.example:{port}"},
        {"Origin": "http://evil.example"},
        {"Origin": "https://127.0.0.1:{port}"},
        {"Origin": "null"},
        {"Origin": ""},
    ],
    ids=str,
)
@pytest.mark.parametrize("address", ADDRESSES)
def test_a_page_from_elsewhere_gets_nothing(running: Preview, headers: dict[str, str], address: str) -> None:
    answer = running.page(address, headers)

    assert answer.startswith("403 ")
    assert [said for said in ("slate", "fill", "livereload") if said in answer] == []


@pytest.mark.parametrize("method", ["POST", "BREW"])
def test_a_strange_method_gets_nothing(running: Preview, method: str) -> None:
    assert running.page(method=method) == "405 "


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, "101"),
        ({"Origin": "http://127.0.0.1:{port}"}, "101"),
        ({"Origin": "http://evil.example"}, "403"),
        ({"Host": "evil.example:{port}", "Origin": "http://evil.example:{port}"}, "403"),
    ],
    ids=["a program", "a page of its own", "a page from elsewhere", "a host name that was made to lead here"],
)
def test_only_its_own_pages_are_told_when_to_reload(
    running: Preview, headers: dict[str, str], status: str
) -> None:
    with closing(HTTPConnection("127.0.0.1", running.port, timeout=3)) as connection:
        given = {name: text.format(port=running.port) for name, text in headers.items()}
        connection.request("GET", "/livereload", headers={**SOCKET, **given})

        assert str(connection.getresponse().status) == status


@pytest.mark.parametrize(
    "path",
    ["/%00", "/x%00.html", "/..%2f", "/..%2frebuilds", "/%2e%2e/rebuilds", "//rebuilds", "/../rebuilds", "/%ff",
     "/%ed%a0%80", "/%", "/%zz", "/%c0%ae%c0%ae/rebuilds", "/..%5crebuilds", "/" + "a" * 5_000, "/" + "a/" * 5_000],
    ids=lambda path: path[:20],
)  # fmt: skip
@pytest.mark.parametrize("method", ["GET", "HEAD"])
def test_what_is_no_file_of_the_site_is_not_there(running: Preview, path: str, method: str) -> None:
    assert running.page(path, method=method).startswith("404 ")


def test_a_port_in_use_is_said_in_one_line_and_the_next_free_one_taken(preview: Preview) -> None:
    preview.save("slate")
    with socket.create_server(("127.0.0.1", 0)) as other:
        taken = other.getsockname()[1]

        said = preview.start(taken)

    assert said[1].startswith(f"Port {taken} is in use; using ")
    assert preview.port > taken


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C cannot be sent to one process there")
def test_ctrl_c_ends_it_quietly(preview: Preview) -> None:
    preview.save("slate")
    preview.start()

    assert preview.end() == (0, "")


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C cannot be sent to one process there")
def test_ctrl_c_ends_it_quietly_in_the_middle_of_a_build(preview: Preview) -> None:
    preview.save("long")
    preview.launch()
    while preview.rebuilds() == 0:
        time.sleep(0.02)

    assert preview.end() == (0, "")


def test_a_port_far_up_has_no_next_one() -> None:
    with (
        socket.create_server(("127.0.0.1", 65_535)),
        pytest.raises(OSError, match="no port from 65535 up is free"),
    ):
        free_port(65_535)
