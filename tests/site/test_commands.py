"""Every command by its row and its module, what its help says, its example; and one command more."""

import shlex
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

from generator.arguments import CommandHelp, CommandParser
from generator.cli import main
from generator.commands import preview
from generator.commands.papers import PAPERS
from generator.handbook_pages import PAGES
from generator.making.options import CommandOptions
from generator.parser import BELOW, COMMANDS, GROUPS
from tests.conftest import EXAMPLE


def _rows() -> Iterator[tuple[str, CommandHelp]]:
    yield from COMMANDS.items()
    for word, below in {**BELOW, "papers": {paper.word: paper.help for paper in PAPERS}}.items():
        yield from ((f"{word} {second}", row) for second, row in below.items())


ROWS = dict(_rows())


@pytest.mark.parametrize("words", ROWS)
def test_help_says_what_it_is_for_with_an_example_and_a_page(
    words: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    with pytest.raises(SystemExit, match="0"):
        main(["help", *words.split()])

    row, lines = ROWS[words], capsys.readouterr().out.splitlines()
    told = " ".join(" ".join(lines).split())
    assert told.startswith(f"usage: wickwright {words} [-h]")
    assert f"{row.purpose[0].upper()}{row.purpose[1:]}." in told
    assert lines[-2:] == [f"Example: wickwright {row.example}", f"Handbook: wickwright handbook {row.page}"]
    assert row.example == words or row.example.startswith(f"{words} ")
    assert row.page in PAGES
    assert max(map(len, lines)) <= 80


def test_every_command_stands_in_the_list_once_under_its_part_of_the_work(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main([]) == 2

    told = capsys.readouterr().err.splitlines()
    listed = [line.split()[0] for line in told if line.startswith("  ")]
    assert listed == list(COMMANDS)
    assert [line for line in told if line in GROUPS] == list(GROUPS)


@pytest.fixture(name="example_shop", scope="module")
def _example_shop(tmp_path_factory: pytest.TempPathFactory, built_example: Path) -> Path:
    """The folder of a copy of the example shop, built."""
    folder = tmp_path_factory.mktemp("examples")
    shutil.copytree(EXAMPLE, folder / "content")
    shutil.copytree(built_example, folder / "output")
    return folder


@pytest.mark.thorough
@pytest.mark.parametrize("words", ROWS)
def test_its_example_works_in_the_example_shop(
    words: str, example_shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(example_shop)
    monkeypatch.setattr(preview, "serve", lambda *_, **__: None)

    assert main(shlex.split(ROWS[words].example)) == 0


def test_a_row_and_a_module_are_a_command(
    shop_folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def run(options: CommandOptions, candle: str) -> int:
        print(f"{candle} of {options.content.name}")
        return 0

    def add_arguments(words: CommandParser) -> None:
        words.add_argument("candle")
        words.runs(run)

    module = ModuleType("generator.commands.sniff_at")
    vars(module)["add_arguments"] = add_arguments
    monkeypatch.setitem(sys.modules, module.__name__, module)
    row = CommandHelp("say what a candle smells of", "sniff-at WG-20", "candle")
    monkeypatch.setitem(COMMANDS, "sniff-at", row)

    assert main(["sniff-at", "WG-20", "--content", str(shop_folder)]) == 0

    assert capsys.readouterr().out == "WG-20 of content\n"
