"""The site while its entries are edited: served only to this computer, rebuilt on every save, problems on top."""

import json
import logging
import re
import socket
import sys
import webbrowser
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from html import escape
from pathlib import Path
from threading import Thread
from traceback import format_exc
from typing import Any, ClassVar, TypeAlias
from urllib.parse import urlsplit

from livereload import Server
from livereload.handlers import ForceReloadHandler, LiveReloadHandler, LiveReloadJSHandler
from livereload.watcher import Watcher
from tornado.ioloop import IOLoop
from tornado.web import HTTPError, RequestHandler, StaticFileHandler

from generator.problems import Problem, in_reading_order, is_error, is_open, problem_counts
from generator.writing.watched_files import WatchedFiles


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebuilt:
    """The result of a rebuild: every problem, and whether any file of the site changed."""

    problems: tuple[Problem, ...]
    site_changed: bool


Rebuild: TypeAlias = Callable[[], Rebuilt]

_HOST = "127.0.0.1"
_NAMES = (_HOST, "localhost", "[::1]")
_PORT_OF_HTTP = 80
_PORTS_TRIED = 100
_LAST_PORT = 65_535
_EVERY_FILE = "*"
"""The name of a changed picture or style would have the browser fetch that alone, and never show the rebuilt page."""

_BODY = re.compile(rb"<body\b[^>]*>", re.IGNORECASE)
_SCRIPT_RULE = re.compile(rb"<meta\b[^>]*content-security-policy[^>]*>", re.IGNORECASE)
_PANEL_STYLE = (
    "all:revert;position:sticky;top:0;z-index:9;overflow-anchor:none;max-height:60vh;overflow:auto;"
    "padding:16px 24px;border-bottom:2px solid;text-align:left;"
    "color:#1b1b1b;background:#fff;font:16px/1.5 sans-serif"
)
_TEXT_STYLE = "all:revert;white-space:pre-wrap;overflow-wrap:anywhere;font:14px/1.5 monospace"


def serve(
    root: Path, watched: Sequence[Path], rebuild: Rebuild, port: int = 0, *, open_browser: bool = False
) -> None:
    """Serve ``root`` until Ctrl-C, rebuilding at the start and when a file below a ``watched`` folder has changed.

    A rebuild that returns errors has written nothing, so the last good site stays up and every page lists the errors.
    Port 0 means any free port; if the wanted one is in use, the next free one is taken.
    """
    with suppress(KeyboardInterrupt):
        files, desk = WatchedFiles(watched), _Desk(rebuild)
        desk.rebuild()
        free = free_port(port)
        if port not in {0, free}:
            _say(f"Port {port} is in use; using {free}.")
        # Said by the loop itself, so that it is true by then.
        IOLoop.current().add_callback(_at_home, f"http://{_HOST}:{free}/", open_browser=open_browser)
        _let_only_errors_through("livereload", "tornado.access")
        server = Server(watcher=_Looks(files, desk))
        _Page.desk, server.SFH = desk, _Page
        handlers: tuple[Any, ...] = (_Page, LiveReloadHandler, LiveReloadJSHandler, ForceReloadHandler)
        for handler in handlers:
            handler.prepare = _only_from(free)
        LiveReloadHandler.on_message = _told_if_stale(desk, LiveReloadHandler.on_message)
        server.serve(port=free, host=_HOST, root=str(root))


def _at_home(address: str, *, open_browser: bool) -> None:
    _say(f"The site is at {address} (Ctrl-C to stop).", "Next: edit a file in content/ and save it.")
    if open_browser:
        # Nobody waits for it: a browser may take its time to start.
        Thread(target=webbrowser.open, args=(address,), daemon=True).start()


class _Looks(Watcher):  # type: ignore[misc]  # the library ships no types
    """Replaces the library's own, which looks at the files seldom and rebuilds before all of them are saved."""

    def __init__(self, files: WatchedFiles, desk: "_Desk") -> None:
        super().__init__()
        self._files = files
        self._desk = desk

    def start(self, _poll: Callable[[], None]) -> bool:
        """Begin to look; true, so that the library does not."""
        IOLoop.current().call_later(self._files.rest_s, self._look)
        return True

    def _look(self) -> None:
        if self._files.have_changed() and self._desk.rebuild():
            LiveReloadHandler.reload_waiters(_EVERY_FILE)
        IOLoop.current().call_later(self._files.rest_s, self._look)


def free_port(wanted: int) -> int:
    """The wanted port or the next free one; for 0, any free one."""
    for port in range(wanted, min(wanted + _PORTS_TRIED, _LAST_PORT + 1)):
        with socket.socket() as attempt, suppress(OSError):
            if sys.platform != "win32":
                # A port whose last user has just left counts as free.
                attempt.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            attempt.bind((_HOST, port))
            return int(attempt.getsockname()[1])
    raise OSError(f"no port from {wanted} up is free")


def _only_from(port: int) -> Callable[[RequestHandler], None]:
    """Refuses a request that names another host, or that a page of another origin sends.

    A browser lets any page send requests to this computer, under any host name made to lead here.
    """
    hosts = {f"{name}:{port}" for name in _NAMES} | ({*_NAMES} if port == _PORT_OF_HTTP else set())
    origins = {f"http://{host}" for host in hosts}

    def prepare(handler: RequestHandler) -> None:
        request = handler.request
        if request.host.lower() not in hosts or not {*request.headers.get_list("Origin")} <= origins:
            raise HTTPError(403)

    return prepare


