import shutil
import time
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from generator.reading.read_shop import read_shop
from tests.conftest import TODAY
from tests.reading.broken_shops import GOOD

CANDLES = 300
MOST_TIMES_OF_PARSING = 4.0
"""Parsing with places, validating and everything else, against the parser in C alone."""


def _least_seconds(work: Callable[[], object]) -> float:
    def seconds() -> float:
        start = time.perf_counter()
        work()
        return time.perf_counter() - start

    return min(seconds() for _ in range(3))


@pytest.mark.benchmark
def test_reading_many_entries_takes_a_small_multiple_of_parsing_them(tmp_path: Path) -> None:
    content = Path(shutil.copytree(GOOD, tmp_path / "content"))
    candle = (GOOD / "candles/tide-table.yaml").read_text(encoding="utf-8")
    for number in range(CANDLES):
        (content / f"candles/tide-{number}.yaml").write_text(f"{candle}# {number}\n", encoding="utf-8")
    sources = [path.read_bytes() for path in (content / "candles").iterdir()]

    parsing = _least_seconds(lambda: [yaml.load(source, Loader=yaml.CSafeLoader) for source in sources])
    reading = _least_seconds(lambda: read_shop(content, "content", TODAY))

    assert reading / parsing < MOST_TIMES_OF_PARSING
