"""Every refusal as one sentence on the way of errors, or as data where data was asked for; what was done, likewise."""

import json
import shlex
import subprocess
from importlib.metadata import version
from pathlib import Path

import pytest

from generator.arguments import CommandParser
from generator.cli import main
from generator.parser import parser
from tests.site.test_label_orders import STOCK

KEYS = {"file", "line", "column", "severity", "what", "why", "fix", "write", "page"}
WRONG = {
    ("explain", "WG-21"): "there is no stock code 'WG-21'. Nothing was explained. Write one of: WG-20.",
    (
        "issue",
        "WG-21",
        "--reason",
        "first",
    ): "there is no stock code 'WG-21'. Nothing was issued. Write one of: WG-20.",
    ("issue",): "a revision needs a reason. Nothing was issued. Write --reason and one line",
    ("papers", "file", "WG-21"): "there is no stock code 'WG-21'. No file was written. Write one of: WG-20.",
    (
        "papers",
        "sheets",
        "--language",
        "pl",
    ): "there are no sheets in the language 'pl'. No paper was written. Write one of: de, en, fr.",
    (
        "papers",
        "order",
        "nobody",
    ): "no buyers are recorded yet. No order form was written. Add one to trade/buyers.yaml",
    (
        "papers",
        "labels",
        "--stock",
        "oval",
    ): "there is no label stock 'oval'. No label was printed. Write one of: boxes.",
    ("papers", "labels", "WG-20=1", "--stock", "boxes", "--market", "US"): "the shop does not sell in US",
    ("papers", "labels", "WG-20=1", "--stock", "boxes", "--language", "pl"): "no labels in the language 'pl'",
    ("papers", "labels", "WG-20=1", "--stock", "boxes", "--lot", "L-1"): "there is no lot 'L-1' of WG-20",
    ("burn-test", "new", "WG-21"): "there is no stock code 'WG-21'",
    (
        "fills",
        "4.6",
        "WG-20",
    ): "'4.6' is not a weight. Nothing was calculated. Write '4.6 kg' or '4.6 lb' or '4.6 g'",
    (
        "fills",
        "a pot",
        "WG-20",
    ): "'a pot' is not a weight. Nothing was calculated. Write a number and its unit: kg, g, lb or oz",
    ("lots", "add", "WG-21", "--made", "2"): "there is no stock code 'WG-21'",
    (
        "lots",
        "add",
        "WG-20",
        "--made",
        "0",
    ): "'0' is not a number from 1 to 9999. See wickwright lots add --help",
    ("lots", "using", "nobody"): "there is no material, vessel or wick 'nobody'",
    ("link", "nobody"): "no buyers are recorded yet. No link was made. Add one to trade/buyers.yaml",
    ("link", "nobody", "--end"): "'nobody' has no link. No link was ended.",
    ("publish", "dsik"): "'dsik' is not a target. Nothing was sent. Add one to publish.yaml",
    ("check", "--kolour"): "unrecognized arguments: --kolour. See wickwright check --help",
    ("papers",): "the following arguments are required: WHAT. See wickwright papers --help",
    ("chekc",): "unknown command 'chekc'. Did you mean 'check'?",
}


def said(capsys: pytest.CaptureFixture[str], content: Path, *words: str) -> tuple[int, str, str]:
    capsys.readouterr()
    is_command = words[0] != "chekc" and (words[0] != "papers" or words[1:2] not in ((), ("--json",)))
    folders = ("--content", str(content), "--output", str(content.parent / "output"))
    code = main([*words, *(folders if is_command else ())])
    told = capsys.readouterr()
    return code, told.out, told.err


@pytest.fixture(name="content")
def _content(shop_folder: Path) -> Path:
    (shop_folder / "label-stock").mkdir()
    (shop_folder / "label-stock" / "boxes.yaml").write_text(STOCK, encoding="utf-8")
    return shop_folder


