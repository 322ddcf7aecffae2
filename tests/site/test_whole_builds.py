"""Whole builds: the same bytes again, whatever a file looks like, and nothing by halves."""

import os
import random
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator.commands.build import build
from generator.making.options import CommandOptions
from tests.conftest import PROJECT
from tests.site.test_command import everything_below

KILLS = 6


def reformatted(entry: str) -> str:
    """The same entry with blank lines, comments, and its top-level keys in another order."""
    head, *blocks = re.split(r"^(?=[a-z_]+:)", entry, flags=re.MULTILINE)
    return head + "\n# a note to myself\n\n".join(reversed([block.rstrip("\n") + "\n" for block in blocks]))


def test_a_reformatted_entry_changes_no_byte_of_the_site(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    asked = ask(shop_folder)
    build(asked)
    before = everything_below(asked.output / "site")

    for entry in shop_folder.rglob("*.yaml"):
        entry.write_text(reformatted(entry.read_text(encoding="utf-8")), encoding="utf-8")
    again = build(asked)

    assert again.problems == ()
    assert everything_below(asked.output / "site") == before


def test_a_site_below_a_folder_of_its_host_names_its_pages_there(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    asked, maker, web = ask(shop_folder), shop_folder / "maker.yaml", "https://host.example/~ferry/shop/"
    text = re.sub(r"(?m)^web: \S+", f"web: {web}", maker.read_text(encoding="utf-8"))
    maker.write_text(text, encoding="utf-8")

    assert build(asked).laid is not None

    site = asked.output / "site"
    for page in (path for path in site.rglob("*.html") if path.name != "404.html"):
        address = f"{web}{page.relative_to(site).as_posix()}".removesuffix("/index.html")
        canonical = re.findall(r'<link rel="canonical" href="([^"]+)"', page.read_text(encoding="utf-8"))
        assert [each.removesuffix("/index.html").rstrip("/") for each in canonical] == [address], page
    assert f'href="{web}"' in (site / "404.html").read_text(encoding="utf-8")


def test_ingredients_in_another_order_change_no_byte_of_the_site(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    asked, candle = ask(shop_folder), shop_folder / "candles" / "wet-garden.yaml"
    build(asked)
    before = everything_below(asked.output / "site")

    text = candle.read_text(encoding="utf-8")
    swapped = re.sub(r"(  rapeseed: 1000 g\n)(  wet-garden: .*\n)", r"\2\1", text)
    candle.write_text(swapped, encoding="utf-8")
    build(asked)

    assert swapped != text
    assert everything_below(asked.output / "site") == before


def test_a_shop_built_elsewhere_without_memory_has_the_same_bytes(shop_folder: Path, tmp_path: Path) -> None:
    first, second = (
        CommandOptions(content=shop_folder, output=tmp_path / name, as_of=None, as_data=False)
        for name in ("one", "two")
    )
    build(first)
    build(first)
    build(second)

    assert everything_below(first.output / "site") == everything_below(second.output / "site")


def test_building_again_writes_nothing_but_the_log(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    asked = ask(shop_folder)
    build(asked)

    again = build(asked)

    assert again.laid is not None
    assert (again.laid.written, again.laid.removed) == ((), ())
    assert set(again.laid.changed) <= {"workshop/build.json"}


def test_one_changed_gram_changes_only_what_depends_on_it(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    asked, candle = replace(ask(shop_folder), drafts=True), shop_folder / "candles" / "wet-garden.yaml"
    build(asked)

    candle.write_text(candle.read_text(encoding="utf-8").replace("to: 60 mm", "to: 58 mm"), encoding="utf-8")
    again = build(asked)

    assert again.laid is not None
    changed = set(again.laid.changed)
    assert {"site/candles/wet-garden.html", "site/safety/WG-20.html", "workshop/facts.json"} <= changed
    assert changed.isdisjoint({"site/about.html", "site/404.html"})


@pytest.mark.skipif(os.name == "nt", reason="a process is killed by a signal that Windows does not have")
def test_a_build_killed_at_any_moment_leaves_whole_files_and_the_next_repairs_the_rest(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    asked, maker = ask(shop_folder), shop_folder / "maker.yaml"
    # A process of its own reads its own clock.
    dated = maker.read_text(encoding="utf-8").replace("as_of: today", "as_of: 2026-11-01")
    maker.write_text(dated, encoding="utf-8")
    editions = {}
    for line in ("Small batches.", "Another line."):
        written = re.sub(
            r"^line: .*$", f"line: {line}", maker.read_text(encoding="utf-8"), flags=re.MULTILINE
        )
        maker.write_text(written, encoding="utf-8")
        build(asked)
        editions[line] = (written, everything_below(asked.output / "site"))
    (first, old), (second, new) = editions["Small batches."], editions["Another line."]
    whole = {(path, data) for edition in (old, new) for path, data in edition.items()}

    for attempt in range(KILLS):
        maker.write_text(first if attempt % 2 == 0 else second, encoding="utf-8")
        kill_a_build(asked, after_s=random.Random(attempt).uniform(0.4, 1.1))  # noqa: S311  # not a secret
        found = everything_below(asked.output / "site")
        assert {one for one in found.items() if not is_temporary(one[0])} <= whole

    maker.write_text(first, encoding="utf-8")
    build(asked)
    assert everything_below(asked.output / "site") == old


def kill_a_build(asked: CommandOptions, after_s: float) -> None:
    words = ["build", "--content", str(asked.content), "--output", str(asked.output)]
    process = subprocess.Popen(
        [sys.executable, "-m", "generator", *words],
        env={"PYTHONPATH": str(PROJECT)},
        stdout=subprocess.DEVNULL,
    )
    time.sleep(after_s)
    process.send_signal(signal.SIGKILL)
    process.wait()


def is_temporary(path: str) -> bool:
    return path.rpartition("/")[2].startswith(".wickwright-")
