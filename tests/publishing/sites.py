"""Invented sites of any size, and what a target must be at any moment."""

from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from generator.writing.link_targets import dead_links


def lay_site(folder: Path, version: int, pages: int = 30) -> None:
    """A site whose pages each need a picture of their own, named by its content; every third page stays as it is."""
    for number in range(pages):
        written = version if number % 3 else 0
        picture = f"picture {number} of {written} ".encode() * 500
        name = f"p/{number}-{sha256(picture).hexdigest()[:12]}.webp"
        _write(folder / name, picture)
        _write(folder / f"c/{number}.html", f'<html><img src="../{name}">{"text " * 200}</html>'.encode())
    gone = f"c/only-{version}.html"
    _write(folder / gone, b"<html></html>")
    links = "".join(f'<a href="c/{number}.html">' for number in range(pages))
    _write(folder / "index.html", f'<html><a href="{gone}">{links}</html>'.encode())


def assert_whole(files: Mapping[str, bytes]) -> None:
    """Every page that is there ends where it should, and all that it leads to is there."""
    found = {path: data for path, data in files.items() if not path.rpartition("/")[2].startswith(".")}
    cut = [path for path, data in found.items() if path.endswith(".html") and not data.endswith(b"</html>")]
    assert cut == []
    assert_linked(found)


def assert_linked(files: Mapping[str, bytes]) -> None:
    """All that a page leads to is there."""
    assert dead_links(files, files.__getitem__) == ()


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
