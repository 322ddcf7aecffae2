"""Bought labels: on sheets or rolls, with every measurement that printing needs."""

from dataclasses import dataclass
from math import pi
from typing import Annotated, Final, Literal

from pydantic import Field

from generator.model.entry import FOR_YOU, NOTES, NOTES_KEY, About, Entry, Key
from generator.model.quantities import MM_PER_INCH, Mm
from generator.model.words import Few, FreeText, Id, Text

_PLACES: Final = "it decides where labels are printed on the sheet"


SheetName = Literal["A4", "Letter"]
SHEETS_MM: Final[dict[SheetName, tuple[float, float]]] = {
    "A4": (210.0, 297.0),
    "Letter": (8.5 * MM_PER_INCH, 11 * MM_PER_INCH),
}
"""Width and height (ISO 216; ANSI/ASME Y14.1: standards.md T13, MEMORY)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundLabel(Entry):
    """A label cut to a circle."""

    shape: Annotated[Literal["round"], About(_PLACES), Key("A round label.", "round", FOR_YOU)]
    diameter_mm: Annotated[Mm, About(_PLACES), Key("The diameter of one label.", "50 mm", FOR_YOU)]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxLabel(Entry):
    """A label with four sides, its corners cut to a radius."""

    shape: Annotated[Literal["box"], About(_PLACES), Key("A label with four sides.", "box", FOR_YOU)]
    width_mm: Annotated[Mm, About(_PLACES), Key("The width of one label.", "70 mm", FOR_YOU)]
    height_mm: Annotated[Mm, About(_PLACES), Key("The height of one label.", "37 mm", FOR_YOU)]
    corner_mm: Annotated[Mm, About(_PLACES), Key("The radius of its corners.", "2 mm", FOR_YOU)] = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin(Entry):
    """From the edge of the sheet to the first label."""

    top_mm: Annotated[
        Mm, About(_PLACES), Key("From the top edge of the sheet to the first label.", "15.5 mm", FOR_YOU)
    ]
    left_mm: Annotated[
        Mm, About(_PLACES), Key("From the left edge of the sheet to the first label.", "20 mm", FOR_YOU)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pitch(Entry):
    """From the start of one label to the start of the next."""

    across_mm: Annotated[
        Mm,
        About(_PLACES),
        Key("From the left edge of one label to the left edge of the next.", "60 mm", FOR_YOU),
    ]
    down_mm: Annotated[
        Mm,
        About(_PLACES),
        Key("From the top edge of one label to the top edge of the one below.", "54 mm", FOR_YOU),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelStock(Entry):
    """One kind of label as bought.

    On a roll ``rows`` is 1 and a page is one row: as wide as the roll, and as long as the pitch down.
    """

    id: Id
    name: Annotated[
        Text,
        About("you choose it by this name when you print labels"),
        Key("What you call these labels.", "Round labels 50 mm, 15 on A4", FOR_YOU),
    ]
    sheet: Annotated[SheetName | None, About(_PLACES), Key("The size of the sheet.", "A4", FOR_YOU)] = None
    roll_mm: Annotated[
        Mm | None, About(_PLACES), Key("The width of the roll, if they come on a roll.", "60 mm", FOR_YOU)
    ] = None
    label: Annotated[
        RoundLabel | BoxLabel,
        Field(discriminator="shape"),
        About(_PLACES, "{shape: round, diameter: ... mm}, or {shape: box, width: ... mm, height: ... mm}"),
        Key("The shape and size of one label.", "{shape: round, diameter: 50 mm}", FOR_YOU),
    ]
    rows: Annotated[Few, About(_PLACES), Key("How many rows of labels are on a sheet.", "5", FOR_YOU)] = 1
    columns: Annotated[Few, About(_PLACES), Key("How many labels are side by side.", "3", FOR_YOU)] = 1
    margin: Annotated[
        Margin,
        About(_PLACES),
        Key("From the edges of the sheet to the first label.", "{top: 15.5 mm, left: 20 mm}", FOR_YOU),
    ]
    pitch: Annotated[
        Pitch,
        About(_PLACES),
        Key(
            "How far it is from one label to the next, start to start.",
            "{across: 60 mm, down: 54 mm}",
            FOR_YOU,
        ),
    ]
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None

    @property
    def label_mm(self) -> tuple[float, float]:
        """Width and height of one label."""
        if isinstance(self.label, RoundLabel):
            return self.label.diameter_mm, self.label.diameter_mm
        return self.label.width_mm, self.label.height_mm

    @property
    def area_mm2(self) -> float:
        """The printable area of one label, corners included."""
        width_mm, height_mm = self.label_mm
        return width_mm * height_mm * (pi / 4 if isinstance(self.label, RoundLabel) else 1.0)

    @property
    def page_mm(self) -> tuple[float, float]:
        """Width and height of one page through the printer."""
        if self.sheet is not None:
            return SHEETS_MM[self.sheet]
        return self.roll_mm or 0.0, self.pitch.down_mm

    @property
    def on_a_page(self) -> int:
        """The number of labels on one page."""
        return self.rows * self.columns
