"""What happens to a shop's files beside its maker's edits: looks that deceive, and an output that others touched."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Final

from tests.site.clean_builds import OUTPUTS
from tests.site.edits import Edit, some_file, told
from tests.site.leaves import changed, leaves
from tests.site.small_shop import TriedShop


def touched(shop: TriedShop, dice: Random) -> str | None:
    path = some_file(shop, dice, dice.choice(("content/**/*", "themes/**/*")))
    if path is None:
        return None
    os.utime(path)
    return f"{told(shop, path)} touched"


def saved_anew(shop: TriedShop, dice: Random) -> str | None:
    """The same bytes at the same name, in another file of the disk, as some editors save."""
    path = some_file(shop, dice, "content/**/*")
    if path is None:
        return None
    beside = path.with_name("saved.tmp")
    shutil.copy(path, beside)
    beside.replace(path)
    return f"{told(shop, path)} saved anew"


def changed_unseen(shop: TriedShop, dice: Random) -> str | None:
    """Another value of the same length, behind the same time of the file."""
    for leaf in dice.sample(list(leaves(shop.folder)), 20):
        path = shop.folder / leaf.file
        seen = path.stat()
        for source in () if "/sheets/" in leaf.file else changed(shop.folder, leaf):
            if len(source) == seen.st_size:
                path.write_bytes(source)
                os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))
                return f"changed {leaf} behind the same size and time"
    return None


def written_files(shop: TriedShop, output: str) -> Iterator[Path]:
    """What readers have of an output, in one order."""
    root = shop.folder / output
    for path in sorted(root.rglob("*")):
        if path.is_file() and not path.relative_to(root).as_posix().startswith("."):
            yield path


def output_altered(shop: TriedShop, dice: Random) -> str | None:
    """A file of each output is lost, cut short, or altered without a sign."""
    how, place = dice.choice(("removed", "cut", "altered unseen", "folder removed")), dice.random()
    names = []
    for output in OUTPUTS:
        files = list(written_files(shop, output))
        if not files:
            return None
        path = files[int(place * len(files))]
        _alter(path, how)
        names.append(told(shop, path))
    return f"{', '.join(names)} {how}"


def _alter(path: Path, how: str) -> None:
    seen, data = path.stat(), path.read_bytes()
    if how == "removed":
        path.unlink()
    elif how == "folder removed":
        shutil.rmtree(path.parent)
    elif how == "cut":
        path.write_bytes(data[: len(data) // 2])
    else:
        path.write_bytes(bytes(each ^ 1 for each in data))
        os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))


def memory_lost(shop: TriedShop, dice: Random) -> str | None:
    """What is remembered is lost as a whole, or a file of it is lost, cut, or altered."""
    how, place = dice.choice(("all", "removed", "cut", "altered unseen")), dice.random()
    for output in OUTPUTS:
        store = shop.folder / output / ".store"
        if how == "all":
            shutil.rmtree(store, ignore_errors=True)
            continue
        files = sorted(path for path in store.rglob("*") if path.is_file() and path.stat().st_size > 0)
        if not files:
            return None
        _alter(files[int(place * len(files))], how)
    return f"of the memory: {how} at {place:.2f}"


def list_lost(shop: TriedShop, dice: Random) -> str | None:
    """The list of what was written, without which no file that is then unwanted is known as ours."""
    how = dice.choice(("removed", "cut"))
    for output in OUTPUTS:
        path = shop.folder / output / ".manifest.json"
        if not path.exists():
            return None
        _alter(path, how)
    return f"list of what was written {how}"


MISHAPS: Final[tuple[Edit, ...]] = (
    *(touched, saved_anew, changed_unseen, changed_unseen, changed_unseen, output_altered, memory_lost),
)
