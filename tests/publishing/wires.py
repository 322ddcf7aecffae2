"""What a test puts in the way: a connection that is cut, a store that only refuses, a disk of a given size."""

import shutil
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlsplit

import pytest


class Wire:
    """A way to a port that carries so many bytes, and then nothing more; ``mend`` lets all through."""

    def __init__(self, aim: int, bytes_left: int) -> None:
        self._aim = aim
        self._left: float = bytes_left
        self._entrance = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._entrance.getsockname()[1]
        threading.Thread(target=self._let_in, daemon=True).start()

    def mend(self) -> None:
        self._left = float("inf")

    def close(self) -> None:
        self._entrance.close()

    def _let_in(self) -> None:
        while True:
            try:
                here, _ = self._entrance.accept()
            except OSError:
                return
            there = socket.create_connection(("127.0.0.1", self._aim))
            threading.Thread(target=self._carry, args=(here, there), daemon=True).start()
            threading.Thread(target=self._carry, args=(there, here, 0), daemon=True).start()

    def _carry(self, source: socket.socket, sink: socket.socket, weight: int = 1) -> None:
        try:
            while (data := source.recv(4096)) and self._left > 0:
                self._left -= weight * len(data)
                sink.sendall(data)
        except OSError:
            pass
        for end in (source, sink):
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
            end.close()


@contextmanager
def wire_to(port: int, bytes_left: int) -> Iterator[Wire]:
    wire = Wire(port, bytes_left)
    try:
        yield wire
    finally:
        wire.close()


def port_of(endpoint: str) -> int:
    port = urlsplit(endpoint).port
    assert port is not None
    return port


@contextmanager
def refusing_store(code: str, status: int) -> Iterator[str]:
    """A store that answers every question with one refusal, in the form that S3 gives it."""

    class Refusing(BaseHTTPRequestHandler):
        def _refuse(self) -> None:
            self.rfile.read(int(self.headers.get("Content-Length", "0")))
            body = f"<?xml version='1.0'?><Error><Code>{code}</Code><Message>no</Message></Error>".encode()
            self.send_response(status)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        do_GET = do_PUT = do_DELETE = _refuse  # noqa: N815  (the names that the server looks for)

        def log_message(self, *_: object) -> None: ...

    server = ThreadingHTTPServer(("127.0.0.1", 0), Refusing)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        server.server_close()


@contextmanager
def small_disk(place: Path, options: str) -> Iterator[None]:
    """A disk in memory, mounted there; skipped where nobody may mount."""
    if not sys.platform.startswith("linux") or shutil.which("mount") is None:
        pytest.skip("disks in memory are made on Linux only")
    try:
        subprocess.run(["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(place)], check=True)  # noqa: S607
    except subprocess.CalledProcessError:
        pytest.skip("this user may not mount a disk")
    try:
        yield
    finally:
        subprocess.run(["umount", str(place)], check=True)  # noqa: S607


def mount_anew(place: Path, options: str) -> None:
    subprocess.run(["mount", "-o", f"remount,{options}", str(place)], check=True)  # noqa: S607
