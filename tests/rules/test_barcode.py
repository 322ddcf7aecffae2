"""Article numbers, held against the examples of their standard."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.problems import Fault
from generator.rules.labels.barcode import barcode_faults, check_digit, normal_form

DATA = st.sampled_from((7, 11, 12, 13)).flatmap(
    lambda length: st.text("0123456789", min_size=length, max_size=length)
)


@pytest.mark.parametrize(
    ("data", "printed"),
    [
        pytest.param("629104150021", 3, id="V34, GS1 manual method, FOUND"),
        pytest.param("730001100001", 7, id="V35, GS1 Sweden, FOUND"),
        pytest.param("03600024145", 7, id="V36, encyclopaedia, FOUND"),
        pytest.param("501234567890", 0, id="V37, GS1 UK example, sum a multiple of ten, COMPUTED"),
    ],
)
def test_check_digits_are_those_of_the_reference(data: str, printed: int) -> None:
    """standards.md V34 to V37."""
    assert check_digit(data) == printed


@pytest.mark.parametrize("barcode", ["7300011000017", "036000241457", "50123-45678-900", "9638 5074"])
def test_a_right_number_of_any_length_passes_however_it_is_spaced(barcode: str) -> None:
    assert barcode_faults(barcode) == ()


def test_twelve_digits_become_thirteen_with_a_leading_nought() -> None:
    """standards.md T7 (FOUND-2nd)."""
    assert normal_form("0 36000 24145-7") == "0036000241457"
    assert normal_form("7300011000017") == "7300011000017"


def test_a_wrong_last_digit_is_named_with_the_right_one() -> None:
    assert barcode_faults("7300011000016") == (
        Fault(
            path=("barcode",),
            what="barcode '7300011000016' ends in 6, but by its other digits it should end in 7",
            why="no till could read it, or it would order something else",
            fix="barcode: all digits as they were issued, in quotes",
        ),
    )


@pytest.mark.parametrize("barcode", ["730001100001X", "12345", "", "٧٣٠٠٠١١٠٠٠٠١٧"])
def test_what_is_no_article_number_is_quoted(barcode: str) -> None:
    (fault,) = barcode_faults(barcode)

    assert fault.what == f"barcode is '{barcode}'; expected 8, 12, 13 or 14 digits"
    assert fault.fix == "barcode: a number of 8, 12, 13 or 14 digits, in quotes"


class TestEveryNumber:
    """A modulo-10 check digit with weights 3 and 1 finds every single wrong digit (GS1, MEMORY)."""

    @given(data=DATA)
    @settings(max_examples=20)
    def test_with_its_check_digit_it_passes(self, data: str) -> None:
        assert barcode_faults(f"{data}{check_digit(data)}") == ()

    @given(data=DATA, place=st.integers(0, 6), shift=st.integers(1, 9))
    @settings(max_examples=20)
    def test_with_one_digit_changed_it_fails(self, data: str, place: int, shift: int) -> None:
        changed = f"{data[:place]}{(int(data[place]) + shift) % 10}{data[place + 1 :]}"

        assert len(barcode_faults(f"{changed}{check_digit(data)}")) == 1

    @given(data=st.text("0123456789", min_size=11, max_size=11))
    @settings(max_examples=20)
    def test_a_leading_nought_keeps_the_check_digit(self, data: str) -> None:
        assert check_digit(data) == check_digit(f"0{data}")
