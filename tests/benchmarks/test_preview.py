"""From a saved file to the page that a browser gets: the example shop in a preview of its own process.

The waits of the preview are of the clock, so the clock measures it all; the least of several saves is taken.
"""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from http.client import HTTPConnection
from pathlib import Path
from time import perf_counter, sleep

import pytest

import generator

MOST_S = 0.3
MOST_BESIDE_THE_BUILD_S = 0.12
SAVES = 8
ROOT = Path(generator.__file__).parents[1]
PREVIEW = """
import sys
import time
from generator.cli import main
from generator.commands import preview

def timed(*asked, build=preview.build, **named):
    started = time.perf_counter()
    built = build(*asked, **named)
    with open("builds", "a") as builds:
        builds.write(f"{time.perf_counter() - started}\\n")
    return built

preview.build = timed
sys.exit(main(["preview", "--no-browser", "--port", "0"]))
"""


class Running:
    """The preview of a shop, the page of a candle in it, and how long each build took."""

    def __init__(self, folder: Path, process: "subprocess.Popen[str]") -> None:
        assert process.stdout is not None
        lines = iter(process.stdout.readline, "")
        address = next(line for line in lines if line.startswith("the site is at "))
        self.port = int(re.findall(r":(\d+)/", address)[0])
        self.folder = folder

    def page(self) -> bytes:
        with closing(HTTPConnection("127.0.0.1", self.port, timeout=30)) as connection:
            connection.request("GET", "/candles/harbour-fog.html")
            return connection.getresponse().read()

    def built_s(self) -> list[float]:
        return [float(line) for line in (self.folder / "builds").read_text(encoding="utf-8").split()]


@pytest.fixture(name="running")
def _running(tmp_path: Path) -> Iterator[Running]:
    for name in ("content", "themes"):
        shutil.copytree(ROOT / name, tmp_path / name)
    process = subprocess.Popen(
        [sys.executable, "-c", PREVIEW],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        text=True,
    )
    yield Running(tmp_path, process)
    process.kill()
    process.communicate()


def a_gram_saved(running: Running, number: int) -> tuple[float, float]:
    """Seconds until the page is another, and those of the build among them."""
    recipe = running.folder / "content" / "candles" / "harbour-fog.yaml"
    text = recipe.read_text(encoding="utf-8")
    grams = re.search(r"cool-mist: (\d+) g", text)
    assert grams is not None
    changed = f"{text[: grams.start(1)]}{int(grams[1]) + 1}{text[grams.end(1) :]}"
    (beside := recipe.with_name(".saved")).write_text(changed, encoding="utf-8")
    before, builds = running.page(), len(running.built_s())
    sleep(0.3 + number * 0.01)  # so that saves fall on any moment between two looks
    beside.replace(recipe)
    started = perf_counter()
    while running.page() == before:
        sleep(0.001)
    took_s = perf_counter() - started
    (build_s,) = running.built_s()[builds:]
    return took_s, build_s


@pytest.mark.benchmark
def test_a_saved_gram_is_on_the_page_in_three_tenths_of_a_second(running: Running) -> None:
    took = [a_gram_saved(running, number) for number in range(SAVES)]
    least_s, beside_s = min(took_s for took_s, _ in took), min(took_s - build_s for took_s, build_s in took)

    print(f"\nsave to page {least_s:.3f} s, beside the build {beside_s:.3f} s; all: {took}")
    assert beside_s <= MOST_BESIDE_THE_BUILD_S
    assert least_s <= MOST_S
