"""A row for the book of lots: whatever stood in it stays, byte for byte, and the new row is read back."""

import csv
import io
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.lots import Lot
from generator.reading.tables import Table, table_of
from generator.recording.lots import with_lot

LOT = Lot(
    lot="SS-30-2026305-K7QX", stock_code="SS-30", poured_on=date(2026, 11, 1), made=60, sheet_revision=2
)
HEADER = b"lot,stock_code,poured_on,made,sheet_revision,sent_to\n"


def test_a_book_begins_with_its_header() -> None:
    assert with_lot(b"", LOT) == HEADER + b"SS-30-2026305-K7QX,SS-30,2026-11-01,60,2,\n"


def test_a_lot_without_an_issued_sheet_has_an_empty_cell() -> None:
    added = with_lot(HEADER, replace(LOT, sheet_revision=None))

    assert added.removeprefix(HEADER) == b"SS-30-2026305-K7QX,SS-30,2026-11-01,60,,\n"


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
