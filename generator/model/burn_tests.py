"""Burn tests: the sessions as weighed, and what exactly was tested."""

from dataclasses import dataclass
from typing import Annotated, Final

from pydantic import ConfigDict

from generator.model.amounts import AmountOf
from generator.model.candle import Outcome
from generator.model.dates import Day
from generator.model.entry import FOR_YOU, NOTES, NOTES_KEY, About, Entry, Key
from generator.model.formats import Fill, Wicks
from generator.model.quantities import BareHours, Hours, Mm, PlainNumber
from generator.model.words import Count, FreeText, Reference, YesNo

_HOURS: Final = "the burn hours are calculated from it"
_KEPT: Final = "it is kept with the test"
_COUNTS: Final = "it decides whether the test still counts for a candle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """One row of a burn test's table; the column names include the units."""

    __pydantic_config__ = ConfigDict(extra="forbid", frozen=True)

    piece: Annotated[FreeText, About(_HOURS), Key("Which of the test candles it was.", "A", FOR_YOU)]
    session: Annotated[
        Count, About(_HOURS), Key("The number of the burn, counted from 1 for each piece.", "1", FOR_YOU)
    ]
    hours: Annotated[BareHours, About(_HOURS), Key("How long it burned, in hours.", "4", FOR_YOU)]
    before_g: Annotated[
        PlainNumber, About(_HOURS), Key("What it weighed before, in grams.", "493.0", FOR_YOU)
    ]
    after_g: Annotated[PlainNumber, About(_HOURS), Key("What it weighed after, in grams.", "477.9", FOR_YOU)]
    outcome: Annotated[Outcome, About(_HOURS), Key("How the burn ended.", "ok", FOR_YOU)]
    note: Annotated[str, About(_KEPT), Key("Anything you saw.", "a little smoke", FOR_YOU)] = ""
    flame_mm: Annotated[
        PlainNumber | None, About(_KEPT), Key("The height of the flame, in mm.", "25", FOR_YOU)
    ] = None
    pool_mm: Annotated[
        PlainNumber | None, About(_KEPT), Key("The width of the melt pool, in mm.", "70", FOR_YOU)
    ] = None
    full_pool_h: Annotated[
        BareHours | None,
        About("the longest burn in the advice is calculated from it"),
        Key("After how many hours the melt pool reached the wall.", "2.8", FOR_YOU),
    ] = None
    vessel_max_c: Annotated[
        PlainNumber | None, About(_KEPT), Key("The highest temperature of the vessel, in °C.", "52", FOR_YOU)
    ] = None
    soot: Annotated[
        str | None, About(_KEPT), Key("How much soot there was, in your own words.", "none", FOR_YOU)
    ] = None
    trimmed: Annotated[
        YesNo | None, About(_KEPT), Key("Whether the wick was trimmed before this burn.", "yes", FOR_YOU)
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestedAs(Entry):
    """The candle that was burnt, with the keys of a candle entry."""

    __test__ = False  # Its name begins like a test's, for pytest's collector.

    vessel: Annotated[
        Reference,
        About(_COUNTS, "... (the vessel that was tested: its name in vessels/)"),
        Key("The vessel of the test candles: its file's name in vessels/.", "hex-jar", FOR_YOU),
    ]
    wick: Annotated[
        Wicks,
        About(_COUNTS, "... (the wick that was tested: its name in wicks/)"),
        Key("The wick of the test candles: its file's name in wicks/.", "square-braid-5", FOR_YOU),
    ]
    fill: Annotated[
        Fill | None,
        About(_COUNTS, "{to: ... mm, level: set or poured}"),
        Key("How full the test candles were.", "{to: 62 mm, level: set}", FOR_YOU),
    ] = None
    ingredients: Annotated[
        dict[Reference, AmountOf],
        About(_COUNTS, "{...: ... g}"),
        Key("The recipe of the test candles.", "{beeswax: 800 g, coconut: 200 g}", FOR_YOU),
    ]
    cure_h: Annotated[Hours | None, About(_COUNTS), Key("How long they had cured.", "3 days", FOR_YOU)] = None
    inner_diameter_mm: Annotated[
        Mm | None,
        About(_COUNTS),
        Key("The inside diameter you measured on the test vessels.", "70 mm", FOR_YOU),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestNotes(Entry):
    """The notes beside a burn test's table."""

    __test__ = False  # As above.

    tested_as: Annotated[
        TestedAs | None,
        About(_COUNTS, "{vessel: ..., wick: ..., ingredients: {...: ... g}}"),
        Key(
            "What exactly was tested, in the keys of a candle.",
            "{vessel: hex-jar, wick: square-braid-5, ingredients: {beeswax: 800 g}}",
            FOR_YOU,
        ),
    ] = None
    tested_on: Annotated[
        Day | None, About(_COUNTS), Key("The day the test began.", "2026-03-09", FOR_YOU)
    ] = None
    by: Annotated[
        FreeText | None,
        About(_KEPT),
        Key("Who tested, and where.", "M. Tarrow, at the loft bench, 20 C", FOR_YOU),
    ] = None
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnTest:
    """One file of sessions, what was tested and, if recorded, when and by whom."""

    file: str
    sessions: tuple[Session, ...]
    notes: TestNotes | None = None
