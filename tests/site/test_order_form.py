"""``papers order``: a buyer's prices as a table and as a spreadsheet that adds up by itself."""

import shutil
from csv import DictReader
from datetime import date
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from openpyxl import load_workbook

from generator.cli import main
from generator.document import Cell, Spreadsheet
from generator.writing.spreadsheet import workbook
from tests.conftest import PROJECT

BUYER = "sill-and-sash"
ALL_OFFERED = "lamp-room"


def ordered(output: Path, *words: str) -> int:
    return main(["papers", "order", *words, "--content", str(PROJECT / "content"), "--output", str(output)])


def test_the_form_has_the_buyers_prices_and_formulas_that_point_at_them(warm_output: Path) -> None:
    assert ordered(warm_output, BUYER) == 0

    book = load_workbook(BytesIO((warm_output / "workshop" / "trade" / f"{BUYER}.xlsx").read_bytes()))
    rows = list(book.worksheets[0].iter_rows(values_only=True))
    number = next(place for place, row in enumerate(rows, start=1) if row[0] == "SS-30")
    line, last = rows[number - 1], rows[-1]
    assert line[12] == f"=L{number}*H{number}*K{number}"
    assert (line[1], line[7], line[8], line[11]) == ("2044710001139", 6, 6, None)
    assert last[12] == f"=SUM(M{number}:M{number + 6})"


def test_the_table_lists_the_same_lines_as_the_form(warm_output: Path) -> None:
    ordered(warm_output, BUYER)

    text = (warm_output / "workshop" / "trade" / f"{BUYER}.csv").read_text(encoding="utf-8-sig")
    book = load_workbook(warm_output / "workshop" / "trade" / f"{BUYER}.xlsx")
    prices = {row[0]: row[10] for row in book.worksheets[0].iter_rows(values_only=True) if row[10]}
    priced = {row["stock_code"]: float(row["trade_price"]) for row in DictReader(StringIO(text))}
    assert {code: prices[code] for code in priced} == priced


def test_the_form_says_of_hours_whether_they_were_tested(warm_output: Path) -> None:
    ordered(warm_output, ALL_OFFERED)

    text = (warm_output / "workshop" / "trade" / f"{ALL_OFFERED}.csv").read_text(encoding="utf-8-sig")
    book = load_workbook(warm_output / "workshop" / "trade" / f"{ALL_OFFERED}.xlsx")
    said = {row[0]: " ".join(map(str, row)) for row in book.worksheets[0].iter_rows(values_only=True)}
    basis = {row["stock_code"]: row["burn_hours_basis"] for row in DictReader(StringIO(text))}
    estimated = {code for code, each in basis.items() if each == "estimate"}
    assert estimated
    assert {code for code in basis if "estimate" in said[code]} == estimated


def test_the_same_entries_make_the_same_bytes(tmp_path: Path, warm_output: Path) -> None:
    written = []

    for number in ("one", "two"):
        shutil.copytree(warm_output, tmp_path / number)
        ordered(tmp_path / number, BUYER)
        written.append((tmp_path / number / "workshop" / "trade" / f"{BUYER}.xlsx").read_bytes())

    assert written[0] == written[1]


def test_what_begins_like_a_formula_stays_text() -> None:
    sheet = Spreadsheet(
        path="x", name="Order", on=date(2026, 11, 1), places=2, widths=(10,), rows=((Cell("=1+1"),),)
    )

    cell = load_workbook(BytesIO(workbook(sheet))).worksheets[0]["A1"]

    assert (cell.value, cell.data_type) == ("=1+1", "s")


def test_an_unknown_buyer_is_told_with_the_nearest(
    warm_output: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert ordered(warm_output, "sill-and-sach") == 2

    assert "there is no buyer 'sill-and-sach'" in capsys.readouterr().err
