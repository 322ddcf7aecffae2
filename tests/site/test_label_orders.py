"""Papers from outside: what is printed, what is refused and what to do about it."""

from pathlib import Path

import pytest

from generator.cli import main
from tests.site.paper_tools import codes_of, page_sizes_mm, text_of

STOCK = """\
name: Boxes
sheet: A4
label: {shape: box, width: 99.1 mm, height: 67.7 mm}
rows: 4
columns: 2
margin: {top: 13 mm, left: 4.6 mm}
pitch: {across: 101.6 mm, down: 67.7 mm}
"""
SMALL = STOCK.replace("width: 99.1 mm, height: 67.7 mm", "width: 30 mm, height: 30 mm")


@pytest.fixture(name="sold")
def _sold(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """The small shop with two kinds of label, an issued sheet and a lot poured since."""
    (shop_folder / "label-stock").mkdir()
    (shop_folder / "label-stock" / "boxes.yaml").write_text(STOCK, encoding="utf-8")
    (shop_folder / "label-stock" / "small.yaml").write_text(SMALL, encoding="utf-8")
    run(shop_folder, "issue", "WG-20", "--reason", "first")
    run(shop_folder, "lots", "add", "WG-20", "--made", "9", "--lot", "L-2026-300")
    capsys.readouterr()
    return shop_folder


def run(shop_folder: Path, *words: str) -> int:
    return main([*words, "--content", str(shop_folder), "--output", str(shop_folder.parent / "output")])


def labels(shop_folder: Path, *words: str) -> int:
    return run(shop_folder, "papers", "labels", *words)


def printed(shop_folder: Path, name: str) -> bytes:
    return (shop_folder.parent / "output" / "workshop" / "papers" / name).read_bytes()


def test_labels_carry_the_lot_poured_last_and_the_code_of_its_sheet(sold: Path) -> None:
    assert labels(sold, "WG-20=9", "--stock", "boxes", "--start", "3") == 0

    data = printed(sold, "labels/warning-GB-boxes.pdf")
    codes = codes_of(data)
    (code,) = set(codes)
    assert len(codes) == text_of(data).count("Lot L-2026-300") == 9
    assert code.endswith("/safety/WG-20-r1.html")


def test_of_two_lots_of_one_day_labels_carry_the_one_written_down_last(sold: Path) -> None:
    run(sold, "lots", "add", "WG-20", "--made", "9", "--lot", "L-2026-301")

    assert labels(sold, "WG-20=1", "--stock", "boxes") == 0

    assert "Lot L-2026-301" in text_of(printed(sold, "labels/warning-GB-boxes.pdf"))


def test_a_lot_of_another_formula_never_carries_the_hazards_of_the_sheet_before(
    sold: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    oil = sold / "fragrances" / "wet-garden.yaml"
    stronger = oil.read_text(encoding="utf-8").replace("share: 1-5 %", "share: 50-90 %")
    oil.write_text(stronger, encoding="utf-8")
    run(sold, "lots", "add", "WG-20", "--made", "9", "--lot", "L-2026-301")
    capsys.readouterr()

    run(sold, "check")
    assert (
        "lots.csv:3:1: warning: lot L-2026-301 was poured by a recipe with other hazards than revision 1"
        in (capsys.readouterr().out)
    )

    assert labels(sold, "WG-20=1", "--stock", "boxes", "--incomplete") == 1
    before = capsys.readouterr().out
    run(sold, "issue", "WG-20", "--reason", "more linalool")
    capsys.readouterr()
    assert labels(sold, "WG-20=1", "--stock", "boxes") == 1
    assert capsys.readouterr().out == before

    assert (
        "lot L-2026-301 of WG-20 was poured by a recipe with other hazards than revision 1 states" in before
    )
    assert "its number as sheet_revision of L-2026-301 in lots.csv" in before
    assert labels(sold, "WG-20=1", "--stock", "boxes", "--lot", "L-2026-300") == 0

    book = sold / "lots.csv"
    rows = book.read_text(encoding="utf-8").replace(
        "L-2026-301,WG-20,2026-11-01,9,1", "L-2026-301,WG-20,2026-11-01,9,2"
    )
    book.write_text(rows, encoding="utf-8")
    assert labels(sold, "WG-20=1", "--stock", "boxes") == 0
    assert "May cause an allergic skin reaction" in text_of(printed(sold, "labels/warning-GB-boxes.pdf"))


def test_a_label_that_does_not_fit_names_the_stock_that_holds_it(
    sold: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert labels(sold, "WG-20=1", "--stock", "small") == 1

    told = capsys.readouterr().out
    assert "label-stock/small.yaml:3:8: error: the warning label of WG-20 for GB needs " in told
    assert "mm inside an edge of 1.5 mm: " in told
    assert "fix: --stock boxes, the next size that holds it, or a tag of 52 by 74 mm (A8)" in told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("WG-21=1", "--stock", "boxes"), "there is no stock code 'WG-21'"),
        (
            ("WG-20=1", "--stock", "box"),
            "there is no label stock 'box'. No label was printed. Write one of: boxes, small",
        ),
        (
            ("WG-20=1", "--stock", "boxes", "--start", "9"),
            "a page of boxes has 8 labels, so it has no label 9. No label was printed. "
            "Give --start a number from 1 to 8",
        ),
        (("WG-20=1", "--stock", "boxes", "--lot", "L-1"), "there is no lot 'L-1' of WG-20 in lots.csv"),
    ],
    ids=["a stock code", "a stock", "a place", "a lot"],
)
def test_what_is_not_there_is_told(
    sold: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], told: str
) -> None:
    assert labels(sold, *words) == 2
    assert told in capsys.readouterr().err


