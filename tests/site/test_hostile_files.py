"""Files that were made to do harm, each through the command that reads them: a sentence at a place and no traceback."""

import os
import shutil
from base64 import b64encode
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from generator.reading.shipped import shipped
from tests.site.test_label_orders import STOCK, labels, run

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 6">'


def use_bomb(levels: int) -> str:
    copies = [f'<use href="#a{n}"/>' * 10 for n in range(levels - 1)]
    layers = "".join(f'<g id="a{n}">{ten}</g>' for n, ten in enumerate(copies, start=1))
    return f'{SVG}<defs><g id="a0"><path d="M0 0h9"/></g>{layers}</defs><use href="#a{levels - 1}"/></svg>'


def embedding(width: int, height: int) -> str:
    file = BytesIO()
    Image.new("1", (width, height)).save(file, "PNG")
    return f'{SVG}<image href="data:image/png;base64,{b64encode(file.getvalue()).decode()}"/></svg>'


DRAWINGS = {
    "3,000 groups": (
        f"{SVG}{'<g>' * 3_000}{'</g>' * 3_000}</svg>",
        "more than 100 groups or copies are nested inside",
    ),
    "copies of copies": (use_bomb(9), "the drawing has more than 100000 shapes, counting copies"),
    "a copy of itself": (
        f'{SVG}<g id="a"><use href="#a"/></g></svg>',
        "more than 100 groups or copies are nested inside",
    ),
    "markers": (
        f'{SVG}<marker id="m">{"<path/>" * 200}</marker><path marker-mid="url(#m)" d="M{"1 1L" * 1_000}"/></svg>',
        "the drawing has more than 100000 shapes, counting copies",
    ),
    "foreignObject": (
        f"{SVG}<foreignObject/></svg>",
        "text of a kind that no press can print (foreignObject)",
    ),
    "a filter": (
        f'{SVG}<filter id="f"><feTurbulence numOctaves="100000"/></filter></svg>',
        "a filter, such as a blur or a shadow",
    ),
    "another base": (
        f'{SVG}<image href="#x.jpg" xml:base="/etc/"/></svg>',
        "the drawing shows '/etc/', which is a separate file",
    ),
    "a picture by a sign": (
        f'{SVG}<image href="#x.jpg"/></svg>',
        "the drawing shows '#x.jpg', which is a separate file",
    ),
    "a drawing in a drawing": (
        f'{SVG}<image href="data:image/svg+xml;base64,PA=="/></svg>',
        "not a PNG, JPEG, GIF or WebP",
    ),
    "a picture of 36 megapixels": (
        embedding(6_000, 6_000),
        "picture 1 in the drawing has more than 25 megapixels",
    ),
    "no picture": (
        f'{SVG}<image href="data:image/png;base64,AAAA"/></svg>',
        "picture 1 in the drawing is not a picture",
    ),
}


