"""Lots: what was poured on one day for one stock code, by which formula, and under which revision of its sheet.

And recall notices: which lots must not be used any more, why, and what to do about it.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Annotated, Final

from pydantic import BeforeValidator, ConfigDict

from generator.model.canonical import Plain, fingerprint_of, parsed
from generator.model.dates import Day
from generator.model.entry import FOR_EVERYBODY, FOR_YOU, NOTES, NOTES_KEY, About, Entry, Form, Key
from generator.model.ledger import short_fingerprint
from generator.model.quantities import as_text, wrong
from generator.model.words import Count, FreeText, Id, StockCode, id_of, matching, text_from_entry

_SHEET: Final = "it leads a buyer to the sheet of the lot"
_RECALL: Final = "in a recall you must know which candles contain what is recalled"


_GROUPS: Final = ("waxes", "fragrances", "additives", "dyes")
_LOT: Final = r"[A-Za-z0-9](?:[ ./_-]{0,3}[A-Za-z0-9]){3,47}"

LotCode = Annotated[
    str,
    *as_text(
        matching(
            _LOT,
            "a lot code",
            "buyers type it from the label to find their sheet",
            lambda _: "",
        ),
        rf"^{_LOT}$",
        "the code on the label, such as SS-30-2026305-K7QX",
        "... (the code on the label: letters, digits and dashes, four or more)",
    ),
]

UNAMBIGUOUS: Final = "34679CDFGHJKMNPQRTVWXY"
"""Letters and digits that are not mistaken for each other, without vowels, so that they form no words. (CHOICE)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplierLot:
    """A supplier's lot of a material, vessel or wick: its id here, and the number on the supplier's package."""

    id: str
    number: str

    def __str__(self) -> str:
        return f"{self.id}:{self.number}"


def supplier_lot(written: object) -> SupplierLot:
    """``samphire:B4711``: the id, and the supplier's number after the first colon."""
    if isinstance(written, SupplierLot):
        return written
    text = text_from_entry(written)
    id_, _, number = (part.strip() for part in text.partition(":"))
    if not plain_number(number) or not number.isprintable() or ";" in number:
        raise wrong(
            f"is '{text}'; expected an id and a supplier's lot",
            "in a recall you search for both",
            "the id, a colon, and ... (the lot on the supplier's package)",
        )
    return SupplierLot(id=id_of(id_), number=number)


