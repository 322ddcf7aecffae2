"""Tables are safe to open: however a program parts their lines, no cell becomes a formula."""

import csv
import json
import re
import shutil
import subprocess
from datetime import date
from io import StringIO

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from generator.documents.csv_tables import as_table
from generator.ledgers.books import with_link
from generator.model.trade import LinkVersion, one_line
from tests.conftest import PROJECT

NODE = shutil.which("node")
ORDER_SCRIPT = PROJECT / "themes/netloft/parts/order.js"
NUMBER = re.compile(r"[+-]?\d+(\.\d+)?")
CELLS = st.one_of(
    st.text(alphabet=st.sampled_from("=+-@;,\t\"' \n\rx1."), max_size=8),
    st.decimals(allow_nan=False, allow_infinity=False, places=2).map(str),
)
ROWS = st.lists(st.lists(CELLS, min_size=3, max_size=3), max_size=4)


def table_of(rows: list[list[str]]) -> str:
    return as_table(("a", "b", "c"), [dict(zip("abc", row, strict=True)) for row in rows])


def read_by(separator: str, table: str) -> list[list[str]]:
    return list(csv.reader(StringIO(table, newline=""), delimiter=separator))


@settings(max_examples=150, deadline=None)
@given(ROWS)
@example([["x;=HYPERLINK(1)", "x\t=1+1", "x\n=1"]])
@example([["x", 'x;"=1', 'x;" -1']])
@example([["-1", "x;", "-1"]])
def test_whatever_parts_its_cells_none_is_a_formula(rows: list[list[str]]) -> None:
    for separator in ",;\t":
        cells = [cell for row in read_by(separator, table_of(rows)) for cell in row]

        begun = [cell for cell in cells if cell.lstrip(' "').startswith(("=", "+", "-", "@"))]
        assert [cell for cell in begun if not NUMBER.fullmatch(cell)] == []


@settings(max_examples=150, deadline=None)
@given(ROWS)
def test_parted_at_commas_every_cell_holds_its_own_text(rows: list[list[str]]) -> None:
    _, *read = read_by(",", table_of(rows))

    without = [[cell.replace("'", "") for cell in row] for row in read]
    assert without == [[cell.replace("'", "") for cell in row] for row in rows]


@pytest.mark.parametrize(
    "text", ["Slate & Samphire", "Mum's", "12.50", "-12.5", "+4", "2026-11-01", "a; b", "SS-30", ""]
)
def test_what_is_harmless_stays_as_it_is(text: str) -> None:
    assert read_by(",", table_of([["x", text, "x"]]))[1][1] == text


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("=1+1", "'=1+1"),
        ("-1+1", "'-1+1"),
        ("@SUM(1)", "'@SUM(1)"),
        ("x;=1", '"x;\'=1"'),
        ("x\t=1", '"x\t\'=1"'),
        ('x;"=1', '"x;\'""=1"'),
        ("a; b", '"a; b"'),
    ],
)
def test_an_apostrophe_stands_where_a_formula_would_begin(text: str, written: str) -> None:
    assert table_of([["x", text, "x"]]) == f"a,b,c\nx,{written},x\n"


@given(st.text(alphabet=st.sampled_from("=+-@;,\t\"' \n\rx1."), min_size=1, max_size=8).filter(str.strip))
def test_a_buyers_name_in_the_book_of_links_is_no_formula_either(name: str) -> None:
    link = LinkVersion(
        buyer="quay", version=1, since=date(2026, 11, 1), name=one_line(name), link="a", seal="b"
    )

    book = with_link(b"", link).decode()

    cells = [cell for separator in ",;\t" for row in read_by(separator, book) for cell in row]
    assert [cell for cell in cells if cell.lstrip(' "').startswith(("=", "+", "-", "@"))] == []
    assert one_line(one_line(name)) == one_line(name)


@pytest.mark.skipif(NODE is None, reason="Node is not installed")
def test_the_script_of_a_buyers_sheet_writes_cells_as_the_program_does() -> None:
    script = ORDER_SCRIPT.read_text(encoding="utf-8")
    rule = re.search(r"  const cell = .*?\n  };\n", script, re.DOTALL)
    assert rule is not None
    assert NODE is not None
    texts = [
        "x",
        "=1",
        "-1",
        "-1.5",
        "+1+1",
        "x;=1",
        "x\t@1",
        'x;" =1',
        "x\r\n=1",
        'say "a, b"',
        "a; b",
        " =1",
        "-1",
        "",
    ]
    asked = f"{rule[0]}console.log(JSON.stringify({json.dumps(texts)}.map(cell).join(',')));"

    said = subprocess.run([NODE, "-e", asked], capture_output=True, text=True, check=True).stdout

    columns = [str(number) for number in range(len(texts))]
    written = as_table(columns, [dict(zip(columns, texts, strict=True))])
    assert f"{','.join(columns)}\n{json.loads(said)}\n" == written