def test_the_front_carries_the_makers_own_artwork(sold: Path) -> None:
    assert labels(sold, "WG-20=1", "--stock", "boxes", "--kind", "product") == 0
    plain = printed(sold, "labels/product-GB-boxes.pdf")

    (sold / "artwork").mkdir()
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 6"><path fill="#123" d="M0 0h9v6z"/></svg>'
    )
    (sold / "artwork" / "wet-garden.svg").write_text(drawing, encoding="utf-8")
    labels(sold, "WG-20=1", "--stock", "boxes", "--kind", "product")

    assert text_of(printed(sold, "labels/product-GB-boxes.pdf")) == text_of(plain)
    assert printed(sold, "labels/product-GB-boxes.pdf") != plain


def test_sheets_are_made_for_the_workshop_s_printer(sold: Path) -> None:
    assert run(sold, "papers", "sheets", "WG-20") == 0

    assert "Revision 1" in text_of(printed(sold, "safety/WG-20-a4.pdf"))
    assert page_sizes_mm(printed(sold, "safety/WG-20-letter.pdf")) == [(215.9, 279.4)]


def test_a_letter_that_cannot_be_printed_is_told_where_it_stands(
    sold: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    candle = sold / "candles" / "wet-garden.yaml"
    candle.write_text(candle.read_text(encoding="utf-8").replace("scent: ", "scent: 🌧 ", 1), encoding="utf-8")

    assert run(sold, "papers", "sheets", "WG-20") == 1

    told = capsys.readouterr().out
    assert (
        "candles/wet-garden.yaml:3:8: error: scent contains '🌧' (U+1F327 cloud with rain), which no paper "
        "can print"
    ) in told


def test_leaves_as_narrow_as_a_label_are_no_way_out_of_its_width(
    sold: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    narrow = STOCK.replace("width: 99.1 mm, height: 67.7 mm", "width: 25 mm, height: 67.7 mm")
    (sold / "label-stock" / "narrow.yaml").write_text(narrow, encoding="utf-8")

    assert labels(sold, "WG-20=1", "--stock", "narrow") == 1

    told = capsys.readouterr().out
    assert "mm across in the smallest letters allowed, and has 22.0 mm" in told
    assert "--stock boxes, the next size that holds it, or a tag of 52 by 74 mm (A8)" in told


_SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 6">'


@pytest.mark.parametrize(
    ("drawing", "told"),
    [
        (b"\xff\xfe", "wet-garden.svg:1:1: error: the file is not UTF-8 text"),
        (_SVG.encode(), "wet-garden.svg:1:59: error: the drawing is cut off or damaged here"),
        (b"<html/>", "wet-garden.svg:1:1: error: the file is not an SVG drawing"),
        (
            f'{_SVG}<image href="reeds.png"/></svg>'.encode(),
            "the drawing shows 'reeds.png', which is a separate file",
        ),
        (
            f'{_SVG}<image href="https://reeds.example/a.png"/></svg>'.encode(),
            "the drawing shows 'https://reeds.example/a.png', which is a separate file",
        ),
    ],
    ids=["no text", "half a drawing", "another kind of file", "a file beside it", "a file elsewhere"],
)
def test_artwork_that_cannot_be_printed_is_a_fault_of_its_file(
    sold: Path, capsys: pytest.CaptureFixture[str], drawing: bytes, told: str
) -> None:
    (sold / "artwork").mkdir()
    (sold / "artwork" / "wet-garden.svg").write_bytes(drawing)

    assert labels(sold, "WG-20=1", "--stock", "boxes", "--kind", "product") == 1
    assert told in capsys.readouterr().out

    assert labels(sold, "WG-20=1", "--stock", "boxes") == 1
    assert told in capsys.readouterr().out
