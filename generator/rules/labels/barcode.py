"""Article numbers (GTIN): their length, their check digit, one form for all."""

import re
from typing import Final

from generator.problems import Fault

_LENGTHS: Final = (8, 12, 13, 14)
"""Digits of a GTIN (standards.md T7, FOUND-2nd)."""


def check_digit(data: str) -> int:
    """The last digit of an article number, calculated from those before it.

    (10 - (3 d1 + 1 d2 + 3 d3 + ...) mod 10) mod 10, with d1 the rightmost of the data digits

    data: the digits before the check digit, without unit.
    Holds for GTIN-8, 12, 13 and 14.
    Source: GS1, how to calculate a check digit manually (standards.md T6, FOUND).

    >>> check_digit("629104150021")
    3
    """
    digits = [int(digit) for digit in reversed(data)]
    return -(3 * sum(digits[::2]) + sum(digits[1::2])) % 10


def normal_form(barcode: str) -> str:
    """Digits only, and 12 of them as 13 with a leading zero (standards.md T7, FOUND-2nd)."""
    digits = re.sub(r"[\s-]", "", barcode)
    return f"0{digits}" if len(digits) == 12 else digits


def barcode_faults(barcode: str) -> tuple[Fault, ...]:
    """Whether an article number has a valid length and a correct check digit."""
    digits = re.sub(r"[\s-]", "", barcode)
    if not re.fullmatch(r"[0-9]+", digits) or len(digits) not in _LENGTHS:
        what = f"barcode is '{barcode}'; expected 8, 12, 13 or 14 digits"
        return (_fault(what, "a number of 8, 12, 13 or 14 digits, in quotes"),)
    right = f"{digits[:-1]}{check_digit(digits[:-1])}"
    if digits != right:
        what = (
            f"barcode '{barcode}' ends in {digits[-1]}, but by its other digits it should end in {right[-1]}"
        )
        return (_fault(what, "all digits as they were issued, in quotes"),)
    return ()


def _fault(what: str, fix: str) -> Fault:
    why = "no till could read it, or it would order something else"
    return Fault(path=("barcode",), what=what, why=why, fix=f"barcode: {fix}")
