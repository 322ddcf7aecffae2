"""A build that remembers is held against one that knows nothing: the same files, the same problems, the same words."""

import shutil
from collections.abc import Callable, Mapping
from contextlib import chdir
from dataclasses import dataclass
from functools import partial
from itertools import count
from pathlib import Path
from typing import Any, Final, TypeAlias

from generator.commands.build import build
from generator.making.options import CommandOptions
from generator.making.report import LOG, Built
from generator.problems import as_data
from generator.writing.store import Store
from tests.site.small_shop import TriedShop, write_small_shop

Session: TypeAlias = Callable[[CommandOptions], Built]
"""How one process builds again and again, with whatever it keeps between two builds."""

OUTPUTS: Final = ("output", "running")
"""Where a process for each build writes, and where one does that runs on."""

_NUMBERS: Final = count()


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a build told, and whether it came to files."""

    told: tuple[Any, ...]
    came_to_files: bool


def session() -> Session:
    """A process that has built nothing yet, and builds once."""
    return build


def running_session(output: Path) -> Session:
    """A process that builds again and again into one output, as a preview does."""
    return partial(build, memory=Store(output / ".store"))


def write_and_build(folder: Path) -> None:
    """The small shop with what was built of it, in both outputs."""
    shop = write_small_shop(folder)
    with chdir(folder):
        built = session()(shop.asked("output"))
        assert built.laid is not None, built.problems
    shutil.copytree(folder / "output", folder / "running")


def outcome(built: Built) -> Outcome:
    """What is to be the same of two builds, however they were made."""
    return Outcome(
        told=(*(as_data(each) for each in built.problems), *built.changes),
        came_to_files=built.laid is not None,
    )


def files_of(output: Path) -> dict[str, bytes]:
    """Every file that readers have; neither what is remembered nor the log, which tells of times and counts."""
    found = {path.relative_to(output).as_posix(): path for path in output.rglob("*") if path.is_file()}
    return {
        name: path.read_bytes()
        for name, path in sorted(found.items())
        if name != LOG and not name.startswith(".")
    }


def clean_build(shop: TriedShop, away: Path) -> tuple[Outcome, dict[str, bytes]]:
    """What the same entries come to elsewhere, in a folder nobody has built in; other times stand at its files."""
    folder = away / f"clean-{next(_NUMBERS)}"
    for name in ("content", "themes"):
        shutil.copytree(shop.folder / name, folder / name, copy_function=shutil.copy)
    try:
        with chdir(folder):
            return outcome(session()(shop.asked())), files_of(folder / "output")
    finally:
        shutil.rmtree(folder)


def differences(ours: tuple[Outcome, Mapping[str, bytes]], clean: tuple[Outcome, Mapping[str, bytes]]) -> str:
    """What a build that remembers told or wrote otherwise than a clean one; nothing where the two are the same."""
    (told, files), (clean_told, clean_files) = ours, clean
    found = [f"told {_apart(told.told, clean_told.told)}"] if told.told != clean_told.told else []
    if told.came_to_files != clean_told.came_to_files:
        found.append(f"came to files: {told.came_to_files}, clean: {clean_told.came_to_files}")
    found += [f"{path} is left over" for path in files.keys() - clean_files.keys()]
    found += [f"{path} is missing" for path in clean_files.keys() - files.keys()]
    found += [
        f"{path} {_first_difference(data, clean_files[path])}"
        for path, data in files.items()
        if data != clean_files.get(path, data)
    ]
    return "\n".join(found)


def _apart(told: tuple[Any, ...], clean: tuple[Any, ...]) -> str:
    only, missing = [each for each in told if each not in clean], [each for each in clean if each not in told]
    return f"{only} in place of {missing}" if only or missing else "the same in another order or number"


def _first_difference(ours: bytes, clean: bytes) -> str:
    at = next((n for n, (one, other) in enumerate(zip(ours, clean, strict=False)) if one != other), -1)
    at = min(len(ours), len(clean)) if at < 0 else at
    return (
        f"differs at {at}: {ours[max(0, at - 30) : at + 50]!r}, clean: {clean[max(0, at - 30) : at + 50]!r}"
    )
