"""Vessels: the inside as a shape with its measurements, capacity and weight."""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import Field

from generator.model.entry import COSTS, DISCONTINUED, NAME, NOTES, WEIGHT, About, Entry
from generator.model.money import Price
from generator.model.quantities import Grams, Ml, Mm
from generator.model.water import Brimful
from generator.model.words import FreeText, Id, Text, YesNo

_PARCEL: Final = "the parcel's weight is worked out from it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder(Entry):
    """Straight walls, flat base."""

    shape: Annotated[Literal["cylinder"], About(WEIGHT)]
    diameter_mm: Annotated[Mm, About(WEIGHT)]
    height_mm: Annotated[Mm, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cone(Entry):
    """Walls that widen or narrow evenly from base to rim."""

    shape: Annotated[Literal["cone"], About(WEIGHT)]
    base_mm: Annotated[Mm, About(WEIGHT)]
    rim_mm: Annotated[Mm, About(WEIGHT)]
    height_mm: Annotated[Mm, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounded(Entry):
    """Straight walls that meet the flat base in a quarter circle of radius ``corner``."""

    shape: Annotated[Literal["rounded"], About(WEIGHT)]
    diameter_mm: Annotated[Mm, About(WEIGHT)]
    height_mm: Annotated[Mm, About(WEIGHT)]
    corner_mm: Annotated[Mm, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hexagon(Entry):
    """A six-sided prism, measured from flat to flat."""

    shape: Annotated[Literal["hexagon"], About(WEIGHT)]
    across_mm: Annotated[Mm, About(WEIGHT)]
    height_mm: Annotated[Mm, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Square(Entry):
    """A square prism with rounded upright edges of radius ``corner``."""

    shape: Annotated[Literal["square"], About(WEIGHT)]
    side_mm: Annotated[Mm, About(WEIGHT)]
    corner_mm: Annotated[Mm, About(WEIGHT)]
    height_mm: Annotated[Mm, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Oval(Entry):
    """An elliptic prism."""

    shape: Annotated[Literal["oval"], About(WEIGHT)]
    long_mm: Annotated[Mm, About(WEIGHT)]
    short_mm: Annotated[Mm, About(WEIGHT)]
    height_mm: Annotated[Mm, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bowl(Entry):
    """A cap of a sphere: ``rim`` is the diameter at the top, ``height`` the depth in the middle."""

    shape: Annotated[Literal["bowl"], About(WEIGHT)]
    rim_mm: Annotated[Mm, About(WEIGHT)]
    height_mm: Annotated[Mm, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile(Entry):
    """Inner diameters measured at rising heights: pairs of (height, diameter), straight in between."""

    shape: Annotated[Literal["profile"], About(WEIGHT)]
    points: Annotated[tuple[tuple[Mm, Mm], ...], About(WEIGHT, "[[0 mm, ... mm], [... mm, ... mm]]")]


Shape = Annotated[
    Cylinder | Cone | Rounded | Hexagon | Square | Oval | Bowl | Profile,
    Field(discriminator="shape"),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lid(Entry):
    """A lid; ``snuffs`` when it may be used to put the flame out."""

    name: Annotated[Text, About("the candle's page names the lid")]
    weight_g: Annotated[Grams | None, About(_PARCEL)] = None
    snuffs: Annotated[YesNo, About("the burning advice may suggest the lid to put the flame out")] = False


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
    name: Annotated[Text, About(NAME)]
    material: Annotated[
        Text,
        About(
            "the burning advice and the wording of the papers depend on it",
            "... (glass, tin, stoneware, wood ...)",
        ),
    ]
    inside: Annotated[Shape, About(WEIGHT, "{shape: cylinder, diameter: ... mm, height: ... mm}")]
    wall_mm: Annotated[Mm | None, About("the drawings show it, and a hazard label must fit around it")] = None
    brimful_ml: Annotated[Brimful | None, About(WEIGHT)] = None
    displaced_ml: Annotated[Ml | None, About(WEIGHT)] = None
    weight_g: Annotated[Grams | None, About(_PARCEL)] = None
    lid: Annotated[Lid | None, About(_PARCEL, "{name: ..., weight: ... g, snuffs: yes or no}")] = None
    heat_evidence: Annotated[
        FreeText | None, About("a vessel that may crack in the heat must have been tested")
    ] = None
    price: Annotated[Price | None, About(COSTS)] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED)] = False
    notes: Annotated[FreeText | None, About(NOTES)] = None

    @property
    def wax_shape(self) -> WaxShape:
        """The shape of the wax in it."""
        return WaxShape(
            id=self.id, inside=self.inside, brimful_ml=self.brimful_ml, displaced_ml=self.displaced_ml
        )
