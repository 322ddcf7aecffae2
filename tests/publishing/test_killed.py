"""Killed at random moments of an upload to a real server: what can be reached is whole, and the next run completes."""

import os
import random
import shutil
import signal
import subprocess
import sys
import time
from time import monotonic

import pytest

from tests.publishing.conftest import AT_ONCE, ONE_OF_EACH, Bench
from tests.publishing.sites import assert_whole, lay_site
from tests.publishing.upload import command_for

KILLS = 50
KILLS_IN_A_HURRY = 3
"""Fifty take minutes over SFTP, so the quick suite cuts fewer uploads."""
COMPLETED_EVERY = 3


def _start(bench: Bench) -> subprocess.Popen[str]:
    process = subprocess.Popen(
        command_for(bench.content, bench.site, bench.folder / "runs"),
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    return process


def _kill(process: subprocess.Popen[str]) -> bool:
    """End the upload and the client it started; whether it was still at work."""
    was_running = process.poll() is None
    if was_running:
        os.killpg(process.pid, signal.SIGKILL)
    process.communicate()
    return was_running


def _next_version(bench: Bench, version: int) -> None:
    shutil.rmtree(bench.site, ignore_errors=True)
    lay_site(bench.site, version)


@pytest.mark.skipif(sys.platform == "win32", reason="process groups are ended otherwise on Windows")
@pytest.mark.parametrize("bench", ONE_OF_EACH, indirect=True)
def test_every_page_is_whole_after_a_kill_and_the_next_run_completes(bench: Bench) -> None:
    assert _uploads_until(bench, KILLS_IN_A_HURRY) >= KILLS_IN_A_HURRY


@pytest.mark.benchmark
@pytest.mark.skipif(sys.platform == "win32", reason="process groups are ended otherwise on Windows")
def test_every_page_is_whole_after_each_of_fifty_kills(bench: Bench) -> None:
    assert _uploads_until(bench, KILLS) >= KILLS


def _uploads_until(bench: Bench, kills: int) -> int:
    """Uploads ended at random moments until so many were still at work, every page looked at after each; how many."""
    chance = random.Random(20261125)  # noqa: S311  (moments, no secrets)
    _next_version(bench, 0)
    process = _start(bench)
    began = monotonic()
    process.communicate()
    latest_s = monotonic() - began

    version = cut = 0
    while cut < kills:
        version += 1
        before = bench.seen() if bench.kind.endswith(AT_ONCE) else {}
        _next_version(bench, version)
        process = _start(bench)
        time.sleep(chance.uniform(0, latest_s))
        was_at_work = _kill(process)
        bench.place.settle()
        seen = bench.seen()
        assert_whole(seen)
        if bench.kind.endswith(AT_ONCE):
            assert seen in (before, bench.built())
        cut += was_at_work
        # One that was done before its moment came tells that moments are drawn from too long a time.
        latest_s *= 1 if was_at_work else 0.8
        if version % COMPLETED_EVERY == 0:
            bench.upload()
            assert bench.seen() == bench.built()
    return version
