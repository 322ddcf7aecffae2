"""Kinds of candle, a row for each: what a paper may say of it, and which figures it has.

A row answers every question, since no field has a default; entries may not yet use a kind without a row.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Final, Literal


class Kind(Enum):
    """What sort of candle it is; only container and melt have rules yet."""

    CONTAINER = "container"
    MELT = "melt"
    TEALIGHT = "tealight"
    VOTIVE = "votive"
    PILLAR = "pillar"
    TAPER = "taper"
    SET = "set"


@dataclass(frozen=True, slots=True, kw_only=True)
class KindSentences:
    """The keys of the sentences about one kind, each in the subject of the words named in its comment."""

    search: str  # catalogue: what a search finds it by
    inside: str  # candle, as the next two: the heading of its width and height
    inside_of: str
    plate_text: str
    description: str  # safety, as the next four
    heading: str
    signal_line: str
    every_time: str
    advice_note: str | None
    """What is below the advice of the markets; None where there is no flame."""
    no_hours: str  # trade: in place of hours that were not worked out
    trouble: str  # labels, as the next two
    identity: str
    """With ``_unscented`` appended if it has no fragrance."""
    never_lit: str | None
    """What a label says instead of the figures of a flame; None where there is one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindTraits:
    """The traits of one kind. Only a flame has burn hours, first and longest burn, and advice."""

    has_flame: bool
    takes_wick: bool
    stands_in: Literal["container", "packaging", "nothing"]
    """Whether the wax is used in its vessel, is only sold in it, or leaves it as a mould."""
    has_stop_line: bool
    """Whether papers state where burning stops: the advice is for containers (standards.md B6; B7 for others)."""
    core: tuple[str, ...]
    """The signs and sentences that come first on sheets and labels."""
    signs: tuple[str, ...]
    """The signs below them, whose sentences end in ``_sign``."""
    emergencies: tuple[str, ...]
    """What may go wrong, each with its steps to take."""
    first_aid: tuple[str, ...]
    care: tuple[str, ...]
    """The signs on the candle's page."""
    care_beside: Mapping[str, str]
    """Their sentences that name the kind, by sign, for a page that also has sizes of another kind."""
    customs_heading: str | None
    """Heading of the Harmonized System; None where it is unclear: none is printed, and the maker must ask."""
    sentences: KindSentences


KINDS: Final[Mapping[Kind, KindTraits]] = {
    Kind.CONTAINER: KindTraits(
        has_flame=True,
        takes_wick=True,
        stands_in="container",
        has_stop_line=True,
        core=("alone", "catches", "reach"),
        signs=("trim", "session", "draught", "surface", "move", "pool", "snuff", "apart", "water"),
        emergencies=("flares", "cracks"),
        first_aid=("smoking", "skin"),
        care=("trim", "session", "catches", "reach"),
        care_beside={},
        customs_heading="3406",  # Candles, tapers and the like, with a wick, of every kind (customs rulings, FOUND).
        sentences=KindSentences(
            search="kind_container",
            inside="inside",
            inside_of="inside_of",
            plate_text="plate_text",
            description="description",
            heading="heading",
            signal_line="signal_line",
            every_time="every_time",
            advice_note="advice_note",
            no_hours="hours_unsaid",
            trouble="trouble",
            identity="identity",
            never_lit=None,
        ),
    ),
    Kind.MELT: KindTraits(
        has_flame=False,
        takes_wick=False,
        stands_in="packaging",
        has_stop_line=False,
        core=("alone_melt", "catches_melt", "reach_melt"),
        signs=("unlit", "warmer", "surface_melt", "move_melt", "set", "water_melt"),
        emergencies=("smokes", "spills"),
        first_aid=("skin",),
        care=("unlit", "warmer", "catches", "reach"),
        care_beside={"unlit": "unlit_beside", "warmer": "warmer_beside"},
        customs_heading=None,  # US rulings differ: 3307.49, 9602.00 (FOUND); EU and GB not looked up.
        sentences=KindSentences(
            search="kind_melt",
            inside="inside",
            inside_of="inside_of",
            plate_text="plate_text",
            description="description_melt",
            heading="heading_melt",
            signal_line="signal_line_melt",
            every_time="every_time_melt",
            advice_note=None,
            no_hours="no_hours",
            trouble="trouble_melt",
            identity="identity_melt",
            never_lit="unlit",
        ),
    ),
}
"""The kinds that have rules; ``rules.entries.checks`` refuses a kind named above but not here."""