@pytest.mark.parametrize(
    ("words", "what"), WRONG.items(), ids=lambda each: " ".join(each) if isinstance(each, tuple) else ""
)
def test_wrong_use_is_one_sentence_or_one_value(
    words: tuple[str, ...], what: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, _out, err = said(capsys, content, *words)
    coded, data, besides = said(capsys, content, *words, "--json")

    assert (code, coded, besides) == (2, 2, "")
    assert err.startswith("wickwright: ")
    assert what in err
    assert err.count("\n") == 1
    told = [one for one in json.loads(data) if one["severity"] == "error"]
    assert all(one.keys() == KEYS for one in told)
    assert [(one["file"], one["line"], one["column"]) for one in told] == [(None, None, None)]
    assert what.startswith(told[0]["what"]) or what in told[0]["what"] or told[0]["what"] in err


def test_a_shop_without_label_stock_is_told_where_to_describe_some(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, _, err = said(capsys, shop_folder, "papers", "labels", "WG-20=1", "--stock", "oval")

    assert (
        "there is no label stock 'oval'. No label was printed. Describe the labels you buy in content/label-stock"
        in err
    )


DONE = {
    ("fills", "4.6 kg", "WG-20"): "fills",
    ("issue", "--reason", "first"): "issued",
    ("lots", "add", "WG-20", "--made", "2"): "added",
    ("publish",): "sent",
    ("publish", "--dry-run"): "sent",
}


@pytest.mark.parametrize(
    ("words", "key"), DONE.items(), ids=lambda each: " ".join(each) if isinstance(each, tuple) else ""
)
def test_what_was_done_is_one_value_too(
    words: tuple[str, ...], key: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (content / "publish.yaml").write_text("disk: {to: folder, folder: ../host}\n", encoding="utf-8")
    (content.parent / "host").mkdir()

    code, data, err = said(capsys, content, *words, "--json")

    assert (code, err) == (0, "")
    assert json.loads(data)[key]


def test_what_could_not_be_published_is_data_with_the_warnings(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (content / "publish.yaml").write_text("disk: {to: folder, folder: ../host}\n", encoding="utf-8")
    (content.parent / "host").write_text("a file where a folder belongs", encoding="utf-8")

    code, data, err = said(capsys, content, "publish", "--json")

    assert (code, err) == (3, "")
    assert json.loads(data)[-1]["what"].startswith("could not publish to disk: ")


def test_a_disk_in_the_way_is_data(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (content.parent / "output").write_text("a file where a folder belongs", encoding="utf-8")

    code, data, err = said(capsys, content, "build", "--json")

    assert (code, err) == (3, "")
    assert json.loads(data)[0]["what"].startswith("could not finish: ")


def test_bare_words_list_the_commands_and_end_with_2(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2

    told = capsys.readouterr()
    assert told.out == ""
    assert all(f"\n  {name} " in told.err for name in ("start", "check", "build", "publish"))


@pytest.mark.parametrize("words", [["help"], ["help", "fills"], ["--version"]], ids=" ".join)
def test_help_and_version_are_there(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit, match="0"):
        main(words)

    expected = {"help": "COMMAND", "help fills": "STOCK_CODE", "--version": version("wickwright")}
    assert expected[" ".join(words)] in capsys.readouterr().out


@pytest.mark.parametrize("name", ["my shop & co", "o'neill", "$HOME"])
def test_start_says_how_to_get_there(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    assert main(["start", name]) == 0

    line = next(line for line in capsys.readouterr().out.splitlines() if line.startswith("Next: cd "))
    line = line.removeprefix("Next: ")
    assert shlex.split(line) == ["cd", name]
    there = subprocess.run(["/bin/sh", "-c", f"{line} && pwd"], capture_output=True, text=True, check=True)
    assert there.stdout.strip() == str(tmp_path / name)


def test_all_words_are_read_by_one_kind_of_reader() -> None:
    assert isinstance(parser(), CommandParser)
