"""A thousand burn-safety sheets set in type on two threads, and again when nothing changed."""

from pathlib import Path
from time import monotonic

import pytest

from generator.documents.papers.printed_sheets import papers_today
from generator.making.options import CommandOptions
from generator.making.pdf_papers import pressed
from generator.writing.output import LazyBytes
from generator.writing.store import Store
from tests.example.thousand import write_shop
from tests.loaded import house_and_theme

CODES = 500
MOST_SECONDS = 20.0
MOST_AGAIN = 0.2
"""What comes from the store, as a part of what setting it took."""


@pytest.mark.benchmark
def test_a_thousand_sheets_are_set_in_twenty_seconds_and_not_set_again(tmp_path: Path) -> None:
    write_shop(tmp_path / "content", codes=CODES)
    asked = CommandOptions(
        content=tmp_path / "content", output=tmp_path / "output", as_of=None, as_data=False
    )
    sound = house_and_theme(asked)
    house = sound.house
    sheets = [paper for scent in house.scents for size in scent.sizes for paper in papers_today(house, size)]
    store = Store(asked.output / ".store")

    started = monotonic()
    first = pressed(sheets, sound.presentation.theme, store)
    took = monotonic() - started
    store.save()
    started = monotonic()
    later = Store(asked.output / ".store")
    kept = pressed(sheets, sound.presentation.theme, later).files
    again = {path: one.fetch() for path, one in kept.items() if isinstance(one, LazyBytes)}
    took_again = monotonic() - started

    print(f"\n{len(sheets)} sheets: {took:.1f} s, again {took_again:.1f} s")
    assert len(first.files) == len(sheets) == 2 * CODES
    assert again == first.files
    assert later.counts()["papers"].misses == 0
    assert took < MOST_SECONDS
    assert took_again < MOST_AGAIN * took
