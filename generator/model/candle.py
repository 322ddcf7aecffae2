"""Candles as recorded: one scent, its formula, and the sizes it is sold in."""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import Field

from generator.model.amounts import AmountOf
from generator.model.dates import Day
from generator.model.entry import (
    FOR_EVERYBODY,
    FOR_YOU,
    FORMULA,
    NOTES,
    NOTES_KEY,
    POISON_CENTRE,
    SHELVES,
    About,
    Entry,
    Key,
)
from generator.model.quantities import Celsius, Hours
from generator.model.sizes import Size, Status
from generator.model.ufi import Ufi
from generator.model.words import FreeText, Id, Reference, Shade, Text

_POUR: Final = "the pour sheet prints it"
_NOTES_OF_SCENT: Final = "the candle's page lists it"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScentNotes(Entry):
    """What the nose meets first, then, last."""

    top: Annotated[
        tuple[FreeText, ...],
        About(_NOTES_OF_SCENT, "[...]"),
        Key("What you smell first.", "[sea salt, green apple skin]", FOR_EVERYBODY),
    ] = ()
    heart: Annotated[
        tuple[FreeText, ...],
        About(_NOTES_OF_SCENT, "[...]"),
        Key("What you smell next.", "[samphire]", FOR_EVERYBODY),
    ] = ()
    base: Annotated[
        tuple[FreeText, ...],
        About(_NOTES_OF_SCENT, "[...]"),
        Key("What stays longest.", "[wet slate]", FOR_EVERYBODY),
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour(Entry):
    """The wax's colour by name and as drawn."""

    name: Annotated[
        Text,
        About("the candle's page names the colour"),
        Key("What the colour of the wax is called.", "wet slate", FOR_EVERYBODY),
    ]
    shade: Annotated[
        Shade,
        About("the drawings are tinted with it"),
        Key("The colour for the drawings, as six digits after #, in quotes.", '"#66727a"', FOR_EVERYBODY),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sold(Entry):
    """The days between which a candle stands on the shelves."""

    from_: Annotated[
        Day | None,
        Field(alias="from"),
        About(SHELVES),
        Key("The first day the candle is on sale.", "2026-10-01", FOR_YOU),
    ] = None
    until: Annotated[
        Day | None, About(SHELVES), Key("The last day the candle is on sale.", "2026-12-24", FOR_YOU)
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Make(Entry):
    """How the batch is poured."""

    heat_to_c: Annotated[Celsius | None, About(_POUR), Key("How hot the wax is heated.", "88 C", FOR_YOU)] = (
        None
    )
    fragrance_at_c: Annotated[
        Celsius | None, About(_POUR), Key("The temperature at which the fragrance goes in.", "82 C", FOR_YOU)
    ] = None
    pour_at_c: Annotated[
        Celsius | None, About(_POUR), Key("The temperature at which the wax is poured.", "75 C", FOR_YOU)
    ] = None
    cure_h: Annotated[
        Hours | None, About(_POUR), Key("How long the candle cures before it is sold.", "14 days", FOR_YOU)
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Candle(Entry):
    """One scent: what it is, what is in it, its sizes. Its ufi holds for sizes without own ingredients."""

    id: Id
    scent: Annotated[
        Text,
        About("the candle would have no name"),
        Key("The name of the candle.", "Slate & Samphire", FOR_EVERYBODY),
    ]
    collection: Annotated[
        Reference,
        About(
            "the catalogue would not know which collection it belongs to", "... (a key of collections.yaml)"
        ),
        Key("The collection it belongs to: a key of collections.yaml.", "shoreline", FOR_EVERYBODY),
    ]
    season: Annotated[
        FreeText | None,
        About("the candle's page names it"),
        Key("The season that the candle's page names.", "all year", FOR_EVERYBODY),
    ] = None
    status: Annotated[
        Status,
        About(SHELVES),
        Key("Where the candle is in its life; trial keeps it off the shelves.", "current", FOR_EVERYBODY),
    ] = Status.CURRENT
    sold: Annotated[
        Sold | None,
        About(SHELVES, "{from: year-month-day, until: year-month-day}"),
        Key("The days between which it is on sale.", "{from: 2026-10-01, until: 2026-12-24}", FOR_YOU),
    ] = None
    added: Annotated[
        Day | None,
        About("it decides which law applies to the candle"),
        Key("The day you first sold it.", "2026-03-01", FOR_YOU),
    ] = None
    scent_notes: Annotated[
        ScentNotes | None,
        About(_NOTES_OF_SCENT, "{top: [...], heart: [...], base: [...]}"),
        Key(
            "The scent in its three parts.",
            "{top: [sea salt], heart: [samphire], base: [wet slate]}",
            FOR_EVERYBODY,
        ),
    ] = None
    colour: Annotated[
        Colour | None,
        About("the candle's page names the colour, and the drawings are tinted with it"),
        Key("The colour of the wax.", '{name: wet slate, shade: "#66727a"}', FOR_EVERYBODY),
    ] = None
    description: Annotated[
        FreeText | None,
        About("the candle's page states it"),
        Key(
            "The text on the candle's page.",
            "Salt first, then cold stone for as long as it burns.",
            FOR_EVERYBODY,
        ),
    ] = None
    ingredients: Annotated[
        dict[Reference, AmountOf],
        About(FORMULA, "{...: ... g}"),
        Key(
            "The recipe: each ingredient by its file's name, with its amount or share.",
            "{soy-paraffin: 1000 g, samphire: 85 g}",
            FOR_YOU,
        ),
    ]
    make: Annotated[
        Make | None,
        About(_POUR, "{heat_to: ... C, fragrance_at: ... C, pour_at: ... C, cure: ... days}"),
        Key(
            "How the batch is made.",
            "{heat_to: 88 C, fragrance_at: 82 C, pour_at: 75 C, cure: 14 days}",
            FOR_YOU,
        ),
    ] = None
    ufi: Annotated[
        Ufi | None,
        About(POISON_CENTRE),
        Key(
            "The UFI of the mixture, by which a poison centre identifies it.",
            "C23S-PQ2V-AMH9-VVRF",
            FOR_EVERYBODY,
        ),
    ] = None
    sizes: Annotated[
        tuple[Size, ...],
        About("a candle without a size cannot be sold", "[{stock_code: ..., format: ...}]"),
        Key("The sizes it is sold in.", "[{stock_code: SS-30, format: tumbler-30}]", FOR_EVERYBODY),
    ]
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


Outcome = Literal["ok", "stopped_at_heel", "self_extinguished_at_heel", "drowned", "fault"]
