"""The steps of the story of a changed gram, on a copy of the example shop, for every test that walks it."""

import shutil
from pathlib import Path

from generator.commands import build, issue
from generator.making.options import CommandOptions
from tests.conftest import EXAMPLE

CODE = "QF-30"
OLD, NEW = "safety/QF-30-r1.html", "safety/QF-30-r2.html"


def asked_in(folder: Path) -> CommandOptions:
    """What a command is asked about the copy in a folder."""
    return CommandOptions(content=folder / "content", output=folder / "output", as_of=None, as_data=False)


def issued_in(folder: Path) -> CommandOptions:
    """The example shop with one issued sheet, built; its Quillfern is as near to two limits as a gram."""
    asked = asked_in(folder)
    shutil.copytree(EXAMPLE, asked.content, ignore=shutil.ignore_patterns("sheets", "lots.csv", "recalls"))
    rewrite(asked, "candles/quillfern.yaml", "bracken: 8 % of total", "bracken: 89 g")
    rewrite(asked, "burn-tests/QF-30.yaml", "bracken: 8 % of total", "bracken: 7.2 % of total")
    assert issue.run(asked, [CODE], "first issue") == 0
    assert build.run(asked) == 0
    return asked


def rewrite(asked: CommandOptions, file: str, old: str, new: str) -> None:
    """Change a text where it first stands in one of the copy's entries."""
    path = asked.content / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def add_a_gram(asked: CommandOptions) -> None:
    """One gram of fragrance more in the recorded batch."""
    rewrite(asked, "candles/quillfern.yaml", "bracken: 89 g", "bracken: 90 g")


def issue_again(asked: CommandOptions) -> None:
    """What the sheet says with that gram becomes its next revision."""
    assert issue.run(asked, [CODE], "one gram more") == 0
