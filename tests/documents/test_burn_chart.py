"""The chart of a burn test: what it shows, and that nothing of the formula is in it."""

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.stories.asked import Asked
from generator.stories.build import build
from generator.stories.shop import know
from generator.writing.store import Store
from tests.conftest import EXAMPLE


def test_a_track_ends_at_what_the_scale_said(ask: Callable[[Path], Asked], warm_output: Path) -> None:
    known = know(ask(EXAMPLE), Store(warm_output / ".store"))
    recorded, track = next((g.recorded, f.burn_track) for g, f in known.facts if f.stock_code == "SS-30")

    assert track is not None
    first = [s for s in recorded.tests[0].sessions if s.piece == "A" and s.outcome != "fault"]
    burnt_g = sum(s.before_g - s.after_g for s in first)
    assert track.tracks[0].points[-1] == pytest.approx((sum(s.hours for s in first), track.net_g - burnt_g))


def test_a_public_chart_says_rate_and_hours_and_no_number_finer_than_it_is_drawn(
    built_example: Path,
) -> None:
    chart = (built_example / "site/tests/NL-22.svg").read_text(encoding="utf-8")
    assert "promised:" in chart
    assert [number for number in re.findall(r"\d+\.\d+", chart) if len(number) > 3] == []


def test_a_candle_that_changed_since_its_sheet_was_issued_shows_no_chart_on_the_site(
    tmp_path: Path, ask: Callable[[Path], Asked], warm_output: Path
) -> None:
    asked = ask(shutil.copytree(EXAMPLE, tmp_path / "content"))
    candle = asked.content / "candles" / "net-loft.yaml"
    text = candle.read_text(encoding="utf-8")
    candle.write_text(text.replace("scent: Net Loft", "scent: Net Loft by Night"), encoding="utf-8")

    assert build(asked).laid is not None

    assert not (warm_output / "site/tests/NL-22.svg").exists()
    assert (warm_output / "workshop/tests/NL-22.svg").exists()
