from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic_core import ErrorDetails

from generator.model.burn_tests import Session, TestNotes
from generator.model.formats import Format
from generator.model.maker import Maker
from generator.model.trade import Buyer, LinkVersion, PriceRow, Terms
from generator.problems import START, Places
from generator.reading.entries import FOLDERS
from generator.reading.faults import Written
from generator.reading.fields import keys_of
from generator.reading.wording import validated, worded

KINDS = (Maker, TestNotes, Session, Terms, Buyer, PriceRow, LinkVersion, *(folder.kind for folder in FOLDERS))
WORDS = st.sampled_from(
    ["", "x", "68", "68 mm", "8 %", "1,5 g", "3", "soy", "cone", "GB", "a\nb", "2026-11-01", "ok"]
)
INNER_KEYS = sorted(
    {"x", "shape", "points", "to", "level", "height", "stock_code", "weighed", "empty", "m", "acute"}
)
PLAIN = st.recursive(
    WORDS,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(INNER_KEYS), inner, max_size=3)
    ),
    max_leaves=6,
)
OF_THE_PROGRAM = (
    "Input",
    "should be",
    "valid",
    "dictionary",
    "dict",
    "tuple",
    "dataclass",
    "None",
    "['",
    "{'",
)
PLACES = Places(shown_as="content", files={"entry.yaml": lambda: START})


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
@given(data=st.data())
@settings(max_examples=25, deadline=None)
def test_any_values_are_an_entry_or_are_told_in_the_makers_words(kind: Any, data: st.DataObject) -> None:
    written = data.draw(
        st.dictionaries(st.sampled_from([*keys_of(kind), "unknown", "[key]"]), PLAIN, max_size=8)
    )

    value = validated(Written(kind=kind, noun="an entry", data=written, at=("entry.yaml",), places=PLACES))

    for problem in value if isinstance(value, tuple) else ():
        words = f"{problem.what} {problem.why} {problem.fix}"
        assert all((problem.what, problem.why, problem.fix))
        assert [word for word in OF_THE_PROGRAM if word in words] == []


def test_an_error_that_nobody_foresaw_still_reads_plainly() -> None:
    written = Written(
        kind=Format, noun="a format", data={"packaging": "40 g"}, at=("entry.yaml",), places=PLACES
    )
    error = ErrorDetails(type="not_known_yet", loc=("packaging",), msg="Input should be else", input="40 g")

    assert [str(problem) for problem in worded([error], written)] == [
        "content/entry.yaml:1:1: error: packaging is '40 g'; expected something else\n"
        "    why: the weight of the parcel is calculated from it\n"
        "    fix: packaging: ... g"
    ]