@pytest.fixture(name="sold")
def _sold(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """The small shop with labels and an issued sheet."""
    (shop_folder / "label-stock").mkdir()
    (shop_folder / "label-stock" / "boxes.yaml").write_text(STOCK, encoding="utf-8")
    run(shop_folder, "issue", "WG-20", "--reason", "first")
    capsys.readouterr()
    return shop_folder


@pytest.mark.parametrize(("drawing", "told"), DRAWINGS.values(), ids=DRAWINGS)
def test_a_drawing_that_no_press_can_hold_is_told_at_its_file(
    sold: Path, capsys: pytest.CaptureFixture[str], drawing: str, told: str
) -> None:
    (sold / "artwork").mkdir()
    (sold / "artwork" / "wet-garden.svg").write_text(drawing, encoding="utf-8")

    assert labels(sold, "WG-20=1", "--stock", "boxes", "--kind", "product") == 1

    out = capsys.readouterr().out
    assert "wet-garden.svg:1:1: error: " in out
    assert told in out


def test_a_picture_within_the_bounds_is_printed(sold: Path) -> None:
    (sold / "artwork").mkdir()
    (sold / "artwork" / "wet-garden.svg").write_text(embedding(60, 60), encoding="utf-8")

    assert labels(sold, "WG-20=1", "--stock", "boxes", "--kind", "product") == 0


def test_a_sheet_of_a_hundred_million_labels_is_a_fault_of_its_entry(
    sold: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    many = STOCK.replace("rows: 4", "rows: 9999").replace("columns: 2", "columns: 9999")
    (sold / "label-stock" / "boxes.yaml").write_text(many, encoding="utf-8")

    assert run(sold, "check") == 1

    out = capsys.readouterr().out
    assert "boxes.yaml:4:7: error: rows is '9999'; expected at most 99" in out
    assert "boxes.yaml:5:10: error: columns is '9999'; expected at most 99" in out


def test_a_backslash_in_a_substance_s_name_is_printed(shop_folder: Path) -> None:
    oil = shop_folder / "fragrances" / "wet-garden.yaml"
    text = oil.read_text(encoding="utf-8")
    assert "substance: Linalool" in text
    oil.write_text(text.replace("substance: Linalool", r"substance: a\b\q\1", 1), encoding="utf-8")

    assert run(shop_folder, "build", "--drafts") == 0
    sheet = shop_folder.parent / "output" / "site" / "safety" / "WG-20.html"
    assert r"a\b\q\1" in sheet.read_text(encoding="utf-8")


@pytest.mark.parametrize("command", ["check", "build"])
def test_a_day_of_the_year_one_is_told_and_the_last_day_is_a_day(
    shop_folder: Path, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    maker = shop_folder / "maker.yaml"
    sound = maker.read_text(encoding="utf-8")
    maker.write_text(sound.replace("as_of: today", "as_of: 0001-01-01"), encoding="utf-8")

    assert run(shop_folder, command) == 1
    assert "as_of is '0001-01-01'; expected a date from the year 1900 on" in capsys.readouterr().out

    maker.write_text(sound, encoding="utf-8")
    assert run(shop_folder, command, "--date", "9999-12-31") == 0
    assert run(shop_folder, command, "--date", "1900-01-01") == 0
    assert run(shop_folder, command, "--date", "0001-01-01") == 2


def test_pipes_among_the_entries_are_told_by_a_build(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop_folder / "photos").mkdir()
    os.mkfifo(shop_folder / "photos" / "a.jpg")
    os.mkfifo(shop_folder / "waxes" / "soy.yaml")

    assert run(shop_folder, "build") == 1

    out = capsys.readouterr().out
    assert "photos/a.jpg:1:1: error: this is a pipe; expected a photo" in out
    assert "waxes/soy.yaml:1:1: error: this is a pipe; expected an entry" in out


THEME_FAULTS = {
    "a template": ("pages/candle.html", b"{{ page.nothing }}", "mine/pages/candle.html:1:1: error: "),
    "half a letter": ("pages/candle.html", b"{{ '\\ud800' }}", "pages/candle.html:1:1: error: "),
    "a template that is no text": ("pages/candle.html", b"\xff", "pages/candle.html:1:1: error: "),
    "a template inside itself": (
        "pages/candle.html",
        b"{% include 'pages/candle.html' %}",
        "pages/candle.html:1:1: error: ",
    ),
    "styles of drawings": ("papers/parts/drawings.css", b"\xff", "papers/parts/drawings.css:1:1: error: "),
    "a sign": ("parts/pictograms/water.svg", b"<svg", "parts/pictograms/water.svg:1:1: error: "),
    "a paper": ("papers/safety.typ", b"#panic()", "papers/safety.typ:1:1: error: "),
    "a paper that is no text": ("papers/safety.typ", b"\xff", "papers/safety.typ:1:1: error: "),
    "a theme's file": ("theme.yaml", b"name: [\n", "themes/mine/theme.yaml:2:1: error: "),
}


@pytest.mark.parametrize(("file", "data", "told"), THEME_FAULTS.values(), ids=THEME_FAULTS)
def test_a_fault_of_a_theme_is_a_sentence_at_its_file(
    sold: Path, capsys: pytest.CaptureFixture[str], file: str, data: bytes, told: str
) -> None:
    mine = sold.parent / "themes" / "mine"
    shutil.copytree(shipped("themes") / "netloft" / "papers", mine / "papers")
    (mine / "theme.yaml").write_text("name: mine\nextends: netloft\n", encoding="utf-8")
    (mine / file).parent.mkdir(parents=True, exist_ok=True)
    (mine / file).write_bytes(data)
    maker = sold / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8").replace("theme: netloft", "theme: mine"), encoding="utf-8"
    )

    command = ("papers", "sheets") if file.startswith("papers/") else ("build",)
    assert run(sold, *command) == 1
    assert told in capsys.readouterr().out