SupplierLotText = Annotated[
    SupplierLot,
    BeforeValidator(supplier_lot),
    Form("the id, a colon, and ... (the lot on the supplier's package)"),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """One row of ``lots.csv``; the maker may add her own columns.

    ``sheet_revision`` is None where no sheet had been issued; ``sent_to`` are trade buyers who were sent some of it.
    ``formula_fingerprint`` names the `PouredFormula` it was made by, None in rows of older programs and rows typed
    by the maker. ``drawn_from`` are the recorded suppliers' lots.
    """

    __pydantic_config__ = ConfigDict(extra="ignore", frozen=True)

    lot: Annotated[
        LotCode,
        About(_SHEET),
        Key(
            "The lot code on the label; customers find their sheet by it.",
            "SS-30-2026289-VXQD",
            FOR_EVERYBODY,
        ),
    ]
    stock_code: Annotated[
        StockCode, About(_SHEET), Key("The stock code that was poured.", "SS-30", FOR_EVERYBODY)
    ]
    poured_on: Annotated[Day, About(_SHEET), Key("The day it was poured.", "2026-10-16", FOR_YOU)]
    made: Annotated[
        Count,
        About("in a recall you must know how many there are"),
        Key("How many candles there are.", "36", FOR_YOU),
    ]
    sheet_revision: Annotated[
        Count | None,
        About(_SHEET),
        Key("The revision of the burn-safety sheet they were sold with.", "1", FOR_EVERYBODY),
    ] = None
    sent_to: Annotated[
        tuple[FreeText, ...],
        About("in a recall these shops must be told", "[...]"),
        Key(
            "The shops that were sent some of it, with semicolons between.",
            "Fish Steps Stores; The Lamp Room",
            FOR_YOU,
        ),
    ] = ()
    formula_fingerprint: Annotated[
        FreeText | None,
        About(_RECALL),
        Key("The recipe it was poured by; lots add fills it in.", "SS-30-f2764744d07b", FOR_YOU),
    ] = None
    drawn_from: Annotated[
        tuple[SupplierLotText, ...],
        About(_RECALL, "[...]"),
        Key(
            "The suppliers' lots that went into it, each behind its id and a colon.",
            "samphire:B4711; soy:88-2",
            FOR_YOU,
        ),
    ] = ()


@dataclass(frozen=True, kw_only=True)
class PouredFormula:
    """The formula a lot was poured by, kept once for all its lots; ``recorded`` is its canonical text.

    ``name`` is the name of its file in ``poured/``, by which lots refer to it: stock code and short fingerprint.
    """

    name: str
    recorded: str

    @cached_property
    def record(self) -> Mapping[str, Plain]:
        """The part of the private record that says what went in and how it was made."""
        return parsed(self.recorded)

    @property
    def stock_code(self) -> str:
        """Whose formula it is."""
        return str(self.record.get("stock_code", ""))

    @property
    def true_name(self) -> str:
        """The name that belongs to the recorded text; a different name means that one of the two was edited."""
        return f"{self.stock_code}-{short_fingerprint(fingerprint_of(self.recorded))}"

    @cached_property
    def ids(self) -> frozenset[str]:
        """The vessel, the wicks and every material."""
        return ids_in(self.record)


def ids_in(record: Mapping[str, Plain]) -> frozenset[str]:
    """The ids of the vessel, the wicks and every material in a private record."""
    return frozenset(_ids(_part(record, "build")))


def _ids(build: Mapping[str, Plain]) -> Iterator[str]:
    vessel = _part(build, "vessel").get("id")
    if isinstance(vessel, str):
        yield vessel
    yield from _part(build, "wicks")
    for group in _part(build, "formula").values():
        if isinstance(group, Mapping):
            yield from group


def ingredients_in(record: Mapping[str, Plain]) -> Iterator[tuple[str, str]]:
    """Name and amount of each ingredient in a private record, the waxes first."""
    formula = _part(_part(record, "build"), "formula")
    for portions in (_part(formula, group) for group in _GROUPS):
        for portion in (_part(portions, id_) for id_ in portions):
            yield str(_part(portion, "material").get("name", "")), str(portion.get("amount", ""))


def _part(whole: Mapping[str, Plain], key: str) -> Mapping[str, Plain]:
    part = whole.get(key)
    return part if isinstance(part, Mapping) else {}


def plain_number(written: str) -> str:
    """A supplier's lot in the form used for comparing: only letters and digits, in lower case.

    >>> plain_number("b 47-11")
    'b4711'
    """
    return "".join(sign for sign in written.casefold() if sign.isalnum())


def plain_code(written: str) -> str:
    """A lot code in the form used for comparing: only capitals and digits.

    >>> plain_code("ss 30-2026305 - k7qx")
    'SS302026305K7QX'
    """
    return re.sub(r"[^A-Z0-9]", "", written.upper())


def dated_code(stock_code: str, poured_on: date, ending: str) -> str:
    """The code the program makes: stock code, ISO 8601 ordinal date, and a random ending.

    >>> dated_code("SS-30", date(2026, 11, 1), "K7QX")
    'SS-30-2026305-K7QX'
    """
    return f"{stock_code}-{poured_on:%Y%j}-{ending}"


_MEANT: Final = "anyone with the candle must know whether it is affected"


@dataclass(frozen=True, slots=True, kw_only=True)
class Recall(Entry):
    """A product safety recall: of single lots, and of every lot of a stock code where ``stock_codes`` names it.

    ``what_to_do`` are the steps in order, after the first one, which every notice has: stop using it.
    ``remedy`` is what the buyer gets: repair, replacement or refund.
    """

    id: Id
    lots: Annotated[
        tuple[LotCode, ...],
        About(_MEANT, "[...]"),
        Key("The lot codes that are recalled.", "[SS-30-2026289-VXQD]", FOR_EVERYBODY),
    ] = ()
    stock_codes: Annotated[
        tuple[StockCode, ...],
        About(_MEANT, "[...]"),
        Key("The stock codes of which every lot is recalled.", "[SS-30]", FOR_EVERYBODY),
    ] = ()
    hazard: Annotated[
        FreeText,
        About("anyone with the candle must know what it could do to them"),
        Key(
            "What is wrong, and what it could do to someone.",
            "The glass may crack and hot wax may spill.",
            FOR_EVERYBODY,
        ),
    ]
    what_to_do: Annotated[
        tuple[FreeText, ...],
        About("anyone with the candle must know what to do with it", "[..., ...]"),
        Key(
            "What to do, step by step, once the candle is out.",
            "[Do not light it again., Take it back to the shop.]",
            FOR_EVERYBODY,
        ),
    ]
    remedy: Annotated[
        FreeText | None,
        About("anyone with the candle must know what they get for it"),
        Key("What people get for it.", "Your money back, without a receipt.", FOR_EVERYBODY),
    ] = None
    contact: Annotated[
        FreeText,
        About(
            "anyone with the candle must be able to ask",
            "... (an e-mail address, or a freephone number)",
        ),
        Key("Where people can ask, free of charge.", "hello@quillfern.example", FOR_EVERYBODY),
    ]
    on: Annotated[
        Day,
        About("a notice without a date could be mistaken for an older one"),
        Key("The date of the notice.", "2026-11-01", FOR_EVERYBODY),
    ]
    sold: Annotated[
        FreeText | None,
        About(_MEANT),
        Key(
            "Where and when the candles were sold.",
            "in our shop and at two markets, October 2026",
            FOR_EVERYBODY,
        ),
    ] = None
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None
