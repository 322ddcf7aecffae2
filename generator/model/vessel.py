"""Vessels: the inside as a shape with its measurements, what it holds, what it weighs."""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from generator.model.entry import ENTRY
from generator.model.money import Price
from generator.model.quantities import Brimful, Grams, Ml, Mm
from generator.model.words import FreeText, Id, Text, YesNo


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder:
    """Straight walls, flat base."""

    __pydantic_config__ = ENTRY

    shape: Literal["cylinder"]
    diameter_mm: Mm
    height_mm: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Cone:
    """Walls that widen or narrow evenly from base to rim."""

    __pydantic_config__ = ENTRY

    shape: Literal["cone"]
    base_mm: Mm
    rim_mm: Mm
    height_mm: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounded:
    """Straight walls that meet the flat base in a quarter circle of radius ``corner``."""

    __pydantic_config__ = ENTRY

    shape: Literal["rounded"]
    diameter_mm: Mm
    height_mm: Mm
    corner_mm: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Hexagon:
    """A six-sided prism, measured from flat to flat."""

    __pydantic_config__ = ENTRY

    shape: Literal["hexagon"]
    across_mm: Mm
    height_mm: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """A square prism with rounded upright edges of radius ``corner``."""

    __pydantic_config__ = ENTRY

    shape: Literal["square"]
    side_mm: Mm
    corner_mm: Mm
    height_mm: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Oval:
    """An elliptic prism."""

    __pydantic_config__ = ENTRY

    shape: Literal["oval"]
    long_mm: Mm
    short_mm: Mm
    height_mm: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Bowl:
    """A cap of a sphere: ``rim`` is the diameter at the top, ``height`` the depth in the middle."""

    __pydantic_config__ = ENTRY

    shape: Literal["bowl"]
    rim_mm: Mm
    height_mm: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Inner diameters measured at rising heights: pairs of (height, diameter), straight in between."""

    __pydantic_config__ = ENTRY

    shape: Literal["profile"]
    points: tuple[tuple[Mm, Mm], ...]


Shape = Annotated[
    Cylinder | Cone | Rounded | Hexagon | Square | Oval | Bowl | Profile,
    Field(discriminator="shape"),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lid:
    """A lid; ``snuffs`` when it may be used to put the flame out."""

    __pydantic_config__ = ENTRY

    name: Text
    weight_g: Grams | None = None
    snuffs: YesNo = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """A container for wax. ``brimful_ml`` is measured with water; the shape is then scaled to it."""

    __pydantic_config__ = ENTRY

    id: Id
    name: Text
    material: Text
    inside: Shape
    wall_mm: Mm | None = None
    brimful_ml: Brimful | None = None
    displaced_ml: Ml | None = None
    weight_g: Grams | None = None
    lid: Lid | None = None
    heat_evidence: FreeText | None = None
    price: Price | None = None
    discontinued: YesNo = False
    notes: FreeText | None = None
