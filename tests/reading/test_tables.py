import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.burn_tests import Session
from generator.model.materials import Constituent
from generator.problems import Place, Problem, Spot
from generator.reading.csv_cells import rows_of
from generator.reading.tables import Table, table_of

HEADER = "piece,session,hours,before_g,after_g,outcome"


def _texts(text: str) -> list[list[str]]:
    rows = rows_of(text, "table.csv")
    assert not isinstance(rows, Problem)
    return [[cell.text for cell in row] for row in rows]


def _records(text: str, kind: type[object] = Session) -> tuple[dict[str, object], ...]:
    table = table_of(text, "table.csv", kind)
    assert isinstance(table, Table)
    return table.records


def _told(text: str, kind: type[object] = Session) -> list[str]:
    problems = table_of(text, "table.csv", kind)
    assert not isinstance(problems, Table)
    return [str(problem) for problem in problems]


@pytest.mark.parametrize("separator", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
def test_the_header_tells_what_parts_the_cells(separator: str, end: str) -> None:
    text = end.join([f"a{separator}b", f"1{separator}2", ""])

    assert _texts(text) == [["a", "b"], ["1", "2"]]


def test_quotes_hold_separators_line_ends_and_doubled_quotes() -> None:
    assert _texts('a,b\n"1, or ""one""\nor so",2\n') == [["a", "b"], ['1, or "one"\nor so', "2"]]


def test_blank_lines_and_lines_of_bare_separators_are_no_rows() -> None:
    assert _texts("\n\na,b\n\n,,\n1,2\n\n") == [["a", "b"], ["1", "2"]]


def test_a_cell_knows_its_line_and_column_even_below_a_cell_of_two_lines() -> None:
    rows = rows_of('a,b\n"x\ny",z\n1,  2\n', "table.csv")

    assert not isinstance(rows, Problem)
    assert [cell.place for cell in rows[2]] == [Place("table.csv", 4, 1), Place("table.csv", 4, 3)]


@given(
    st.lists(st.lists(st.text(st.sampled_from('ab "\n,;')), min_size=2, max_size=4), min_size=1, max_size=4)
)
@settings(max_examples=50)
def test_what_the_standard_library_writes_is_read_back(rows: list[list[str]]) -> None:
    written = io.StringIO()
    csv.writer(written, quoting=csv.QUOTE_ALL).writerows([["x,,,,,", "y"], *rows])

    read = _texts(written.getvalue())

    stripped = [[cell.strip() for cell in row] for row in rows]
    assert read[1:] == [row for row in stripped if any(row)]


def test_columns_are_found_by_name_in_any_order_and_in_capitals() -> None:
    text = "Outcome,After_g,before_g,hours,SESSION,piece\nok,515.2,533.9,3:45,1,A\n"

    assert _records(text) == (
        {
            "outcome": "ok",
            "after_g": "515.2",
            "before_g": "533.9",
            "hours": "3:45",
            "session": "1",
            "piece": "A",
        },
    )


def test_an_empty_cell_is_a_key_left_out() -> None:
    record = _records(f"{HEADER},note,flame_mm\nA,1,4,533.9,515.2,ok,,31\n")[0]

    assert "note" not in record
    assert record["flame_mm"] == "31"


def test_separators_that_a_spreadsheet_leaves_at_the_ends_do_not_matter() -> None:
    assert len(_records(f"{HEADER},,\nA,1,4,533.9,515.2,ok,,\n")) == 1


def test_text_below_a_column_without_a_name_is_a_fault() -> None:
    assert _told(f"{HEADER},,\nA,1,4,533.9,515.2,ok,,windy\n") == [
        "table.csv:2:23: error: the row has 8 cells, but the header has 6 columns\n"
        "    why: the cells would move into other columns\n"
        "    fix: use a point for decimals (3.5), and quotes around a text that contains the separator"
    ]


def test_several_hazards_are_parted_by_semicolons() -> None:
    text = "substance,share,hazards\nLinalool,5-10 %,Skin Sens. 1B H317; Eye Irrit. 2 H319;\n"

    assert _records(text, Constituent) == (
        {"substance": "Linalool", "share": "5-10 %", "hazards": ["Skin Sens. 1B H317", "Eye Irrit. 2 H319"]},
    )


def test_factors_stand_in_one_column_or_in_one_for_each() -> None:
    together = _records("substance,share,hazards,m\nX,1 %,[],acute: 1; chronic: 10\n", Constituent)

    apart = _records("substance,share,hazards,m_acute,m_chronic\nX,1 %,[],1,10\n", Constituent)

    assert (
        together
        == apart
        == ({"substance": "X", "share": "1 %", "hazards": ["[]"], "m": {"acute": "1", "chronic": "10"}},)
    )


def test_a_factor_in_a_column_of_its_own_is_found_there() -> None:
    table = table_of("substance,share,hazards,m_acute,m_chronic\nX,1 %,[],1,10\n", "table.csv", Constituent)

    assert isinstance(table, Table)
    assert table.spots().below[0].below["m"].below["chronic"] == Spot(2, 12, 2, 12)


def test_every_column_that_is_missing_is_named_at_once() -> None:
    assert _told("piece,session,hours\nA,1,4\n") == [
        "table.csv:1:1: error: the table has no column before_g and no column after_g and no column "
        "outcome\n"
        "    why: without it the rows are incomplete\n"
        "    fix: piece,session,hours,before_g,after_g,outcome as the first columns"
    ]


def test_a_misspelt_column_is_not_told_as_missing_too() -> None:
    assert _told(f"{HEADER.replace('hours', 'hour')}\nA,1,4,533.9,515.2,ok\n") == [
        "table.csv:1:15: error: 'hour' is not a column of this table\n"
        "    why: everything in it would be missing from every paper\n"
        "    fix: hours"
    ]


@pytest.mark.parametrize(
    "cell", ['"A', '"A" B', '"A"B"'], ids=["never closed", "words after", "a quote after"]
)
def test_quotes_close_where_their_cell_ends(cell: str) -> None:
    assert _told(f"{HEADER}\n{cell},1,4,533.9,515.2,ok\n") == [
        "table.csv:2:1: error: the quotes around this cell are not closed where it ends\n"
        "    why: the cells after it would move into other columns\n"
        '    fix: put one pair of quotes around the cell, and "" for a quote inside it'
    ]
