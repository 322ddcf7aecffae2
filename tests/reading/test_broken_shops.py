from pathlib import Path

import pytest

from generator.reading.read_shop import read_shop
from tests.conftest import TODAY
from tests.reading.broken_shops import CASES, EXPECTED, GOOD, broken_shop, told_of_shop


def _named(case: Path) -> str:
    return case.name


def test_the_good_shop_has_no_fault() -> None:
    reading = read_shop(GOOD, "content", TODAY)

    assert reading.problems == ()


@pytest.mark.parametrize("case", CASES, ids=_named)
def test_a_broken_shop_is_told_exactly_what_is_wrong(case: Path, tmp_path: Path) -> None:
    content = broken_shop(case, tmp_path)

    told = told_of_shop(content)

    assert told == (case / EXPECTED).read_text(encoding="utf-8")
