"""Lot codes: what may be one, and when two are the same to a buyer."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.lots import UNAMBIGUOUS, LotCode, dated_code, plain_code
from generator.reading.wording import is_valid

CODES = st.from_regex(r"[A-Za-z0-9]([ ./_-]{0,3}[A-Za-z0-9]){3,20}", fullmatch=True)


@pytest.mark.parametrize("written", ["SS-30-2026305-K7QX", "L24/117", "ss 30 a", "2026.305"])
def test_a_maker_may_keep_codes_of_her_own(written: str) -> None:
    assert is_valid(LotCode, written)


@pytest.mark.parametrize(
    "written", ["", "L-1", "-2026305", "2026305-", "lot <b>", "Füllung 1", "a    bcd"], ids=repr
)
def test_what_a_buyer_could_not_type_is_no_lot_code(written: str) -> None:
    assert not is_valid(LotCode, written)


@pytest.mark.parametrize(
    "typed",
    ["ss-30-2026305-k7qx", "SS30 2026305 K7QX", " ss–30–2026305–k7qx. "],
    ids=["small", "apart", "dashes"],
)
def test_capitals_dashes_and_spaces_do_not_matter(typed: str) -> None:
    assert plain_code(typed) == plain_code("SS-30-2026305-K7QX")


@given(CODES)
@settings(max_examples=20)
def test_a_plain_code_is_plain_already(code: str) -> None:
    assert plain_code(plain_code(code)) == plain_code(code) != ""


def test_a_code_of_the_program_says_stock_code_year_and_day_of_the_year() -> None:
    """ISO 8601's ordinal date without a dash; 1 November is the 305th day of 2026 (COMPUTED)."""
    code = dated_code("SS-30", date(2026, 11, 1), "K7QX")

    assert code == "SS-30-2026305-K7QX"
    assert is_valid(LotCode, code)


def test_no_letter_of_an_ending_is_read_for_another() -> None:
    assert set(UNAMBIGUOUS).isdisjoint("0O1IL2Z5S8B")
    assert set(UNAMBIGUOUS).isdisjoint("AEIOU")
