"""The chart of a burn test: what it shows, and that nothing of the formula is in it."""

import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator.commands.build import build
from generator.documents.pages.burn_chart import HEIGHT, WIDTH, chart
from generator.facts.facts import BurnTrack, Track
from generator.making.options import CommandOptions
from tests.conftest import EXAMPLE, PROJECT
from tests.documents.sample_house import house, size
from tests.loaded import loaded_shop

BURN_TESTS = PROJECT / "generator" / "data" / "handbook" / "burn-tests.md"


def chart_of(net_g: float, claim_h: int, points: tuple[tuple[float, float], ...]) -> str:
    track = BurnTrack(
        net_g=net_g,
        heel_g=net_g / 10,
        rate_g_per_h=4.0,
        claim_h=claim_h,
        tracks=(Track(name="A", points=points),),
    )
    one = size(burn_track=track)
    return chart(house(one), one, track, "workshop/tests/SM-30.svg").text


def numbers_along(chart: str, anchor: str) -> list[int]:
    return [int(number) for number in re.findall(rf'text-anchor="{anchor}">(\d+)<', chart)]


def test_a_track_ends_at_what_the_scale_said(
    ask: Callable[[Path], CommandOptions], warm_output: Path
) -> None:
    known = loaded_shop(replace(ask(EXAMPLE), output=warm_output))
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
    tmp_path: Path, ask: Callable[[Path], CommandOptions], warm_output: Path
) -> None:
    asked = ask(shutil.copytree(EXAMPLE, tmp_path / "content"))
    candle = asked.content / "candles" / "net-loft.yaml"
    text = candle.read_text(encoding="utf-8")
    candle.write_text(text.replace("scent: Net Loft", "scent: Net Loft by Night"), encoding="utf-8")

    assert build(asked).laid is not None

    assert not (warm_output / "site/tests/NL-22.svg").exists()
    assert (warm_output / "workshop/tests/NL-22.svg").exists()


@pytest.mark.parametrize("drafts", [False, True])
def test_private_charts_are_in_the_workshop_alone(
    tmp_path: Path, ask: Callable[[Path], CommandOptions], warm_output: Path, drafts: bool
) -> None:
    asked = replace(ask(shutil.copytree(EXAMPLE, tmp_path / "content")), drafts=drafts)
    with (asked.content / "maker.yaml").open("a", encoding="utf-8") as maker:
        maker.write("burn_charts: private\n")

    assert build(asked).laid is not None

    site = warm_output / "site"
    assert not (site / "tests").exists()
    assert [path for path in site.rglob("*.html") if "tests/" in path.read_text(encoding="utf-8")] == []
    assert (warm_output / "workshop/tests/NL-22.svg").exists()


def test_a_weighing_is_read_off_a_chart_to_the_part_of_the_wax_that_the_handbook_says() -> None:
    chart = chart_of(180.0, 40, ((0, 180.0), (40, 20.0)))

    (left,) = re.findall(r'<path class="rate" d="M\d+ (\d+)L', chart)
    (base,) = re.findall(r'<path class="axis" fill="none" d="M\d+ \d+V(\d+)', chart)
    assert round(180 / (int(base) - int(left)), 1) == 0.7
    assert "0.4 % of the wax (0.7 g of 180 g)" in BURN_TESTS.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("net_g", "claim_h", "hours", "grams"),
    [
        (20.0, 4, [0, 1, 2, 3, 4, 5], [0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20]),
        (250.0, 46, [0, 10, 20, 30, 40, 50], [0, 50, 100, 150, 200, 250]),
        (3000.0, 600, [0, 100, 200, 300, 400, 500, 600], [0, 500, 1000, 1500, 2000, 2500, 3000]),
    ],
    ids=["a tealight", "a tumbler", "a bowl of three kilograms"],
)
def test_the_steps_of_a_chart_follow_its_candle(
    net_g: float, claim_h: int, hours: list[int], grams: list[int]
) -> None:
    chart = chart_of(net_g, claim_h, ((0, net_g), (claim_h, net_g / 9)))

    assert numbers_along(chart, "middle") == hours
    assert numbers_along(chart, "end") == grams


def test_the_rate_of_a_short_test_stays_on_the_ground() -> None:
    chart = chart_of(220.0, 24, ((0, 220.0), (12, 172.0)))

    places = [tuple(map(int, found)) for found in re.findall(r"[ML](\d+) (\d+)", chart)]
    assert all(x <= WIDTH and y <= HEIGHT for x, y in places)
    assert all(int(x) <= WIDTH for x in re.findall(r'<text x="(\d+)"', chart))


def test_an_early_promise_is_written_where_there_is_room_for_it() -> None:
    early = chart_of(220.0, 10, ((0, 220.0), (12, 172.0)))
    late = chart_of(220.0, 44, ((0, 220.0), (48, 28.0)))

    assert re.search(r'text-anchor="start">promised', early)
    assert re.search(r'text-anchor="end">promised', late)
