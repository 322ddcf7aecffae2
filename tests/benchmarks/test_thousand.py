"""A thousand stock codes against the floors of their own build, all measured in one run.

The floors: the YAML read by the C loader, the pages printed by bare Jinja, the same bytes written plainly.
Pictures are left out on both sides. Processor time is compared, so that a busy machine changes nothing.
"""

import shutil
from dataclasses import replace
from pathlib import Path
from time import process_time

import pytest
import yaml

from generator.commands.build import build
from generator.document import Document
from generator.documents.frame import frame
from generator.making.journey import loads_by_fragrance
from generator.making.options import CommandOptions
from generator.making.pages import pages_of
from generator.writing.store import Store
from generator.writing.templates import Templates
from tests.example.thousand import write_shop
from tests.loaded import house_and_theme

MOST_TIMES_THE_FLOORS = 3.0
MOST_OF_THE_FIRST_TIME = 0.2
RUNS = 3
"""The least of them is taken of the build and of each floor: what else a machine does can only add to it."""


@pytest.fixture(name="asked", scope="module")
def _asked(tmp_path_factory: pytest.TempPathFactory) -> CommandOptions:
    folder = tmp_path_factory.mktemp("thousand")
    write_shop(folder / "content", codes=1000)
    return CommandOptions(content=folder / "content", output=folder / "output", as_of=None, as_data=False)


def yaml_floor(content: Path) -> float:
    started = process_time()
    for path in sorted(content.rglob("*.yaml")):
        yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)  # the C twin of safe_load
    return process_time() - started


def jinja_floor(asked: CommandOptions) -> float:
    sound = house_and_theme(asked)
    store = Store(asked.output / ".store")
    house = replace(
        sound.house,
        loads=loads_by_fragrance(sound.shop, store),
    )
    documents = [paper for paper in pages_of(house, sound.loaded) if isinstance(paper, Document)]
    site, templates = frame(house), Templates(sound.presentation.theme)
    started = process_time()
    for document in documents:
        templates.render(document, site)
    return process_time() - started


def writing_floor(site: Path, elsewhere: Path) -> float:
    files = {path.relative_to(site): path.read_bytes() for path in site.rglob("*") if path.is_file()}
    started = process_time()
    for path, data in files.items():
        (elsewhere / path).parent.mkdir(parents=True, exist_ok=True)
        (elsewhere / path).write_bytes(data)
    return process_time() - started


def with_nothing_but_pictures(asked: CommandOptions, elsewhere: Path) -> CommandOptions:
    """The same for a new folder, as if its pictures were there already.

    Nothing is removed for it, because a disk goes on removing while the build is timed.
    """
    for name in ("cards", "photos"):
        if (asked.output / ".store" / name).is_dir():
            shutil.copytree(asked.output / ".store" / name, elsewhere / ".store" / name)
    return replace(asked, output=elsewhere)


def one_run(asked: CommandOptions, elsewhere: Path) -> tuple[float, dict[str, float]]:
    """Seconds of a first build and of each of its floors."""
    asked = with_nothing_but_pictures(asked, elsewhere / "first")
    started = process_time()
    built = build(asked)
    took = process_time() - started
    assert built.laid is not None
    return took, {
        "yaml": yaml_floor(asked.content),
        "jinja": jinja_floor(asked),
        "writing": writing_floor(asked.output, elsewhere / "floor"),
    }


@pytest.mark.benchmark
def test_a_thousand_stock_codes_build_in_three_times_their_floors(
    asked: CommandOptions, tmp_path: Path
) -> None:
    build(asked)
    runs = [one_run(asked, tmp_path / str(number)) for number in range(RUNS)]
    took, floors = (
        min(took for took, _ in runs),
        {name: min(floors[name] for _, floors in runs) for name in ("yaml", "jinja", "writing")},
    )

    ratio = took / sum(floors.values())

    print(f"\n{took:.2f} s of processor time, floors {floors}, ratio {ratio:.2f}")
    assert ratio <= MOST_TIMES_THE_FLOORS


@pytest.mark.benchmark
def test_building_again_with_nothing_changed_costs_less_than_the_first_time(asked: CommandOptions) -> None:
    asked = replace(asked, output=asked.output.with_name("another"))
    first, again = build(asked), build(asked)

    print(f"\nagain {again.seconds:.2f} s, before {first.seconds:.2f} s")
    assert again.seconds < MOST_OF_THE_FIRST_TIME * first.seconds
