"""What a UFI was notified with, beside it in a candle's entry; and the book of the UFIs that were made here."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Final

from pydantic import BeforeValidator, ConfigDict

from generator.model.countries import Country
from generator.model.dates import Day
from generator.model.entry import FOR_EVERYBODY, FOR_YOU, About, Entry, Form, Key
from generator.model.quantities import wrong
from generator.model.sheet_values import ShareRange, ShareRangeOf, share_range
from generator.model.ufi import Ufi
from generator.model.words import StockCode, Text, text_from_entry

NOTIFIED: Final = "a recipe that moves too far from what was notified needs a new UFI"
HOW_NOTIFIED: Final = "{by: ..., countries: [...], on: year-month-day, shares: {...: ... %}}"
_TIED: Final = "a recipe that has moved too far from them needs a notification of its own"
_KEPT: Final = "an authority asks who notified the mixture, where and when"
_NONE_TWICE: Final = "no UFI may be given to two recipes"
_FORM: Final = "a material's id or a constituent's CAS number, a colon, and ... %"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notified(Entry):
    """How a UFI was notified: by the maker herself, or by whoever did it for her in the EU.

    ``shares`` are those of the notified components in the finished candle, by the id of a material, or by a
    constituent's CAS number or name; a range where a range was notified. ``submission`` is the portal's own number.
    """

    by: Annotated[
        Text | None, About(_KEPT), Key("Who notified the mixture.", "Atelier du Quai Gris", FOR_YOU)
    ] = None
    countries: Annotated[
        tuple[Country, ...],
        About(_KEPT, "[...]"),
        Key("The countries it was notified in.", "[FR, DE]", FOR_YOU),
    ] = ()
    on: Annotated[Day | None, About(_KEPT), Key("The day it was notified.", "2026-11-20", FOR_YOU)] = None
    submission: Annotated[
        Text | None, About(_KEPT), Key("The number of the notification.", "FR-2026-000123", FOR_YOU)
    ] = None
    shares: Annotated[
        dict[Text, ShareRangeOf],
        About(_TIED, "{...: ... %}"),
        Key(
            "The notified share of each material or constituent in the candle, or its range.",
            "{soy-paraffin: 91.9 %, samphire: 7.8 %, 78-70-6: 0.5-1 %}",
            FOR_YOU,
        ),
    ] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class NotedShare:
    """One component and its share of the candle."""

    key: str
    share: ShareRange

    def __str__(self) -> str:
        low, high = f"{self.share.low_percent:f}", f"{self.share.high_percent:f}"
        return f"{self.key}: {low if low == high else f'{low}-{high}'} %"


def noted_share(written: object) -> NotedShare:
    """``samphire: 7.834 %``: a component, and its share behind the last colon."""
    if isinstance(written, NotedShare):
        return written
    text = text_from_entry(written)
    key, colon, share = (part.strip() for part in text.rpartition(":"))
    if not (key and colon):
        raise wrong(f"is '{text}'; expected a component and its share", _TIED, _FORM)
    return NotedShare(key, share_range(share))


NotedShareText = Annotated[NotedShare, BeforeValidator(noted_share), Form(_FORM)]


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeUfi:
    """One row of ``ufi.csv``: a UFI that was made here, for which stock code's recipe, and that recipe's shares."""

    __pydantic_config__ = ConfigDict(extra="ignore", frozen=True)

    ufi: Annotated[
        Ufi,
        About(_NONE_TWICE),
        Key("The UFI that was made, for labels.", "C23S-PQ2V-AMH9-VVRF", FOR_EVERYBODY),
    ]
    stock_code: Annotated[
        StockCode,
        About(_NONE_TWICE),
        Key("A stock code of the recipe it was made for.", "SS-30", FOR_YOU),
    ]
    made_on: Annotated[Day, About(_NONE_TWICE), Key("The day it was made.", "2026-11-01", FOR_YOU)]
    shares: Annotated[
        tuple[NotedShareText, ...],
        About(_TIED, "[...]"),
        Key(
            "The shares of the candle that the recipe had, with semicolons between.",
            "soy-paraffin: 91.9 %; samphire: 7.811 %",
            FOR_YOU,
        ),
    ]

    @property
    def by_key(self) -> Mapping[str, ShareRange]:
        """The shares by component."""
        return {each.key: each.share for each in self.shares}
