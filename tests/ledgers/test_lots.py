"""A row for the book of lots: whatever stood in it stays, byte for byte, and the new row is read back."""

import csv
import io
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.ledgers.books import poured_file, with_lot
from generator.ledgers.record import poured_of
from generator.model.canonical import canonical
from generator.model.lots import Lot, SupplierLot
from generator.reading.located import located
from generator.reading.tables import Table, table_of
from generator.reading.text_files import UNPRINTABLE

LOT = Lot(lot="SS-30-2026305-K7QX", stock_code="SS-30", poured_on=date(2026, 11, 1), made=60)
ISSUED = replace(
    LOT,
    sheet_revision=2,
    formula_fingerprint="SS-30-0f3c5a9d12b7",
    drawn_from=(
        SupplierLot(id="samphire", number="B4711"),
        SupplierLot(id="soy", number="22, a"),
        SupplierLot(id="soy", number="23:b"),
    ),
)
HEADER = b"lot,stock_code,poured_on,made,sheet_revision,sent_to,formula_fingerprint,drawn_from\n"


def test_a_book_begins_with_its_header() -> None:
    assert with_lot(b"", ISSUED) == HEADER + (
        b'SS-30-2026305-K7QX,SS-30,2026-11-01,60,2,,SS-30-0f3c5a9d12b7,"samphire:B4711; soy:22, a; soy:23:b"\n'
    )


def test_a_lot_without_an_issued_sheet_has_an_empty_cell() -> None:
    added = with_lot(HEADER, LOT)

    assert added.removeprefix(HEADER) == b"SS-30-2026305-K7QX,SS-30,2026-11-01,60,,,,\n"


@pytest.mark.parametrize("separator", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
@pytest.mark.parametrize("empty", ["", "E", "EEEEEE"], ids=["none", "one", "six"])
def test_a_book_of_a_spreadsheet_gets_the_columns_it_lacks_and_is_read_back(
    separator: str, end: str, empty: str
) -> None:
    """Its own order of columns, its own columns, and the empty cells that spreadsheets leave behind the last one."""
    empty = empty.replace("E", separator)
    head = separator.join(["made", "Lot", "by", "poured_on", "stock_code"])
    row = separator.join(["48", "L-1234", "Ada", "2026-07-01", "SS-30"]) + empty + end

    added = with_lot(f"\ufeff{head}{empty}{end}{row}".encode(), ISSUED).decode("utf-8-sig")

    table = table_of(added, "lots.csv", Lot)
    assert isinstance(table, Table), table
    assert added.startswith(head)
    assert added.split(end, maxsplit=1)[1].startswith(row)
    assert [one["lot"] for one in table.records] == ["L-1234", "SS-30-2026305-K7QX"]
    assert table.records[1]["formula_fingerprint"] == "SS-30-0f3c5a9d12b7"
    assert table.records[1]["drawn_from"] == ["samphire:B4711", "soy:22, a", "soy:23:b"]


def test_columns_of_the_makers_own_stay_empty_and_keep_their_place() -> None:
    book = b"kettle,Made,lot,stock_code,poured_on,by\n2,48,L-1234,SS-30,2026-07-01,Ada\n"

    assert with_lot(book, LOT) == book + b",60,SS-30-2026305-K7QX,SS-30,2026-11-01,\n"


@pytest.mark.parametrize("separator", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
def test_the_row_is_parted_and_ended_as_the_book_is(separator: str, end: str) -> None:
    header = separator.join(["lot", "stock_code", "poured_on", "made"]) + end

    added = with_lot(header.encode("utf-8-sig"), LOT).removeprefix(header.encode("utf-8-sig"))

    assert added.decode() == separator.join(["SS-30-2026305-K7QX", "SS-30", "2026-11-01", "60"]) + end


def test_a_last_line_without_an_end_gets_one_first() -> None:
    book = b"lot,stock_code,poured_on,made\nL-1234,SS-30,2026-07-01,48"

    assert with_lot(book, LOT) == book + b"\nSS-30-2026305-K7QX,SS-30,2026-11-01,60\n"


@given(
    st.dictionaries(
        st.text("ab: #'\"-\u00e9\u03b1\n", min_size=1, max_size=6), st.text(max_size=8), max_size=4
    )
)
@settings(max_examples=50)
def test_a_formula_is_read_back_as_it_was_written(names: dict[str, str]) -> None:
    sound = {name: text for name, text in names.items() if text and not UNPRINTABLE.search(text)}
    formula = poured_of(
        {"stock_code": "SS-30", "build": {"is": "there", **sound}, "make": {"heat_to_c": "88"}}
    )

    read = located(poured_file(formula), "content/poured/SS-30.yaml")

    assert (read.problems, canonical(read.data)) == ((), formula.recorded)
    assert formula.true_name == formula.name


@given(st.lists(st.text(st.sampled_from('ab ",;\r\n'), max_size=6), min_size=3, max_size=3))
@settings(max_examples=50)
def test_every_byte_before_is_kept_and_the_row_is_read_back(cells: list[str]) -> None:
    text = io.StringIO()
    rows = csv.writer(text, quoting=csv.QUOTE_ALL)
    rows.writerow(["lot", "stock_code", "poured_on", "made", "my own", "sent_to"])
    rows.writerow(["L-1234", "SS-30", "2026-07-01", *cells])
    book = text.getvalue().encode()

    added = with_lot(book, replace(LOT, sent_to=("The Corner, Shop", "Harbour Stores")))

    table = table_of(added.decode(), "lots.csv", Lot)
    assert added.startswith(book)
    assert isinstance(table, Table)
    assert table.records[-1] == {
        "lot": "SS-30-2026305-K7QX",
        "stock_code": "SS-30",
        "poured_on": "2026-11-01",
        "made": "60",
        "sent_to": ["The Corner, Shop", "Harbour Stores"],
    }
