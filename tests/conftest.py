"""What many tests start from: the example shop, and a shop that is ours to change."""

import gc
import os
import shutil
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import ClassVar

import pytest
from filelock import FileLock
from hypothesis import settings

from generator.commands.build import build
from generator.making import clock
from generator.making.options import CommandOptions

# A busy machine may take long over one example; what a test takes is no claim of ours.
settings.register_profile("patient", deadline=None)
settings.load_profile("patient")

MANY = int(os.environ.get("WICKWRIGHT_FUZZ", "40"))
"""How many lots of any text are tried; set it to more for a longer search."""

PROJECT = Path(__file__).parent.parent
EXAMPLE = PROJECT / "content"
TODAY = date(2026, 11, 1)
"""The day on which every test is run."""

FIRST_SHOP = PROJECT / "generator" / "data" / "first_shop"


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """What measures runs alone; everything else on as many cores as there are."""
    marks = str(config.getoption("markexpr"))
    return 0 if "benchmark" in marks and "not benchmark" not in marks else None


def once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], object]) -> Path:
    """A folder that whichever test process needs it first fills for all of them; none may change it."""
    own = factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / name
    done = folder.with_name(f"{name}.done")
    with FileLock(folder.with_name(f"{name}.lock")):
        if not done.exists():
            make(folder)
            done.touch()
    return folder


def pytest_collection_finish() -> None:
    """What was imported lives to the end, so the collector need not look at it again and again."""
    gc.freeze()


@pytest.fixture(scope="session", autouse=True)
def _unflushed() -> Iterator[None]:
    """Files of tests need not outlive a power cut: nothing waits for the disk, as each row and schema would."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda _file: None)
        yield


class Calendar:
    """In the place of the one that the clock looks at: it stays on a day until a test turns it over."""

    day: ClassVar[date] = TODAY

    @classmethod
    def today(cls) -> date:
        """That day."""
        return cls.day


@pytest.fixture(scope="session", autouse=True)
def _on_one_day() -> Iterator[None]:
    """No test depends on the day on which it happens to be run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(clock, "date", Calendar)
        yield


@pytest.fixture(name="built_example", scope="session")
def _built_example(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The output of the example shop, built once for all tests that only look at it."""

    def make(output: Path) -> None:
        assert (
            build(CommandOptions(content=EXAMPLE, output=output, as_of=None, as_data=False)).laid is not None
        )

    return once(tmp_path_factory, "example", make)


@pytest.fixture(name="warm_output")
def _warm_output(tmp_path: Path, built_example: Path) -> Path:
    """An output folder of a test's own, in which all that the example shop's entries amount to is remembered."""
    shutil.copytree(built_example / ".store", tmp_path / "output" / ".store")
    return tmp_path / "output"


@pytest.fixture(name="ask")
def _ask(tmp_path: Path) -> Callable[[Path], CommandOptions]:
    """What a command is asked about a content folder; output goes to a folder of the test's own."""
    return lambda content: CommandOptions(
        content=content, output=tmp_path / "output", as_of=None, as_data=False
    )


@pytest.fixture(name="shop_folder")
def _shop_folder(tmp_path: Path) -> Path:
    """A small sound shop that a test may change."""
    content = tmp_path / "content"
    shutil.copytree(FIRST_SHOP, content)
    return content
