"""A thousand stock codes against the floors of their own build, an edit among them, and ten thousand.

Floors are what any program would have to do: the YAML read by the C loader, the pages printed by bare Jinja from values
that are there already, the same bytes written plainly. Times are processor time of this process and its children, so
that a busy machine changes little; each is the least of several.
"""

import json
import shutil
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.commands.build import build
from generator.document import Document
from generator.documents.frame import frame
from generator.documents.published import for_everybody
from generator.making.journey import loads_by_fragrance
from generator.making.options import CommandOptions
from generator.making.pages import Pages
from generator.writing.store import Store
from generator.writing.templates import Templates
from tests.benchmarks.measures import peak_memory_mb, processor_time, time_of_process
from tests.example.thousand import write_shop
from tests.loaded import house_and_theme

MOST_TIMES_THE_FLOORS = 2.0
MOST_OF_FIRST_FOR_A_GRAM = 0.04
MOST_TIMES_WHAT_A_GRAM_CHANGES = 4.0
MOST_OF_FIRST_FOR_A_COMMENT = 0.02
MOST_TIMES_AN_EMPTY_PROCESS = 3.0
MOST_TIMES_A_THOUSAND = 11.0
MOST_MB = {1_000: 200, 10_000: 1_200}
RUNS = 3
LOG = "workshop/build.json"
"""Tells how long a build took, and so differs after each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shops:
    """Shops of different sizes, written once for all tests of this module."""

    folder: Path

    def of(self, codes: int) -> CommandOptions:
        """What a command is asked about the shop of so many codes."""
        content = self.folder / str(codes) / "content"
        if not content.is_dir():
            write_shop(content, codes=codes)
        return CommandOptions(content=content, output=content.with_name("output"), as_of=None, as_data=False)


@pytest.fixture(name="shops", scope="module")
def _shops(tmp_path_factory: pytest.TempPathFactory) -> Shops:
    return Shops(folder=tmp_path_factory.mktemp("shops"))


def timed(work: Callable[[], Any]) -> float:
    started = processor_time()
    work()
    return processor_time() - started


def first_build(asked: CommandOptions) -> float:
    """Seconds of a build into a folder in which there is nothing but perhaps pictures."""
    started = processor_time()
    built = build(asked)
    assert built.laid is not None
    return processor_time() - started


def with_nothing_but_pictures(asked: CommandOptions, output: Path) -> CommandOptions:
    """The same for a new folder, as if its link-preview pictures were there already."""
    pictures = asked.output / "site" / "previews"
    shutil.copytree(pictures, output / "site" / "previews")
    lines = json.loads((asked.output / ".manifest.json").read_bytes())
    kept = {path: line for path, line in lines.items() if path.startswith("site/previews/")}
    (output / ".manifest.json").write_text(json.dumps(kept), encoding="utf-8")
    return replace(asked, output=output)


def yaml_floor(content: Path) -> float:
    texts = [path.read_bytes() for path in sorted(content.rglob("*.yaml"))]
    return timed(lambda: [yaml.load(text, Loader=yaml.CSafeLoader) for text in texts])  # safe_load's C twin


def bare_jinja(asked: CommandOptions, paths: Callable[[str], bool]) -> float:
    """Seconds to print the pages of these paths, whose values are there already."""
    sound = house_and_theme(asked)
    house = replace(
        sound.house, drafts=asked.drafts, loads=loads_by_fragrance(sound.shop, Store(asked.output / ".none"))
    )
    made = (paper.made() for paper in Pages(house, sound.loaded) if paths(paper.path))
    documents = [paper for paper in made if isinstance(paper, Document)]
    site, templates = frame(for_everybody(house)), Templates(sound.presentation.theme)
    return timed(lambda: [templates.render(document, site) for document in documents])


def writing_floor(output: Path, elsewhere: Path) -> float:
    files = {path.relative_to(output): path.read_bytes() for path in written_files(output)}

    def write() -> None:
        for path, data in files.items():
            (elsewhere / path).parent.mkdir(parents=True, exist_ok=True)
            (elsewhere / path).write_bytes(data)

    return timed(write)


def written_files(output: Path) -> Iterator[Path]:
    for root in ("site", "workshop"):
        for path in (output / root).rglob("*"):
            if path.is_file() and "previews" not in path.parts:
                yield path


@pytest.mark.benchmark
def test_a_thousand_stock_codes_build_in_twice_their_floors(shops: Shops, tmp_path: Path) -> None:
    asked = shops.of(1_000)
    build(asked)
    took, floors = [], []
    for number in range(RUNS):
        took.append(first_build(with_nothing_but_pictures(asked, tmp_path / f"first {number}")))
        floors.append(
            {
                "yaml": yaml_floor(asked.content),
                "jinja": bare_jinja(asked, lambda _path: True),
                "writing": writing_floor(asked.output, tmp_path / f"floor {number}"),
            }
        )
    least = {name: min(each[name] for each in floors) for name in floors[0]}

    ratio = min(took) / sum(least.values())

    print(f"\n{min(took):.2f} s of processor time, floors {least}, ratio {ratio:.2f}")
    assert ratio <= MOST_TIMES_THE_FLOORS


@pytest.mark.benchmark
def test_an_edit_in_a_running_preview_costs_what_it_changes(shops: Shops, tmp_path: Path) -> None:
    """The first edits are left out: until then files are too young for their times to prove anything."""
    asked = replace(shops.of(1_000), output=tmp_path / "preview", drafts=True)
    content = tmp_path / "content"
    shutil.copytree(asked.content, content)
    asked = replace(asked, content=content)
    first = min(first_build(replace(asked, output=tmp_path / f"first {n}")) for n in range(RUNS))
    memory = Store(asked.output / ".store")
    build(asked, memory)
    candle = sorted((content / "candles").glob("*.yaml"))[7]
    grams, comments, changed = [], [], set[str]()
    for number in range(RUNS + 2):
        comments.append(edit(asked, memory, candle, partial("{1}# note {0}\n".format, number))[0])
        took, changed = edit(asked, memory, candle, one_gram_more)
        grams.append(took)
    printing = min(bare_jinja(asked, changed.__contains__) for _ in range(RUNS))
    facts = json.loads((asked.output / "workshop" / "facts.json").read_bytes())
    dump = min(timed(lambda: json.dumps(facts, ensure_ascii=False)) for _ in range(RUNS))

    gram, comment = min(grams[2:]), min(comments[2:])

    print(
        f"\nfirst {first:.2f} s; a gram {gram:.3f} s = {gram / first:.1%}, {len(changed)} files changed, "
        f"{gram / (printing + dump):.2f} times bare Jinja {printing:.3f} s and facts {dump:.3f} s; "
        f"a comment {comment:.3f} s = {comment / first:.1%}"
    )
    assert gram <= MOST_OF_FIRST_FOR_A_GRAM * first
    assert gram <= MOST_TIMES_WHAT_A_GRAM_CHANGES * (printing + dump)
    assert comment <= MOST_OF_FIRST_FOR_A_COMMENT * first


def edit(
    asked: CommandOptions, memory: Store, entry: Path, change: Callable[[str], str]
) -> tuple[float, set[str]]:
    """Seconds of the build after an edit, and which files of the output changed."""
    entry.write_text(change(entry.read_text(encoding="utf-8")), encoding="utf-8")
    started = processor_time()
    built = build(asked, memory)
    took = processor_time() - started
    assert built.laid is not None
    return took, {*built.laid.changed, *built.laid.written} - {LOG}


def one_gram_more(entry: str) -> str:
    """The first weight of a recipe, a gram heavier."""
    head, key, recipe = entry.partition("ingredients:")
    before, unit, behind = recipe.partition(" g")
    start = len(before) - len(before.split()[-1])
    assert key
    assert unit
    return f"{head}{key}{before[:start]}{float(before[start:]) + 1:g}{unit}{behind}"


@pytest.mark.benchmark
def test_nothing_changed_costs_little_more_than_a_process(shops: Shops) -> None:
    asked = shops.of(1_000)
    build(asked)
    words = ["-m", "generator", "build", "--content", str(asked.content), "--output", str(asked.output)]
    time_of_process(words)
    nothing = min(time_of_process(words) for _ in range(2 * RUNS))
    empty = min(time_of_process(["-c", "import yaml, jinja2"]) for _ in range(2 * RUNS))
    files = [path for folder in (asked.content, asked.output) for path in folder.rglob("*") if path.is_file()]
    looking = min(timed(lambda: [path.stat() for path in files]) for _ in range(RUNS))

    print(
        f"\nnothing changed {nothing:.3f} s, empty {empty:.3f} s, {len(files)} files looked at {looking:.3f} s"
    )
    assert nothing <= MOST_TIMES_AN_EMPTY_PROCESS * (empty + looking)


@pytest.mark.benchmark
def test_ten_thousand_stock_codes_take_eleven_times_a_thousand(shops: Shops, tmp_path: Path) -> None:
    thousand = min(
        first_build(replace(shops.of(1_000), output=tmp_path / f"thousand {n}")) for n in range(RUNS)
    )
    ten = first_build(replace(shops.of(10_000), output=tmp_path / "ten"))

    print(f"\n1,000 codes {thousand:.2f} s, 10,000 codes {ten:.2f} s: {ten / thousand:.2f} times")
    assert ten <= MOST_TIMES_A_THOUSAND * thousand


@pytest.mark.benchmark
@pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells what several processes share")
@pytest.mark.parametrize("codes", MOST_MB)
def test_memory_is_bounded(shops: Shops, tmp_path: Path, codes: int) -> None:
    asked = shops.of(codes)
    words = [
        "-m",
        "generator",
        "build",
        "--content",
        str(asked.content),
        "--output",
        str(tmp_path / "output"),
    ]

    peak_mb = peak_memory_mb(words)

    print(f"\n{codes} codes: {peak_mb:.0f} MB")
    assert peak_mb <= MOST_MB[codes]
