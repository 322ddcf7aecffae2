"""Every row of `PAPERS`: its words, refusals, folder, templates and line in the README; and one row more."""

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.arguments import CommandHelp, CommandParser
from generator.cli import main
from generator.commands import papers
from generator.commands.make_paper import Need, Paper, PaperRequest, Papers
from generator.commands.papers import BUYER, PAPERS, SOME_CODES
from generator.document import PlainText
from generator.making.loaded_shop import SoundShop
from generator.making.report import Refusal, sentences
from tests.conftest import PROJECT
from tests.example.trade import sell_to_the_trade
from tests.site.test_label_orders import STOCK

BY_WORD = pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.word)
ASKED = {
    "labels": ("--stock", "boxes"),
    "order": ("lamp-room",),
    "pour": ("WG-20=2",),
}
"""What is written behind the word of a paper that needs more than one stock code."""


@pytest.fixture(name="content")
def _content(shop_folder: Path) -> Path:
    sell_to_the_trade(shop_folder)
    (shop_folder / "label-stock").mkdir(exist_ok=True)
    (shop_folder / "label-stock" / "boxes.yaml").write_text(STOCK, encoding="utf-8")
    return shop_folder


def ask(content: Path, word: str, *words: str) -> int:
    return main(
        ["papers", word, *words, "--content", str(content), "--output", str(content.parent / "output")]
    )


def below(folder: Path) -> set[Path]:
    return {path for path in folder.rglob("*") if path.is_file()}


@BY_WORD
def test_a_person_can_read_of_it(paper: Paper) -> None:
    handbook = (PROJECT / "generator" / "data" / "handbook").glob("*.md")
    texts = (path.read_text(encoding="utf-8") for path in (PROJECT / "README.md", *handbook))

    assert any(f"wickwright papers {paper.word}" in text for text in texts)


@BY_WORD
def test_its_templates_are_in_the_theme(paper: Paper) -> None:
    assert all((PROJECT / "themes" / "netloft" / template).is_file() for template in paper.templates)


def test_no_paper_of_the_theme_is_forgotten() -> None:
    there = {f"papers/{path.name}" for path in (PROJECT / "themes" / "netloft" / "papers").glob("*.typ")}

    assert there <= {template for paper in PAPERS for template in paper.templates}


@BY_WORD
def test_it_is_written_in_its_folder_and_nowhere_else(
    paper: Paper, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = ask(content, paper.word, *ASKED.get(paper.word, ("WG-20",)), "--json")

    told, output = capsys.readouterr(), content.parent / "output"
    wrote = {Path(path) for path in json.loads(told.out)["wrote"]}
    assert (code, told.err) == (0, "")
    assert wrote == below(output / "workshop") == below(output / paper.folder) != set()


@pytest.mark.parametrize("paper", [one for one in PAPERS if BUYER not in one.needs], ids=lambda one: one.word)
def test_an_unknown_stock_code_is_refused_in_its_words(
    paper: Paper, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = {"labels": ("NO=1", "--stock", "boxes"), "pour": ("NO=1",)}

    assert ask(content, paper.word, *asked.get(paper.word, ("NO",))) == 2

    told = capsys.readouterr().err
    refusal = sentences("there is no stock code 'NO'", paper.nothing, "write one of: WG-20")
    assert told == f"wickwright: {refusal}\n"
    assert not (content.parent / "output" / "workshop").exists()


def _colour_argument(words: CommandParser) -> None:
    words.add_argument("--language", required=True)


def _colourless(_shop: SoundShop, request: PaperRequest) -> Iterator[Refusal]:
    if request.language != "grey":
        yield Refusal(what=f"nothing here is {request.language}", fix="write grey")


def _tags(shop: SoundShop, request: PaperRequest) -> Papers:
    codes = request.counts or shop.sizes
    return Papers(documents=tuple(PlainText(path=f"{code}.txt", text=code) for code in codes))


COLOUR = Need(add_arguments=_colour_argument, refusals=_colourless)
TAGS = Paper(
    word="tags",
    help=CommandHelp("write a tag for the shelf", "papers tags --language grey", "labels"),
    needs=(SOME_CODES, COLOUR),
    make=_tags,
    templates=(),
    folder="workshop/tags",
    nothing="no tag was written",
    next_step=None,
    blames="stock code",
)


@pytest.fixture(name="one_row_more")
def _one_row_more(monkeypatch: pytest.MonkeyPatch) -> None:
    """The recipe of DEVELOPERS.md, followed: a row, and nothing else."""
    monkeypatch.setattr(papers, "PAPERS", (*PAPERS, TAGS))


@pytest.mark.usefixtures("one_row_more")
def test_a_row_is_a_word_with_its_help(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit, match="0"):
        main(["papers", "--help"])

    assert re.search(r"\n    tags +write a tag for the shelf\n", capsys.readouterr().out)


@pytest.mark.usefixtures("one_row_more")
def test_a_row_is_a_file_in_its_folder(content: Path) -> None:
    assert ask(content, "tags", "--language", "grey") == 0

    assert (content.parent / "output" / "workshop" / "tags" / "WG-20.txt").read_text() == "WG-20"


@pytest.mark.usefixtures("one_row_more")
def test_a_row_is_refused_by_all_that_it_needs(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert ask(content, "tags", "NO", "--language", "red") == 2

    assert capsys.readouterr().err.splitlines() == [
        "wickwright: there is no stock code 'NO'. No tag was written. Write one of: WG-20.",
        "wickwright: nothing here is red. No tag was written. Write grey.",
    ]


@pytest.mark.usefixtures("one_row_more")
def test_a_row_is_not_written_while_entries_are_at_fault(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.rmtree(content / "vessels")

    assert ask(content, "tags", "--language", "grey") == 1

    assert " No tag was written.\nNext: " in capsys.readouterr().out
    assert not (content.parent / "output" / "workshop").exists()
