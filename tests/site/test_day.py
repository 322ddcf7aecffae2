"""The day of a shop: its own fixed one, or the one on which a command is run."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from generator.cli import main
from generator.commands import issue, preview, verify
from generator.commands.build import build
from generator.making.options import CommandOptions
from generator.writing.preview_server import Rebuilt
from tests.conftest import PROJECT, TODAY, Calendar
from tests.loaded import loaded_shop
from tests.site.story import rewrite
from tests.site.test_command import everything_below

CODE = "WG-20"
NEXT = TODAY + timedelta(days=1)


@pytest.fixture(name="asked")
def _asked(shop_folder: Path, ask: Callable[[Path], CommandOptions]) -> CommandOptions:
    """A new shop, as of today."""
    assert "\nas_of: today " in (shop_folder / "maker.yaml").read_text(encoding="utf-8")
    return ask(shop_folder)


def built(asked: CommandOptions) -> dict[str, bytes | str]:
    """The site of a shop, and the day that its log gives to all of the output."""
    assert build(asked).laid is not None
    log = json.loads((asked.output / "workshop" / "build.json").read_bytes())
    return {**everything_below(asked.output / "site"), "day": log["as_of"]}


def test_a_build_on_the_next_day_shows_it_and_is_what_a_clean_one_makes(asked: CommandOptions) -> None:
    issue.run(asked, [CODE], "first issue")
    first = built(asked)

    again = built(replace(asked, today=NEXT))

    assert again == built(replace(asked, today=NEXT, output=asked.output.with_name("clean")))
    assert (first["day"], again["day"]) == ("2026-11-01", "2026-11-02")
    assert "1 November 2026" in str(first["index.html"])
    assert "2 November 2026" in str(again["index.html"])
    assert verify.run(replace(asked, today=NEXT + timedelta(days=1))) == 0, "what was issued has no other day"
    assert built(asked) == first


def test_the_day_that_is_left_out_is_today(asked: CommandOptions) -> None:
    rewrite(asked, "maker.yaml", "as_of: today", "# no day")

    assert loaded_shop(asked).shop.as_of == TODAY
    assert loaded_shop(replace(asked, today=NEXT)).shop.as_of == NEXT


def test_a_fixed_day_is_the_same_on_every_day(asked: CommandOptions) -> None:
    rewrite(asked, "maker.yaml", "as_of: today", "as_of: 2026-10-30")

    assert loaded_shop(replace(asked, today=NEXT)).shop.as_of == date(2026, 10, 30)


def test_the_day_that_is_asked_for_goes_before_both(asked: CommandOptions) -> None:
    assert loaded_shop(replace(asked, as_of=date(2026, 11, 20))).shop.as_of == date(2026, 11, 20)


def test_the_clock_is_looked_at_when_a_command_is_run(
    asked: CommandOptions, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["explain", CODE, "--json", "--content", str(asked.content), "--output", str(asked.output)]
    days = []
    for day in (TODAY, NEXT):
        monkeypatch.setattr(Calendar, "day", day)
        assert main(words) == 0
        days.append(json.loads(capsys.readouterr().out)["as_of"])

    assert days == ["2026-11-01", "2026-11-02"]


def test_a_sheet_is_issued_on_the_real_day_and_never_before_the_last(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    assert issue.run(replace(asked, today=NEXT), [CODE], "first issue") == 0
    assert f"on {NEXT}" in capsys.readouterr().out

    assert issue.run(asked, [CODE], "the clock was wrong") == 2

    assert f"was issued on {NEXT}, after {TODAY}" in capsys.readouterr().err


def test_a_preview_that_runs_over_midnight_shows_the_new_day_with_the_next_save(
    asked: CommandOptions, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = []

    def over_midnight(
        site: Path, _watched: object, rebuild: Callable[[], Rebuilt], *_: object, **_of: bool
    ) -> None:
        for day in (TODAY, NEXT):
            monkeypatch.setattr(Calendar, "day", day)
            assert not rebuild().problems
            shown.append((site / "index.html").read_text(encoding="utf-8"))

    monkeypatch.setattr(preview, "serve", over_midnight)

    assert preview.run(asked, port=0, open_browser=False) == 0

    assert "1 November 2026" in shown[0]
    assert "2 November 2026" in shown[1]


def test_nothing_but_the_clock_asks_what_day_it_is() -> None:
    asks = re.compile(r"\bdate\.today\(|\.(utc)?now\(|\btime\.(local|gm|c)time\(|fromtimestamp\(")
    modules = (PROJECT / "generator").rglob("*.py")

    assert [one.name for one in modules if asks.search(one.read_text(encoding="utf-8"))] == ["clock.py"]
