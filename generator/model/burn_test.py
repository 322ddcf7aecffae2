"""Burn tests: the sessions as weighed, and what exactly was tested."""

from dataclasses import dataclass

from pydantic import ConfigDict

from generator.model.amounts import AmountOf
from generator.model.candle import Fill, Outcome, Wicks
from generator.model.dates import Day
from generator.model.entry import ENTRY
from generator.model.quantities import BareHours, Hours, Mm, Number
from generator.model.words import Count, FreeText, Reference, YesNo


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """One row of a burn test's table; its columns carry the units in their names."""

    __pydantic_config__ = ConfigDict(extra="forbid", frozen=True)

    piece: FreeText
    session: Count
    hours: BareHours
    before_g: Number
    after_g: Number
    outcome: Outcome
    note: str = ""
    flame_mm: Number | None = None
    pool_mm: Number | None = None
    full_pool_h: BareHours | None = None
    vessel_max_c: Number | None = None
    soot: str | None = None
    trimmed: YesNo | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestedAs:
    """The candle that was burnt, in the keys of a candle entry."""

    __pydantic_config__ = ENTRY
    __test__ = False  # Its name begins like a test's, for pytest's collector.

    vessel: Reference
    wick: Wicks
    fill: Fill | None = None
    ingredients: dict[Reference, AmountOf]
    cure_h: Hours | None = None
    inner_diameter_mm: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestNotes:
    """What stands beside a burn test's table."""

    __pydantic_config__ = ENTRY
    __test__ = False  # As above.

    tested_as: TestedAs | None = None
    tested_on: Day | None = None
    by: FreeText | None = None
    notes: FreeText | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnTest:
    """One file of sessions and what was tested, when and by whom if recorded."""

    file: str
    sessions: tuple[Session, ...]
    notes: TestNotes | None = None
