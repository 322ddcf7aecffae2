"""No page forgets an input: each value of the entries is changed alone, and what was built before is built on.

``WICKWRIGHT_EDITS=40`` or more changes every value instead of a few.
"""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

import pytest

from tests.conftest import once
from tests.site.clean_builds import (
    Outcome,
    clean_build,
    differences,
    files_of,
    outcome,
    session,
    write_and_build,
)
from tests.site.leaves import Leaf, changed, leaves
from tests.site.small_shop import TriedShop

EVERY = int(os.environ.get("WICKWRIGHT_EDITS", "1")) >= 40
PARTS = 16 if EVERY else 1
A_FEW = 2
SEED = 7


@pytest.fixture(name="shop")
def _shop(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> TriedShop:
    """The small shop, built."""
    written = once(tmp_path_factory, "small-shop", write_and_build)
    shop = TriedShop(folder=tmp_path / "shop")
    shutil.copytree(written, shop.folder)
    monkeypatch.chdir(shop.folder)
    assert session()(shop.asked()).laid is not None
    return shop


def _some(shop: TriedShop, part: int) -> list[Leaf]:
    every = list(leaves(shop.folder))
    return every[part::PARTS] if EVERY else Random(SEED).sample(every, A_FEW)  # noqa: S311  # a repeatable choice


@pytest.mark.parametrize("part", range(PARTS))
def test_a_value_changed_alone_comes_to_what_a_clean_build_makes_of_it(
    shop: TriedShop, tmp_path: Path, part: int
) -> None:
    before, output = files_of(shop.folder / "output"), shop.folder / "output"
    shutil.copytree(output, tmp_path / "unchanged")
    came_of_it: dict[str, list[str]] = {"refused": [], "seen": [], "unseen": []}
    forgotten = []

    for leaf in _some(shop, part):
        shutil.rmtree(output)
        shutil.copytree(tmp_path / "unchanged", output)
        with changed_alone(shop, leaf) as told:
            files = files_of(output)
            unlike = differences((told, files), clean_build(shop, tmp_path)) if told.came_to_files else ""
        forgotten += [f"{leaf}\n{unlike}"] if unlike else []
        came_of_it["refused" if not told.came_to_files else "seen" if files != before else "unseen"].append(
            str(leaf)
        )

    assert forgotten == []
    count = {of_it: len(those) for of_it, those in came_of_it.items()}
    assert count["refused"] < 0.4 * sum(count.values()), came_of_it
    assert count["seen"] > 0.5 * (count["seen"] + count["unseen"]), came_of_it


@contextmanager
def changed_alone(shop: TriedShop, leaf: Leaf) -> Iterator[Outcome]:
    """What is built of the shop while the leaf is another one, the first of those that entries may hold.

    The time of its file stays what it was, so that only those see the change who look at more than that.
    """
    path = shop.folder / leaf.file
    source, seen = path.read_bytes(), path.stat()
    for other in changed(shop.folder, leaf):
        path.write_bytes(other)
        os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))
        told = outcome(session()(shop.asked()))
        if told.came_to_files:
            break
    yield told
    path.write_bytes(source)
