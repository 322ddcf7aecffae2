from collections.abc import Callable
from dataclasses import fields
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.model.burn_tests import Session
from generator.model.materials import Constituent
from generator.reading.located import located, pack, unpack
from generator.reading.read_shop import read_shop
from generator.reading.tables import Table, table_of
from tests.conftest import TODAY
from tests.reading.broken_shops import GOOD

ENTRIES = sorted(path for path in GOOD.rglob("*") if path.suffix in {".yaml", ".csv"})
SIGNS = [
    '"',
    "'",
    "[",
    "]",
    "{",
    "}",
    ": ",
    "#",
    "\t",
    "\n",
    "  ",
    "-",
    "&a ",
    "*a",
    "!",
    "|",
    ">",
    "%",
    ",",
    "\r",
    "<<: ",
]
SNIPPETS = st.one_of(st.sampled_from(SIGNS).map(str.encode), st.binary(min_size=1, max_size=3))


@given(st.binary(max_size=60) | st.text(max_size=60).map(lambda text: text.encode("utf-8", "surrogatepass")))
@settings(max_examples=200)
def test_any_bytes_are_data_or_problems(source: bytes) -> None:
    read = located(source, "entry.yaml")

    assert unpack(pack(read), "entry.yaml") == (read.data, read.problems)


@given(st.text(st.sampled_from("ab :-#'\"[]{}&*!|>%@\n\t,?~0"), max_size=40))
@settings(max_examples=300)
def test_any_signs_of_the_notation_are_data_or_problems_that_say_all_there_is_to_say(text: str) -> None:
    for problem in located(text.encode(), "entry.yaml").problems:
        assert all((problem.what, problem.why, problem.fix))
        assert "\n" not in problem.what + problem.why + problem.fix


@pytest.mark.parametrize("kind", [Session, Constituent], ids=["sessions", "constituents"])
@given(text=st.text(st.sampled_from('ab,;\t"\n\r 1'), max_size=40))
@settings(max_examples=100)
def test_any_table_is_rows_or_problems(kind: type[object], text: str) -> None:
    header = ",".join(each.name for each in fields(kind))  # type: ignore[arg-type]  # both are dataclasses

    table = table_of(f"{header}\n{text}", "table.csv", kind)

    assert isinstance(table, Table) or table != ()


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda path: path.name)
@given(cut=st.tuples(st.floats(0, 1), st.integers(0, 8)), snippet=SNIPPETS)
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_good_entry_with_any_slip_is_an_entry_or_a_problem(
    entry: Path, cut: tuple[float, int], snippet: bytes, shop_with: Callable[[str, bytes], Path]
) -> None:
    source = entry.read_bytes()
    start = int(cut[0] * len(source))
    slipped = source[:start] + snippet + source[start + cut[1] :]

    reading = read_shop(shop_with(entry.relative_to(GOOD).as_posix(), slipped), "content", TODAY)

    assert reading.shop is not None or reading.problems != ()


@pytest.fixture(name="shop_with")
def _shop_with(tmp_path: Path) -> Callable[[str, bytes], Path]:
    """A shop of one maker and one other entry."""

    def write(file: str, source: bytes) -> Path:
        for name, text in (("maker.yaml", (GOOD / "maker.yaml").read_bytes()), (file, source)):
            (tmp_path / name).parent.mkdir(exist_ok=True)
            (tmp_path / name).write_bytes(text)
        return tmp_path

    return write
