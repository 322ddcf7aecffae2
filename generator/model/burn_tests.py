"""Burn tests: the sessions as weighed, and what exactly was tested."""

from dataclasses import dataclass
from typing import Annotated, Final

from pydantic import ConfigDict

from generator.model.amounts import AmountOf
from generator.model.candle import Fill, Outcome, Wicks
from generator.model.dates import Day
from generator.model.entry import NOTES, About, Entry
from generator.model.quantities import BareHours, Hours, Mm, PlainNumber
from generator.model.words import Count, FreeText, Reference, YesNo

_HOURS: Final = "the burn hours are worked out from it"
_KEPT: Final = "it is kept with the test"
_COUNTS: Final = "it decides whether the test still counts for a candle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """One row of a burn test's table; the column names include the units."""

    __pydantic_config__ = ConfigDict(extra="forbid", frozen=True)

    piece: Annotated[FreeText, About(_HOURS)]
    session: Annotated[Count, About(_HOURS)]
    hours: Annotated[BareHours, About(_HOURS)]
    before_g: Annotated[PlainNumber, About(_HOURS)]
    after_g: Annotated[PlainNumber, About(_HOURS)]
    outcome: Annotated[Outcome, About(_HOURS)]
    note: Annotated[str, About(_KEPT)] = ""
    flame_mm: Annotated[PlainNumber | None, About(_KEPT)] = None
    pool_mm: Annotated[PlainNumber | None, About(_KEPT)] = None
    full_pool_h: Annotated[
        BareHours | None, About("the longest burn in the advice is worked out from it")
    ] = None
    vessel_max_c: Annotated[PlainNumber | None, About(_KEPT)] = None
    soot: Annotated[str | None, About(_KEPT)] = None
    trimmed: Annotated[YesNo | None, About(_KEPT)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestedAs(Entry):
    """The candle that was burnt, with the keys of a candle entry."""

    __test__ = False  # Its name begins like a test's, for pytest's collector.

    vessel: Annotated[Reference, About(_COUNTS, "... (the vessel that was tested: its name in vessels/)")]
    wick: Annotated[Wicks, About(_COUNTS, "... (the wick that was tested: its name in wicks/)")]
    fill: Annotated[Fill | None, About(_COUNTS, "{to: ... mm, level: set or poured}")] = None
    ingredients: Annotated[dict[Reference, AmountOf], About(_COUNTS, "{...: ... g}")]
    cure_h: Annotated[Hours | None, About(_COUNTS)] = None
    inner_diameter_mm: Annotated[Mm | None, About(_COUNTS)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestNotes(Entry):
    """The notes beside a burn test's table."""

    __test__ = False  # As above.

    tested_as: Annotated[
        TestedAs | None, About(_COUNTS, "{vessel: ..., wick: ..., ingredients: {...: ... g}}")
    ] = None
    tested_on: Annotated[Day | None, About(_COUNTS)] = None
    by: Annotated[FreeText | None, About(_KEPT)] = None
    notes: Annotated[FreeText | None, About(NOTES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnTest:
    """One file of sessions, what was tested and, if recorded, when and by whom."""

    file: str
    sessions: tuple[Session, ...]
    notes: TestNotes | None = None
