"""Vessels: the inside as a shape with its measurements, capacity and weight."""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import Field

from generator.model.entry import (
    COSTS,
    DISCONTINUED,
    DISCONTINUED_KEY,
    FOR_EVERYBODY,
    FOR_YOU,
    NAME,
    NOTES,
    NOTES_KEY,
    WEIGHT,
    About,
    Entry,
    Key,
)
from generator.model.money import Price
from generator.model.quantities import Grams, Ml, Mm
from generator.model.water import Brimful
from generator.model.words import FreeText, Id, Text, YesNo

_PARCEL: Final = "the parcel's weight is calculated from it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder(Entry):
    """Straight walls, flat base."""

    shape: Annotated[
        Literal["cylinder"], About(WEIGHT), Key("Straight walls and a flat base.", "cylinder", FOR_EVERYBODY)
    ]
    diameter_mm: Annotated[Mm, About(WEIGHT), Key("The inside diameter.", "74 mm", FOR_EVERYBODY)]
    height_mm: Annotated[
        Mm, About(WEIGHT), Key("The inside height, from the base to the rim.", "92 mm", FOR_EVERYBODY)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cone(Entry):
    """Walls that widen or narrow evenly from base to rim."""

    shape: Annotated[
        Literal["cone"],
        About(WEIGHT),
        Key("Walls that widen or narrow evenly from the base to the rim.", "cone", FOR_EVERYBODY),
    ]
    base_mm: Annotated[Mm, About(WEIGHT), Key("The inside diameter at the base.", "60 mm", FOR_EVERYBODY)]
    rim_mm: Annotated[Mm, About(WEIGHT), Key("The inside diameter at the rim.", "82 mm", FOR_EVERYBODY)]
    height_mm: Annotated[
        Mm, About(WEIGHT), Key("The inside height, from the base to the rim.", "90 mm", FOR_EVERYBODY)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounded(Entry):
    """Straight walls that meet the flat base in a quarter circle of radius ``corner``."""

    shape: Annotated[
        Literal["rounded"],
        About(WEIGHT),
        Key("Straight walls that meet the base in a curve.", "rounded", FOR_EVERYBODY),
    ]
    diameter_mm: Annotated[Mm, About(WEIGHT), Key("The inside diameter.", "74 mm", FOR_EVERYBODY)]
    height_mm: Annotated[
        Mm, About(WEIGHT), Key("The inside height, from the base to the rim.", "92 mm", FOR_EVERYBODY)
    ]
    corner_mm: Annotated[
        Mm, About(WEIGHT), Key("The radius of the curve between wall and base.", "8 mm", FOR_EVERYBODY)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hexagon(Entry):
    """A six-sided prism, measured from flat to flat."""

    shape: Annotated[Literal["hexagon"], About(WEIGHT), Key("Six straight sides.", "hexagon", FOR_EVERYBODY)]
    across_mm: Annotated[
        Mm,
        About(WEIGHT),
        Key("The inside width, from one flat side to the opposite one.", "70 mm", FOR_EVERYBODY),
    ]
    height_mm: Annotated[
        Mm, About(WEIGHT), Key("The inside height, from the base to the rim.", "80 mm", FOR_EVERYBODY)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Square(Entry):
    """A square prism with rounded upright edges of radius ``corner``."""

    shape: Annotated[
        Literal["square"],
        About(WEIGHT),
        Key("Four straight sides with rounded upright edges.", "square", FOR_EVERYBODY),
    ]
    side_mm: Annotated[Mm, About(WEIGHT), Key("The inside width of one side.", "70 mm", FOR_EVERYBODY)]
    corner_mm: Annotated[Mm, About(WEIGHT), Key("The radius of the upright edges.", "5 mm", FOR_EVERYBODY)]
    height_mm: Annotated[
        Mm, About(WEIGHT), Key("The inside height, from the base to the rim.", "80 mm", FOR_EVERYBODY)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Oval(Entry):
    """An elliptic prism."""

    shape: Annotated[
        Literal["oval"], About(WEIGHT), Key("Straight walls on an oval base.", "oval", FOR_EVERYBODY)
    ]
    long_mm: Annotated[Mm, About(WEIGHT), Key("The inside length, at its longest.", "120 mm", FOR_EVERYBODY)]
    short_mm: Annotated[Mm, About(WEIGHT), Key("The inside width, at its widest.", "70 mm", FOR_EVERYBODY)]
    height_mm: Annotated[
        Mm, About(WEIGHT), Key("The inside height, from the base to the rim.", "60 mm", FOR_EVERYBODY)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bowl(Entry):
    """A cap of a sphere: ``rim`` is the diameter at the top, ``height`` the depth in the middle."""

    shape: Annotated[
        Literal["bowl"], About(WEIGHT), Key("Part of a sphere, with no flat base.", "bowl", FOR_EVERYBODY)
    ]
    rim_mm: Annotated[Mm, About(WEIGHT), Key("The inside diameter at the rim.", "140 mm", FOR_EVERYBODY)]
    height_mm: Annotated[Mm, About(WEIGHT), Key("The depth in the middle.", "55 mm", FOR_EVERYBODY)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile(Entry):
    """Inner diameters measured at rising heights: pairs of (height, diameter), straight in between."""

    shape: Annotated[
        Literal["profile"],
        About(WEIGHT),
        Key("Any round vessel, measured at several heights.", "profile", FOR_EVERYBODY),
    ]
    points: Annotated[
        tuple[tuple[Mm, Mm], ...],
        About(WEIGHT, "[[0 mm, ... mm], [... mm, ... mm]]"),
        Key(
            "Pairs of a height and the inside diameter there, from the base up.",
            "[[0 mm, 40 mm], [5 mm, 58 mm], [90 mm, 62 mm]]",
            FOR_EVERYBODY,
        ),
    ]


Shape = Annotated[
    Cylinder | Cone | Rounded | Hexagon | Square | Oval | Bowl | Profile,
    Field(discriminator="shape"),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lid(Entry):
    """A lid; ``snuffs`` when it may be used to put the flame out."""

    name: Annotated[
        Text,
        About("the candle's page names the lid"),
        Key("What the lid is called, as the candle's page says it.", "cork", FOR_EVERYBODY),
    ]
    weight_g: Annotated[Grams | None, About(_PARCEL), Key("The weight of the lid.", "16 g", FOR_YOU)] = None
    snuffs: Annotated[
        YesNo,
        About("the burning advice may suggest the lid to put the flame out"),
        Key("Whether the lid may be used to put the flame out.", "no", FOR_EVERYBODY),
    ] = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxShape:
    """The shape of the wax: an inside, scaled to ``brimful_ml`` if measured, less ``displaced_ml``.

    ``id`` is that of the measured entry.
    """

    id: str
    inside: Shape
    brimful_ml: float | None
    displaced_ml: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel(Entry):
    """A container for wax. ``brimful_ml`` is measured with water; the shape is then scaled to it."""

    id: Id
    name: Annotated[
        Text,
        About(NAME),
        Key("What the vessel is called on the pages and papers.", "Clear tumbler", FOR_EVERYBODY),
    ]
    material: Annotated[
        Text,
        About(
            "the burning advice and the wording of the papers depend on it",
            "... (glass, tin, stoneware, wood ...)",
        ),
        Key("What the vessel is made of.", "glass", FOR_EVERYBODY),
    ]
    inside: Annotated[
        Shape,
        About(WEIGHT, "{shape: cylinder, diameter: ... mm, height: ... mm}"),
        Key(
            "The inside of the vessel: its shape and that shape's measurements.",
            "{shape: cylinder, diameter: 74 mm, height: 92 mm}",
            FOR_EVERYBODY,
        ),
    ]
    wall_mm: Annotated[
        Mm | None,
        About("the drawings show it, and a hazard label must fit around it"),
        Key("How thick the wall is.", "3 mm", FOR_EVERYBODY),
    ] = None
    brimful_ml: Annotated[
        Brimful | None,
        About(WEIGHT),
        Key(
            "How much the vessel holds when it is full to the brim, measured with water.",
            "390 ml",
            FOR_EVERYBODY,
        ),
    ] = None
    displaced_ml: Annotated[
        Ml | None,
        About(WEIGHT),
        Key("How much room something fixed inside the vessel takes up.", "12 ml", FOR_EVERYBODY),
    ] = None
    weight_g: Annotated[
        Grams | None,
        About(_PARCEL),
        Key("The weight of the empty vessel without its lid.", "285 g", FOR_YOU),
    ] = None
    lid: Annotated[
        Lid | None,
        About(_PARCEL, "{name: ..., weight: ... g, snuffs: yes or no}"),
        Key("The lid the candle is sold with.", "{name: cork, weight: 16 g, snuffs: no}", FOR_EVERYBODY),
    ] = None
    heat_evidence: Annotated[
        FreeText | None,
        About("a vessel that may crack in the heat must have been tested"),
        Key(
            "How you know that the vessel stands the heat of a candle.", "maker's declaration, 2025", FOR_YOU
        ),
    ] = None
    price: Annotated[Price | None, About(COSTS), Key("What one vessel costs you.", "1.20", FOR_YOU)] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED), DISCONTINUED_KEY] = False
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None

    @property
    def wax_shape(self) -> WaxShape:
        """The shape of the wax in it."""
        return WaxShape(
            id=self.id, inside=self.inside, brimful_ml=self.brimful_ml, displaced_ml=self.displaced_ml
        )
