"""A smallest order is a whole number of cases, whether a format or a size says so."""

import shutil
from pathlib import Path

import pytest

from generator.making.load_shop import load_shop
from generator.making.options import CommandOptions
from generator.problems import Severity
from tests.conftest import PROJECT

FIRST_SHOP = PROJECT / "generator/data/first_shop"


def told(folder: Path, trade: str) -> list[str]:
    """What is said of the small shop whose candle is sold to shops like this."""
    shutil.copytree(FIRST_SHOP, folder / "content")
    candle = folder / "content/candles/wet-garden.yaml"
    text = candle.read_text(encoding="utf-8").replace("case: 6, minimum: 6", trade)
    candle.write_text(text, encoding="utf-8")
    asked = CommandOptions(content=folder / "content", output=folder / "output", as_of=None, as_data=False)
    problems = load_shop(asked).problems
    return [
        f"{one.what}; {one.fix}"
        for one in problems
        if one.severity is Severity.WARNING and "case" in one.what
    ]


@pytest.mark.parametrize(
    ("trade", "expected"),
    [
        ("case: 6, minimum: 6", []),
        ("case: 6, minimum: 18", []),
        ("case: 6", []),
        ("case: 12, minimum: 6", ["minimum 6 is not a whole number of cases of 12; minimum: 12"]),
        ("case: 6, minimum: 9", ["minimum 9 is not a whole number of cases of 6; minimum: 12"]),
    ],
    ids=["one case", "three cases", "no minimum", "half a case", "a case and a half"],
)
def test_an_order_that_would_break_a_case_is_warned_of(
    trade: str, expected: list[str], tmp_path: Path
) -> None:
    assert told(tmp_path, trade) == expected
