"""``wickwright handbook`` as it is typed; no browser is ever opened."""

import json
import shutil
import webbrowser
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import url2pathname

import pytest

from generator.cli import main
from generator.commands.build import build
from generator.handbook_pages import PAGES
from generator.making.options import CommandOptions
from tests.conftest import FIRST_SHOP


@pytest.fixture(name="opened", autouse=True)
def _opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The addresses that a browser would have shown; the folder is empty."""
    addresses: list[str] = []

    def note(address: str) -> bool:
        addresses.append(address)
        return True

    monkeypatch.setattr(webbrowser, "open", note)
    monkeypatch.setenv("COLUMNS", "70")
    monkeypatch.chdir(tmp_path)
    return addresses


def test_it_lists_every_page_and_says_how_to_read_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["handbook"]) == 0

    out = capsys.readouterr().out
    assert [line.split()[0] for line in out.splitlines() if line[:1].isalpha()][: len(PAGES)] == list(PAGES)
    assert "wickwright handbook labels" in out
    assert max(map(len, out.splitlines())) <= 80


def test_a_page_is_printed_as_plain_text(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["handbook", "labels"]) == 0

    out = capsys.readouterr().out
    assert out.startswith("Labels\n\n")
    assert "\033" not in out
    assert "`" not in out


def test_a_key_is_printed_alone(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["handbook", "keys", "trim"]) == 0

    assert capsys.readouterr().out.startswith("Wicks\n\ntrim  (needed)\n")


def test_words_are_found_page_by_page(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["handbook", "--find", "lot code"]) == 0

    out = capsys.readouterr().out
    assert "\n\nlabels\n  " in out
    assert main(["handbook", "--find", "lot code", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert {"lots", "labels"} <= {one["page"] for one in found}


@pytest.mark.parametrize(
    "words",
    [
        ["lables"],
        ["keys", "flil"],
        ["labels", "fill"],
        ["--find", "no such thing anywhere"],
        ["--find", "wax", "--browser"],
    ],
    ids=["page", "key", "key of another page", "words", "two at once"],
)
def test_what_is_not_there_is_refused_in_one_line(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["handbook", *words]) == 2

    told = capsys.readouterr()
    assert told.out == ""
    assert len(told.err.splitlines()) == 1


def test_without_a_shop_the_pages_are_in_the_usual_theme(
    tmp_path: Path, opened: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["handbook", "--browser"]) == 0

    (address,) = opened
    assert capsys.readouterr().out == f"{address}\n"
    page = Path(url2pathname(urlsplit(address).path))
    assert page == tmp_path.resolve() / "output" / "workshop" / "handbook" / f"{PAGES[0]}.html"
    assert '<html lang="en">' in page.read_text(encoding="utf-8")
    assert {path.stem for path in page.parent.glob("*.html")} == set(PAGES)


def test_as_data_it_gives_the_address_and_opens_nothing(
    opened: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["handbook", "labels", "--browser", "--json"]) == 0

    assert json.loads(capsys.readouterr().out)["address"].endswith("/handbook/labels.html")
    assert opened == []


def test_a_shop_lends_its_theme_and_its_language(tmp_path: Path) -> None:
    shutil.copytree(FIRST_SHOP, tmp_path / "content")
    maker = tmp_path / "content" / "maker.yaml"
    text = (
        maker.read_text(encoding="utf-8")
        .replace("theme: netloft", "theme: ledger")
        .replace("language: en", "language: de")
    )
    maker.write_text(text, encoding="utf-8")

    assert main(["handbook", "--browser"]) == 0

    page = (tmp_path / "output/workshop/handbook/labels.html").read_text(encoding="utf-8")
    assert '<html lang="de">' in page
    assert "text-transform: uppercase" in page
    assert "Inhalt" in page


def test_a_shop_that_cannot_be_read_has_the_handbook_all_the_same(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    (tmp_path / "content" / "maker.yaml").write_text("name: [\n", encoding="utf-8")

    assert main(["handbook", "--browser"]) == 0

    assert (tmp_path / "output/workshop/handbook/keys.html").is_file()


def test_a_theme_that_cannot_be_printed_gives_way_to_the_usual_one(tmp_path: Path) -> None:
    shutil.copytree(FIRST_SHOP, tmp_path / "content")
    maker = tmp_path / "content" / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8").replace("theme: netloft", "theme: mine"), encoding="utf-8"
    )
    (tmp_path / "themes/mine/pages").mkdir(parents=True)
    (tmp_path / "themes/mine/theme.yaml").write_text("name: mine\nextends: netloft\n", encoding="utf-8")
    (tmp_path / "themes/mine/pages/handbook.html").write_text("{{ page.none }}", encoding="utf-8")

    assert main(["handbook", "--browser"]) == 0

    assert "<h1>" in (tmp_path / "output/workshop/handbook/keys.html").read_text(encoding="utf-8")


def test_a_build_leaves_the_pages_alone_and_is_not_in_their_way(tmp_path: Path) -> None:
    shutil.copytree(FIRST_SHOP, tmp_path / "content")
    asked = CommandOptions(content=Path("content"), output=Path("output"), as_of=None, as_data=False)
    assert main(["handbook", "--browser"]) == 0
    page = tmp_path / "output/workshop/handbook/labels.html"
    before = page.read_bytes()

    assert build(asked).laid is not None
    assert main(["handbook", "--browser"]) == 0
    assert build(asked).laid is not None

    assert page.read_bytes() == before
    assert "wickwright handbook</code>" in (tmp_path / "output/workshop/index.html").read_text(
        encoding="utf-8"
    )
