"""Colour is for a terminal alone, and only where it is wanted; the last line says what to do next."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

import generator
from tests.site.test_progress import Terminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo terminals there")

ROOT = Path(generator.__file__).parents[1]
ESCAPE = "\033["


def checked(content: Path, *words: str, **changed: str) -> str:
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
        env={**kept, "PYTHONPATH": str(ROOT), "TERM": "xterm", **changed},
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
    ("words", "changed"),
    [((), {"NO_COLOR": "1"}), ((), {"TERM": "dumb"}), (("--json",), {})],
    ids=["NO_COLOR", "dumb", "json"],
)
def test_nobody_gets_colour_who_wants_none(
    words: tuple[str, ...], changed: dict[str, str], content: Path
) -> None:
    told = checked(content, *words, **changed)

    assert "rapeseed.yaml" in told
    assert ESCAPE not in told


def test_an_empty_wish_is_none(content: Path) -> None:
    assert ESCAPE in checked(content, NO_COLOR="")


def test_a_pipe_gets_no_colour(content: Path) -> None:
    command = [sys.executable, "-m", "generator", "check", "--content", str(content)]
    ended = subprocess.run(
        command,
        env={**os.environ, "PYTHONPATH": str(ROOT), "TERM": "xterm"},
        capture_output=True,
        check=False,
    )

    assert b"error: " in ended.stdout
    assert b"\033" not in ended.stdout + ended.stderr
