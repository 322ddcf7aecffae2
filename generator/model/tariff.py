"""Codes by which customs class goods."""

import re
from typing import Annotated, Final

from generator.model.quantities import as_text, wrong

_PATTERN: Final = r"[0-9]{4}(?:[. ]?[0-9]{2}){0,3}"
_CHAPTERS: Final = 97
_KEPT_FREE: Final = 77


def tariff_code(written: object) -> str:
    """A code of the Harmonized System of 4 or 6 digits, or of a tariff built on it of 8 or 10, as it is written.

    Its first two digits are a chapter from 01 to 97, of which 77 is kept free, and the next two a heading from 01 on.
    Source: Harmonized System Convention, its nomenclature (MEMORY); 3406, candles, tapers and the like, by customs
    rulings (FOUND).

    >>> tariff_code(" 3406.00 ")
    '3406.00'
    """
    text = " ".join(str(written).split())
    if re.fullmatch(_PATTERN, text) is None:
        raise wrong(f"is '{text}'; expected a customs code", "customs identify the goods by it")
    chapter, heading = int(text[:2]), int(text[2:4])
    if not (1 <= chapter <= _CHAPTERS and chapter != _KEPT_FREE and heading):
        raise wrong(
            f"is '{text}', and there is no heading {text[:4]}", "a parcel with a wrong code is held up"
        )
    return text


TariffCode = Annotated[
    str,
    *as_text(tariff_code, rf"^{_PATTERN}$", "3406.00", "... (its digits, as the customs tariff prints them)"),
]
