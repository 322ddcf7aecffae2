"""Ctrl-C at any moment: no command answers it with a traceback."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

import generator

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C cannot be sent to one process there")

WHILE_LOADING = """
class Interrupting:
    def find_spec(self, name, *_):
        if name == "generator.parser":
            os.kill(os.getpid(), signal.SIGINT)

sys.meta_path.insert(0, Interrupting())
"""
WHILE_AT_WORK = """
from generator import cli

def at_work(_asked):
    os.kill(os.getpid(), signal.SIGINT)
    time.sleep(5)

cli.parser = at_work
"""
WHEN_DONE = "atexit.register(os.kill, os.getpid(), signal.SIGINT)"
RUN = """
import atexit, os, signal, sys, time
signal.signal(signal.SIGINT, signal.{listens})
{interrupt}
from generator.__main__ import main
sys.exit(main())
"""


def run(interrupt: str, listens: str = "default_int_handler") -> tuple[int, str]:
    """The exit code of ``wickwright start --help`` and its errors."""
    process = subprocess.run(
        [sys.executable, "-c", RUN.format(interrupt=interrupt, listens=listens), "start", "--help"],
        env={**os.environ, "PYTHONPATH": str(Path(generator.__file__).parents[1])},
        capture_output=True,
        text=True,
        timeout=20,
        check=False,
    )
    return process.returncode, process.stderr


@pytest.mark.parametrize("interrupt", [WHILE_LOADING, WHEN_DONE], ids=["while loading", "when done"])
def test_a_command_that_is_not_at_work_ends_in_silence(interrupt: str) -> None:
    assert run(interrupt) == (3, "")


def test_a_command_at_work_says_how_it_leaves_things() -> None:
    assert run(WHILE_AT_WORK) == (3, "wickwright: stopped; files already written are complete.\n")


@pytest.mark.parametrize("interrupt", [WHILE_LOADING, WHEN_DONE], ids=["while loading", "when done"])
def test_ctrl_c_stays_off_where_it_was_switched_off(interrupt: str) -> None:
    assert run(interrupt, "SIG_IGN") == (0, "")
