"""Customs codes: the forms in which tariffs print them, and what cannot be one."""

import pytest
from pydantic_core import PydanticCustomError

from generator.model.tariff import tariff_code


@pytest.mark.parametrize(
    "code", ["3406", "3406.00", "340600", "3406 00 00", "3406.00.0000", "3307.49", "0101.21"]
)
def test_a_code_is_printed_as_it_is_written(code: str) -> None:
    """3406.00 (FOUND), 3307.49 (FOUND), and other headings of the nomenclature (MEMORY)."""
    assert tariff_code(f" {code} ") == code


@pytest.mark.parametrize(
    "code",
    ["", "34", "340", "34061", "3406.0", "3406..00", "34.06", "3406.00.00.00.00", "3406-00", "candles", "0006", "7701",
     "9801", "3400"],
)  # fmt: skip
def test_what_cannot_be_a_code_is_refused(code: str) -> None:
    with pytest.raises(PydanticCustomError):
        tariff_code(code)
