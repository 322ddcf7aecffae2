"""A thousand burn-safety sheets set in type on two threads."""

from pathlib import Path
from time import monotonic

import pytest

from generator.documents.papers.printed_sheets import papers_today
from generator.making.options import CommandOptions
from generator.making.pdf_papers import pressed
from tests.example.thousand import write_shop
from tests.loaded import house_and_theme

CODES = 500
MOST_SECONDS = 20.0


@pytest.mark.benchmark
def test_a_thousand_sheets_are_set_in_twenty_seconds(tmp_path: Path) -> None:
    write_shop(tmp_path / "content", codes=CODES)
    asked = CommandOptions(
        content=tmp_path / "content", output=tmp_path / "output", as_of=None, as_data=False
    )
    sound = house_and_theme(asked)
    house = sound.house
    sheets = [paper for scent in house.scents for size in scent.sizes for paper in papers_today(house, size)]

    started = monotonic()
    made = pressed(sheets, sound.presentation.theme)
    took = monotonic() - started

    print(f"\n{len(sheets)} sheets: {took:.1f} s")
    assert len(made.files) == len(sheets) == 2 * CODES
    assert took < MOST_SECONDS
