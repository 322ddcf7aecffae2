"""Laying out, ended by a real kill at any moment: every file whole, every page with its parts, nothing forgotten."""

import json
import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

import generator
from generator.writing.manifest import read_manifest
from tests.writing.laying import lay_out

LAY_OUT_FOR_EVER = """
import json, sys
from pathlib import Path
from tests.writing.laying import lay_out

editions = [
    {path: text.encode() for path, text in edition.items()}
    for edition in json.loads(Path(sys.argv[2]).read_text(encoding="utf-8"))
]
print("ready", flush=True)
while True:
    for files in editions:
        lay_out(Path(sys.argv[1]), files)
"""


def edition(letter: str) -> dict[str, bytes]:
    """A site of a few hundred files; each page names the style and the picture it needs."""
    style = {f"site/styles/site.{letter}.css": letter.encode() * 20_000}
    pictures = {f"site/pictures/{n}.{letter}.webp": letter.encode() * 5_000 for n in range(100)}
    pages = {f"site/candles/{n}.html": page(letter, n % 100) for n in range(150)}
    return {**style, **pictures, **pages, f"site/only-{letter}/index.html": page(letter, 1)}


def page(letter: str, picture: int) -> bytes:
    return f"site/styles/site.{letter}.css site/pictures/{picture}.{letter}.webp".encode() + b" " * 3_000


OLD, NEW = edition("A"), edition("B")


@pytest.fixture(name="output", scope="module")
def _output(tmp_path_factory: pytest.TempPathFactory) -> Path:
    output = tmp_path_factory.mktemp("killed") / "output"
    editions = [{path: data.decode() for path, data in files.items()} for files in (OLD, NEW)]
    output.with_name("editions.json").write_text(json.dumps(editions), encoding="utf-8")
    lay_out(output, NEW)
    return output


def lay_out_until_killed(output: Path, seconds: float) -> str:
    """What a process that lays out both editions in turn said of itself before it was killed."""
    environment = {**os.environ, "PYTHONPATH": str(Path(generator.__file__).parents[1])}
    command = [sys.executable, "-c", LAY_OUT_FOR_EVER, str(output), str(output.with_name("editions.json"))]
    with subprocess.Popen(
        command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(seconds)
        process.kill()
        return process.communicate()[1]


def laid_files(output: Path) -> dict[str, bytes]:
    found = {path.relative_to(output).as_posix(): path for path in output.rglob("*") if path.is_file()}
    return {name: path.read_bytes() for name, path in found.items() if not name.startswith(".")}


def torn(files: dict[str, bytes]) -> list[str]:
    return [path for path, data in files.items() if data not in (OLD.get(path), NEW.get(path))]


def pages_without_a_part(files: dict[str, bytes]) -> list[str]:
    pages = {path: data.decode().split() for path, data in files.items() if path.endswith(".html")}
    return [path for path, parts in pages.items() if not files.keys() >= set(parts)]


@pytest.mark.parametrize("moment", range(10))
def test_a_kill_leaves_whole_files_pages_with_all_their_parts_and_no_orphan(
    output: Path, moment: int
) -> None:
    seconds = random.uniform(moment, moment + 1) * 0.012  # noqa: S311 - all moments of a run of about 0.1 s

    said = lay_out_until_killed(output, seconds)

    files = laid_files(output)
    assert (said, torn(files), pages_without_a_part(files)) == ("", [], [])
    assert files.keys() <= read_manifest(output).keys()


def test_a_run_after_a_kill_completes_and_leaves_no_temporary_file(output: Path) -> None:
    lay_out_until_killed(output, 0.03)

    lay_out(output, OLD)

    assert laid_files(output) == OLD
    assert [path.name for path in output.rglob(".*")] == [".manifest.json"]
