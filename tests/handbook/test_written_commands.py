"""Every command that the handbook and the README write is run as it stands there, in order, page by page.

Pages are run in a copy of the example shop; the README's first candle in a new shop. ``publish NAME`` finds a target of
that name, which is a folder of this computer.
"""

import re
import shlex
import shutil
import webbrowser
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

from generator.cli import main
from generator.handbook.page_text import CodeBlock
from generator.handbook.shelf import handbook
from tests.conftest import EXAMPLE, PROJECT

README: Final = (PROJECT / "README.md").read_text(encoding="utf-8")
COMMANDS_BEGIN: Final = "## The commands"
NOT_RUN: Final = {
    "wickwright preview": "serves pages until it is stopped; tests/writing/test_preview.py starts one",
    "python3 -m generator.first_run": "sets up an environment; tests/test_first_run.py runs it",
    "python3 -m pip": "fetches libraries",
    "ssh-keygen": "writes a key into the home of whoever runs it; tests/publishing makes such keys",
    "git clone": "asks a host",
    "git -C": "pushes to a host",
}
"""How a line begins that is not run, and why."""

REFUSED: Final = {
    'wickwright issue SS-30 --reason "first issue"': "SS-30 has not changed since revision 2",
    "wickwright build --issued-only": "the sheet of HF-TG has changed since revision 1",
}
"""What the example shop refuses, since one sheet is issued already and another has changed, and in which words."""

_PLACEHOLDER: Final = re.compile(r"\b[A-Z]{2,}(?:_[A-Z]+)?\b(?![-=])|\.\.\.|\[")


def pages() -> dict[str, tuple[str, ...]]:
    """The lines of each page that has any."""
    found = {
        page.name: tuple(
            line
            for section in page.sections
            for block in section.blocks
            if isinstance(block, CodeBlock) and block.language == "sh"
            for line in block.lines
        )
        for page in handbook()
    }
    return {name: lines for name, lines in found.items() if lines}


def of_the_readme(text: str) -> Iterator[str]:
    """Commands that stand indented or within a sentence, but for those with a word to be replaced."""
    for line in re.findall(r"^    (?! )(.+)$|`((?:wickwright|cd) [^`]+)`", text, flags=re.MULTILINE):
        command = line[0] or line[1]
        if command.startswith(("wickwright ", "cd ", "python3 ")) and not _PLACEHOLDER.search(command):
            yield command


def is_run(line: str) -> bool:
    """Whether no row of the table excuses it."""
    return not line.startswith(tuple(NOT_RUN))


def type_in(line: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Run one line in the folder where we are."""
    program, *words = shlex.split(line)
    if program == "cd":
        monkeypatch.chdir(words[0])
        return
    assert program == "wickwright", line
    if words[0] == "publish":
        _offer_target(next((word for word in words[1:] if not word.startswith("-")), None))
        if "--rollback" in words:
            _publish_a_change()
    outcome, said = main(words), capsys.readouterr()
    told = said.out + said.err
    assert outcome == 0 or (line in REFUSED and REFUSED[line] in told), (line, told)


def _offer_target(name: str | None) -> None:
    """One target, which is a folder beside the shop; under another name it is the same folder still."""
    entry = Path("content/publish.yaml")
    Path("../published").mkdir(exist_ok=True)
    if name is not None or not entry.exists():
        entry.write_text(f"{name or 'shop'}: {{to: folder, folder: ../../published}}\n", encoding="utf-8")


def _publish_a_change() -> None:
    """A second release, so that there is one before it to go back to."""
    with Path("content/pages/about.md").open("a", encoding="utf-8") as page:
        page.write("\nWe moved the kettle.\n")
    assert main(["publish"]) == 0


@pytest.fixture(name="shop")
def _shop(tmp_path: Path, built_example: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the example shop as it was built, in which we are; no browser opens."""
    folder = tmp_path / "shop"
    shutil.copytree(EXAMPLE, folder / "content", ignore=shutil.ignore_patterns(".shop-secret"))
    shutil.copytree(built_example, folder / "output")
    monkeypatch.setattr(webbrowser, "open", lambda _address: True)
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.thorough
@pytest.mark.parametrize("page", pages())
@pytest.mark.usefixtures("shop")
def test_every_command_of_a_page_does_what_it_is_asked(
    page: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for line in filter(is_run, pages()[page]):
        type_in(line, monkeypatch, capsys)


@pytest.mark.thorough
def test_the_first_candle_of_the_readme_is_made_by_its_commands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    lines = tuple(filter(is_run, of_the_readme(README.partition(COMMANDS_BEGIN)[0])))

    for line in lines:
        type_in(line, monkeypatch, capsys)

    assert "wickwright check" in lines
    assert (tmp_path / "my-shop/content/sheets/WG-20.yaml").is_file()


@pytest.mark.thorough
@pytest.mark.usefixtures("shop")
def test_the_other_commands_of_the_readme_run_in_the_example_shop(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = tuple(filter(is_run, of_the_readme(README.partition(COMMANDS_BEGIN)[2])))

    for line in lines:
        type_in(line, monkeypatch, capsys)

    assert len(lines) > 8


def test_every_line_is_one_of_ours_or_has_its_reason() -> None:
    lines = [line for page in pages().values() for line in page] + list(of_the_readme(README))

    assert len(lines) > 40
    assert [line for line in lines if is_run(line) and not line.startswith(("wickwright ", "cd "))] == []
    assert [start for start in NOT_RUN if not any(line.startswith(start) for line in lines)] == []
