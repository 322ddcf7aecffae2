"""The README's own example, typed over the shop that ``start`` makes, and what the handbook says of publishing."""

import re
from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from generator.cli import main
from generator.commands.build import build
from generator.making.options import CommandOptions
from generator.parser import COMMANDS
from generator.reading.gathering import Gathering
from generator.reading.publish_file import read_targets
from generator.writing.targets.http_headers import headers_to_set
from tests.conftest import EXAMPLE, PROJECT

README = (PROJECT / "README.md").read_text(encoding="utf-8")
PUBLISHING = (PROJECT / "generator/data/handbook/publishing.md").read_text(encoding="utf-8")


def example(first_line: str) -> str:
    """The block of the README that begins with this line."""
    found = re.search(rf"^( +){re.escape(first_line)}\n(?:\1.*\n)*", README, flags=re.MULTILINE)
    assert found is not None, first_line
    return dedent(found[0])


def test_the_candle_of_the_readme_builds_as_it_is_written_there(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    (shop_folder / "vessels" / "amber-20.yaml").write_text(example("name: 20 cl amber jar"), encoding="utf-8")
    (shop_folder / "candles" / "wet-garden.yaml").write_text(example("scent: Wet Garden"), encoding="utf-8")

    built = build(ask(shop_folder))

    assert built.problems == ()
    assert built.laid is not None


@pytest.mark.parametrize("name", ["web-space:", "pages:", "store:"])
def test_every_target_of_the_handbook_can_be_published_to(name: str, tmp_path: Path) -> None:
    written = re.search(rf"^```yaml\n({name}\n.*?)^```$", PUBLISHING, flags=re.MULTILINE | re.DOTALL)
    assert written is not None
    (tmp_path / "publish.yaml").write_text(written[1], encoding="utf-8")
    gathering = Gathering(tmp_path, "content", None)

    targets = read_targets(gathering)

    assert gathering.problems == []
    assert list(targets) == [name.removesuffix(":")]


def test_the_headers_that_the_handbook_explains_are_those_that_are_printed() -> None:
    printed = {header for _, header, _ in headers_to_set("")}

    told = set(re.findall(r"^- `([A-Z][A-Za-z-]+)", PUBLISHING, flags=re.MULTILINE))

    assert printed - {"X-Content-Type-Options"} <= told


def test_every_command_of_the_readme_exists_and_none_is_forgotten() -> None:
    listed = re.findall(r"^\| `wickwright (\w[\w-]*)", README, flags=re.MULTILINE)

    assert sorted(set(listed)) == sorted(COMMANDS)


@pytest.mark.parametrize(
    "command", re.findall(r"^\| `wickwright (papers \w+ [^`\[]*\d[^`]*)`", README, flags=re.MULTILINE)
)
def test_the_papers_of_the_readme_are_printed_for_the_example_shop(command: str, warm_output: Path) -> None:
    assert main([*command.split(), "--content", str(EXAMPLE), "--output", str(warm_output)]) == 0