class _Desk:
    """The result of the last rebuild."""

    def __init__(self, rebuild: Rebuild) -> None:
        self._rebuild = rebuild
        self._problems: tuple[Problem, ...] = ()
        self._trace = ""
        self._shown: set[str] = set()

    def rebuild(self) -> bool:
        """Rebuild, and print the result in the terminal; whether open pages are to be reloaded."""
        panel, site_changed = self.panel(), False
        try:
            rebuilt = self._rebuild()
            in_order = in_reading_order(rebuilt.problems)
            # Errors that hold back the site come first.
            self._problems, self._trace = tuple(sorted(in_order, key=is_error, reverse=True)), ""
            site_changed = rebuilt.site_changed
        except Exception:  # noqa: BLE001 - a fault of the program is shown on the page, and the preview outlives it
            self._problems, self._trace = (), format_exc()
        _say(*self._said(), self._summary())
        is_new = site_changed or self.panel() != panel
        if is_new:
            self._shown.clear()
        return is_new

    def show(self, path: str) -> None:
        """Note that a page is shown as it is now."""
        self._shown.add(path)

    def is_stale(self, path: str) -> bool:
        """Whether a page was not loaded since the last change: it was loaded earlier, or from an earlier preview."""
        return path not in self._shown

    def panel(self) -> bytes:
        """What every page shows on top: nothing, folded warnings, or the errors."""
        said = "\n\n".join(self._said())
        if not said:
            return b""
        opened = " open" if self._holds_the_site_back() else ""
        return (
            f'<details{opened} role="status" lang="en" style="{_PANEL_STYLE}">'
            f'<summary style="all:revert">{escape(self._summary())}</summary>'
            f'<pre style="{_TEXT_STYLE}">{escape(said)}</pre></details>'
        ).encode()

    def _said(self) -> tuple[str, ...]:
        return (self._trace,) if self._trace else tuple(map(str, filter(is_open, self._problems)))

    def _summary(self) -> str:
        if self._trace:
            return "This is a bug in Wickwright, not in your files. You still see the last good site."
        counts = problem_counts(self._problems)
        standing = (
            "You still see the last good site." if self._holds_the_site_back() else "The site is up to date."
        )
        return f"{counts[0].upper()}{counts[1:]}. {standing}"

    def _holds_the_site_back(self) -> bool:
        return bool(self._trace) or any(map(is_error, self._problems))


class _Page(StaticFileHandler):
    """A file of the site; a page has the desk's panel on top, and is never cached by the browser."""

    desk: ClassVar[_Desk]

    @classmethod
    def get_content(cls, abspath: str, start: int | None = None, end: int | None = None) -> Any:
        """The bytes to send: a page in one piece, because the reloading script is put into the first piece."""
        if abspath.endswith(".html"):
            return _for_preview(Path(abspath).read_bytes(), cls.desk.panel())[start:end]
        return super().get_content(abspath, start, end)

    def get_content_size(self) -> int:
        """The size of what is sent."""
        path = str(self.absolute_path)
        return len(self.get_content(path)) if path.endswith(".html") else super().get_content_size()

    def set_extra_headers(self, path: str) -> None:  # noqa: ARG002 - the signature is the library's
        """Keep nothing."""
        self.set_header("Cache-Control", "no-store")

    def should_return_304(self) -> bool:
        """Never: the panel may have changed though the file has not."""
        return False

    def compute_etag(self) -> None:
        """None, for the same reason."""

    def decode_argument(self, value: bytes, name: str | None = None) -> str:  # noqa: ARG002 - as above
        """Any bytes are a path, though perhaps to nothing."""
        return value.decode(errors="replace")

    async def get(self, path: str, include_body: bool = True) -> None:  # noqa: FBT001, FBT002 - as above
        """The file; anything else, or outside the site, counts as missing."""
        self.desk.show(self.request.path)
        try:
            await super().get(path, include_body)
        except (HTTPError, OSError, ValueError):
            raise HTTPError(404) from None

    def write_error(self, status_code: int, **_kwargs: Any) -> None:
        """A page in place of the missing one, which reloads like the others; a refused request learns nothing."""
        if status_code != 404:
            self.finish()
            return
        page = '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>404</title></head>'
        page += f"<body><p>There is no page here: {escape(self.request.path)}</p></body></html>"
        self.finish(_for_preview(page.encode(), self.desk.panel()))


def _told_if_stale(
    desk: _Desk, on_message: Callable[[LiveReloadHandler, str], None]
) -> Callable[[LiveReloadHandler, str], None]:
    """A page loaded before the last change that connects only after it is still told to reload."""

    def heard(page: LiveReloadHandler, message: str) -> None:
        on_message(page, message)
        url = json.loads(message).get("url")
        path = None if url is None else urlsplit(url).path
        if path is not None and desk.is_stale(path):
            desk.show(path)  # Told once, whatever the page does.
            page.send_message({"command": "reload", "path": _EVERY_FILE})

    return heard


def _for_preview(page: bytes, panel: bytes) -> bytes:
    """The page with the panel on top, prepared so that the reloading script can be put in and may run."""
    page = _SCRIPT_RULE.sub(b"", page)
    if b"</head>" not in page:
        page += b"</head>"
    body = _BODY.search(page)
    start = body.end() if body else len(page)
    return page[:start] + panel + page[start:]


def _say(*lines: str) -> None:
    sys.stdout.write("\n".join((*lines, "")))
    sys.stdout.flush()


def _let_only_errors_through(*loggers: str) -> None:
    for name in loggers:
        logging.getLogger(name).addFilter(lambda record: record.levelno >= logging.ERROR)
