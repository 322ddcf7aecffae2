"""Lots: what was poured on one day for one stock code, and under which revision of its sheet."""

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final

from pydantic import BeforeValidator, ConfigDict

from generator.model.about import About, Form
from generator.model.dates import Day
from generator.model.quantities import text_schema
from generator.model.words import Count, StockCode, Text, matching

_SHEET: Final = "a buyer is led to the sheet of the lot by it"


_LOT: Final = r"[A-Za-z0-9](?:[ ./_-]{0,3}[A-Za-z0-9]){3,47}"

LotCode = Annotated[
    str,
    BeforeValidator(
        matching(
            _LOT,
            "a lot code",
            "buyers type it from the label to find their sheet",
            lambda _: "",
        )
    ),
    text_schema(rf"^{_LOT}$", "the code on the label, such as SS-30-2026305-K7QX"),
    Form("... (the code on the label: letters, digits and dashes)"),
]

UNAMBIGUOUS: Final = "34679CDFGHJKMNPQRTVWXY"
"""Letters and digits that are not read for one another, without vowels, so that no words come about. (CHOICE)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """One row of ``lots.csv``; a maker may keep further columns of her own.

    ``sheet_revision`` is None where no sheet had been issued; ``sent_to`` are trade buyers who were sent some of it.
    """

    __pydantic_config__ = ConfigDict(extra="ignore", frozen=True)

    lot: Annotated[LotCode, About(_SHEET)]
    stock_code: Annotated[StockCode, About(_SHEET)]
    poured_on: Annotated[Day, About(_SHEET)]
    made: Annotated[Count, About("how many there are must be known on the day of a recall")]
    sheet_revision: Annotated[Count | None, About(_SHEET)] = None
    sent_to: Annotated[
        tuple[Text, ...], About("on the day of a recall these shops must be told", "[...]")
    ] = ()


def plain_code(written: str) -> str:
    """A lot code as it is compared: capitals and digits alone, however it was typed.

    >>> plain_code("ss 30-2026305 - k7qx")
    'SS302026305K7QX'
    """
    return re.sub(r"[^A-Z0-9]", "", written.upper())


def dated_code(stock_code: str, poured_on: date, ending: str) -> str:
    """The code the program makes: stock code, ISO 8601's ordinal date, and an ending that nobody can guess.

    >>> dated_code("SS-30", date(2026, 11, 1), "K7QX")
    'SS-30-2026305-K7QX'
    """
    return f"{stock_code}-{poured_on:%Y%j}-{ending}"
