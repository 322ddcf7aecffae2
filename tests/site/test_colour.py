"""Colour is for a terminal alone, and only where it is wanted; the last line says what to do next."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

import generator
from generator.cli import main
from generator.making.colour import coloured
from tests.site.test_progress import Terminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo terminals there")

ROOT = Path(generator.__file__).parents[1]
ESCAPE = "\033["


def checked(content: Path, *words: str) -> str:
    """What ``check`` writes to a terminal."""
    terminal = Terminal(columns=200)
    kept = {name: value for name, value in os.environ.items() if name not in {"NO_COLOR", "TERM"}}
    command = [
        sys.executable,
        "-m",
        "generator",
        "check",
        "--content",
        "content",
        "--date",
        "2026-11-01",
        *words,
    ]
    with subprocess.Popen(
        command,
        cwd=content.parent,
        env={**kept, "PYTHONPATH": str(ROOT), "TERM": "xterm"},
        stdout=terminal.theirs,
        stderr=terminal.theirs,
    ):
        os.close(terminal.theirs)
        told = terminal.to_the_end()
    terminal.close()
    return told


@pytest.fixture(name="content")
def _content(shop_folder: Path) -> Path:
    """A shop with an error and a warning."""
    (shop_folder / "waxes" / "rapeseed.yaml").write_text("name: Rapeseed\n", encoding="utf-8")
    return shop_folder


def test_a_terminal_shows_what_stands_out(content: Path) -> None:
    told = checked(content)

    assert "\033[1mcontent/waxes/rapeseed.yaml:1:1\033[0m: \033[31merror\033[0m: " in told
    assert "\033[1mNext:\033[0m fix the errors, then: wickwright check\r\n" in told


@pytest.mark.parametrize(
    ("changed", "shows"),
    [({}, True), ({"NO_COLOR": ""}, True), ({"NO_COLOR": "0"}, False), ({"TERM": "dumb"}, False)],
    ids=["wanted", "an empty wish", "unwanted", "dumb"],
)
def test_a_terminal_gets_colour_where_it_is_wanted(
    changed: dict[str, str], *, shows: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, value in {"TERM": "xterm", **changed}.items():
        monkeypatch.setenv(name, value)
    terminal = Terminal(columns=80)

    with open(terminal.theirs, "w", encoding="utf-8", closefd=False) as stream:  # it is open already
        assert coloured("error", "wickwright:", stream).startswith(ESCAPE) is shows


def test_data_has_no_colour_in_a_terminal_either(content: Path) -> None:
    told = checked(content, "--json")

    assert "rapeseed.yaml" in told
    assert ESCAPE not in told


def test_a_pipe_gets_no_colour(
    content: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TERM", "xterm")

    assert main(["check", "--content", str(content), "--output", str(content.parent / "output")]) == 1

    told = capsys.readouterr().out
    assert "error: " in told
    assert ESCAPE not in told
