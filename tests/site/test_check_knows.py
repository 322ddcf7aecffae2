"""What ``check`` passes is built, and what it refuses is refused by every command, at the same places."""

import json
import shutil
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from generator.cli import main
from generator.writing.photos import MOST_PIXELS
from tests.conftest import PROJECT
from tests.reading.broken_shops import CASES, GOOD, broken_shop

Asking = Callable[..., tuple[int, list[tuple[str, int, int, str]]]]


@pytest.fixture(name="ask_for")
def _ask_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Asking:
    """Run a command on the shop: its exit code, and each error with its place."""

    def ask(*words: str) -> tuple[int, list[tuple[str, int, int, str]]]:
        capsys.readouterr()
        folders = ("--content", str(tmp_path / "content"), "--output", str(tmp_path / "output"))
        code = main([*words, "--json", *folders])
        told = json.loads(capsys.readouterr().out)
        told = told["problems"] if isinstance(told, dict) else told
        return code, [
            (one["file"], one["line"], one["column"], one["what"])
            for one in told
            if one["severity"] == "error"
        ]

    return ask


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_build_refuses_a_broken_shop_exactly_where_check_does(
    case: Path, tmp_path: Path, ask_for: Asking
) -> None:
    broken_shop(case, tmp_path)

    checked = ask_for("check")

    assert ask_for("build") == checked
    assert checked[0] == bool(checked[1])


def _photo(data: bytes) -> Callable[[Path], None]:
    def add(content: Path) -> None:
        (content / "photos").mkdir()
        (content / "photos" / "front.jpg").write_bytes(data)
        _rewrite(
            content / "candles" / "tide-table.yaml",
            "stock_code: TT-30",
            "stock_code: TT-30\n    photos: [front.jpg]",
        )

    return add


def _picture(width: int, height: int) -> bytes:
    file = BytesIO()
    Image.new("1", (width, height)).save(file, "PNG")
    return file.getvalue()


def _noise() -> bytes:
    file = BytesIO()
    Image.effect_noise((400, 300), 90).save(file, "JPEG")
    return file.getvalue()


def _rewrite(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def _says(file: str, text: str) -> Callable[[Path], None]:
    def write(content: Path) -> None:
        path = content / file
        path.parent.mkdir(parents=True, exist_ok=True)
        before = path.read_text(encoding="utf-8") if path.exists() else ""
        path.write_text(before + text, encoding="utf-8")

    return write


def _own_theme(template: str) -> Callable[[Path], None]:
    def add(content: Path) -> None:
        _says("maker.yaml", "\ntheme: harbour\n")(content)
        _says("../themes/harbour/theme.yaml", "name: Harbour\nextends: netloft\n")(content)
        _says("../themes/harbour/pages/glossary.html", template)(content)

    return add


FAULTS: dict[str, tuple[Callable[[Path], None], str, str]] = {
    "a theme that is not there": (
        _says("maker.yaml", "\ntheme: net-loft\n"), "content/maker.yaml", "there is no theme 'net-loft'",
    ),
    "a template that cannot be read": (
        _own_theme("{% if %}\n"), "harbour/pages/glossary.html", "Expected an expression",
    ),
    "a photo that is text": (_photo(b"a photo"), "candles/tide-table.yaml", "is not a picture"),
    "a photo cut short": (_photo(_noise()[:9000]), "candles/tide-table.yaml", "is damaged or cut off"),
    "a photo of too many pixels": (
        _photo(_picture(MOST_PIXELS // 5000 + 1, 5000)), "candles/tide-table.yaml", "megapixels",
    ),
    "a drawing of nothing": (
        _says("artwork/TT-30.svg", "<svg"), "artwork/TT-30.svg", "cut off",
    ),
    "a target at once without a name": (
        _says("publish.yaml", "disk:\n  to: folder\n  folder: ..\n  changes: at once\n"),
        "content/publish.yaml", "has no name of its own",
    ),
    "a page with a dead link": (
        _says("pages/about.md", "# About\n\n[the candle](candles/tide-tabel.html)\n"),
        "pages/about.md", "the link 'candles/tide-tabel.html' is broken",
    ),
    "a description with a dead link": (
        _says("candles/tide-table.yaml", "\ndescription: See [care](care.html).\n"),
        "candles/tide-table.yaml", "the link 'care.html' is broken",
    ),
}  # fmt: skip


@pytest.fixture(name="content")
def _content(tmp_path: Path) -> Path:
    """The good shop of the broken ones."""
    return Path(shutil.copytree(GOOD, tmp_path / "content"))


@pytest.mark.parametrize("name", FAULTS)
def test_what_the_entries_lead_to_is_refused_by_every_command(
    name: str, content: Path, tmp_path: Path, ask_for: Asking
) -> None:
    spoil, file, what = FAULTS[name]
    spoil(content)

    code, faults = ask_for("check")

    ((told_file, _, _, told),) = faults
    assert (code, told_file.endswith(file), what in told) == (1, True, True), faults
    for words in (
        ("build",),
        ("publish",),
        ("issue", "--reason", "first"),
        ("papers", "cost"),
        ("papers", "sheets"),
    ):
        assert ask_for(*words) == (code, faults), words
    assert not (tmp_path / "output" / "site").exists()


def test_a_dead_link_is_told_at_its_line(content: Path, ask_for: Asking) -> None:
    _says(
        "pages/about.md",
        "# About\n\nWords.\n\n[a page](nowhere.html), [home](index.html), [it](/about.html#top)\n",
    )(content)

    assert [line for _, line, _, _ in ask_for("check")[1]] == [5]


def test_links_to_every_page_of_the_example_shop_are_alive(
    built_example: Path, warm_output: Path, tmp_path: Path, ask_for: Asking
) -> None:
    assert warm_output == tmp_path / "output"
    content = Path(shutil.copytree(PROJECT / "content", tmp_path / "content"))
    site = built_example / "site"
    pages = sorted(
        path.relative_to(site).as_posix() for path in site.rglob("*.html") if path.name != "404.html"
    )
    links = "\n".join(f"- [{page}]({page})" for page in pages if not page.startswith("t/"))
    _says("pages/all.md", f"# All pages\n\n{links}\n")(content)

    assert ask_for("check") == (0, [])


def test_a_photo_that_was_looked_at_is_not_opened_again(
    content: Path, ask_for: Asking, monkeypatch: pytest.MonkeyPatch
) -> None:
    _photo(_noise())(content)
    assert ask_for("check") == (0, [])

    monkeypatch.setattr("generator.writing.photos.fault_of", lambda _source: "was opened again")

    assert ask_for("check") == (0, [])
