"""Numbers that name a substance, each with a check digit against copying errors."""

import re
from typing import Annotated, Final

from generator.model.quantities import as_text, wrong

_WHY: Final = "it identifies the same substance across all oils of a candle"


def cas_number(written: object) -> str:
    """A CAS number such as ``78-70-6``, its check digit proven.

    Check digit = sum of the other digits, each times its place counted from the right, mod 10
    (MEMORY, Chemical Abstracts Service; compared with 42 numbers of substances in the tests).
    """
    text = str(written).strip()
    match = re.fullmatch(r"([1-9][0-9]{1,6})-([0-9]{2})-([0-9])", text)
    if match is None:
        raise wrong(f"is '{text}'; expected a CAS number", _WHY)
    digits = match[1] + match[2]
    right = sum(place * int(digit) for place, digit in enumerate(reversed(digits), start=1)) % 10
    return _proven(text, match[3], str(right))


def ec_number(written: object) -> str:
    """An EC number such as ``201-134-4``, its check digit proven.

    Check digit = sum of the first six digits, each times its place counted from the left, mod 11; numbers
    that would need a 10 were never given out (MEMORY, EC Inventory; compared with 42 numbers in the tests).
    """
    text = str(written).strip()
    match = re.fullmatch(r"([0-9]{3})-([0-9]{3})-([0-9])", text)
    if match is None:
        raise wrong(f"is '{text}'; expected an EC number", _WHY)
    right = sum(place * int(digit) for place, digit in enumerate(match[1] + match[2], start=1)) % 11
    if right == 10:
        raise wrong(f"is '{text}', a number that was never assigned", _WHY)
    return _proven(text, match[3], str(right))


def _proven(text: str, last: str, right: str) -> str:
    if last != right:
        raise wrong(
            (f"is '{text}'; its last digit would have to be {right}, so one of its digits is mistyped"),
            _WHY,
            "the number as in section 3 of the safety data sheet",
        )
    return text


CasNumber = Annotated[
    str, *as_text(cas_number, r"^[1-9][0-9]{1,6}-[0-9]{2}-[0-9]$", "78-70-6", "......-..-.")
]
EcNumber = Annotated[str, *as_text(ec_number, r"^[0-9]{3}-[0-9]{3}-[0-9]$", "201-134-4", "...-...-.")]
