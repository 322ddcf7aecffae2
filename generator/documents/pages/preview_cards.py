"""The pictures that links to pages show, as plain values: one for each scent and one for the house."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from generator.documents.frame import HOME, home_market
from generator.documents.house import House, Rendition, Scent, SizeOf
from generator.documents.outlines import UNDYED, outline_of
from generator.documents.printed import burning, net_quantity
from generator.documents.shelves import Standing, public_sizes, shelves
from generator.drawing.contrast import LIGHT, tint
from generator.drawing.drawings import CardShape, Outline, card_shapes
from generator.model.candle import Candle

WIDTH: Final = 1200
HEIGHT: Final = 630
_CANDLES_OF_A_HOUSE: Final = 4
_GAP_MM: Final = 16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CardOf:
    """A link-preview picture: colours, up to four lines, and the candles that stand on its shelf."""

    ground: str
    ink: str
    title: str
    second: str
    third: str
    house: str
    shapes: tuple[CardShape, ...]


def cards(house: House) -> Mapping[str, CardOf]:
    """Every picture by the address of the page it stands for: one for the house, one for each scent."""
    scents = (scent for scent in house.scents if public_sizes(scent))
    return {
        HOME: _card_of_house(house),
        **{public_sizes(scent)[0].facts.site_path: _card_of_scent(house, scent) for scent in scents},
    }


def card_file(page: str) -> Rendition:
    """Where the picture for a page stands."""
    return Rendition(
        path=f"previews/{page.removesuffix('.html')}.png", width=WIDTH, height=HEIGHT, format="png"
    )


def _card_of_scent(house: House, scent: Scent) -> CardOf:
    candle, size = scent.candle, public_sizes(scent)[0]
    shade = candle.colour.shade if candle.colour else UNDYED
    return CardOf(
        ground=tint(shade, LIGHT),
        ink=LIGHT.ink,
        title=candle.scent,
        second=net_quantity(size.facts, home_market(house), house.words),
        third=burning(size.facts.burn_hours, house.words) or "",
        house=house.maker.name,
        shapes=card_shapes(outline_of(size, candle, house.speech.materials)),
    )


def _card_of_house(house: House) -> CardOf:
    return CardOf(
        ground=LIGHT.paper,
        ink=LIGHT.ink,
        title=house.maker.name,
        second=house.maker.line or "",
        third="",
        house="",
        shapes=tuple(
            _side_by_side(outline_of(size, candle, house.speech.materials) for candle, size in _shown(house))
        ),
    )


def _shown(house: House) -> list[tuple[Candle, SizeOf]]:
    """The first size of the first scents of each shelf, as many as there is room for."""
    standing = [shelf.scents for shelf in shelves(house, Standing.ON_THE_SHELF)]
    turns = [scents[n] for n in range(_CANDLES_OF_A_HOUSE) for scents in standing if n < len(scents)]
    return [(scent.candle, scent.sizes[0]) for scent in turns[:_CANDLES_OF_A_HOUSE]]


def _side_by_side(outlines: Iterable[Outline]) -> Iterator[CardShape]:
    right_mm = 0.0
    for outline in outlines:
        shapes = card_shapes(outline)
        across = [x for shape in shapes for x, _ in shape.points_mm]
        shift = right_mm - min(across)
        right_mm = max(across) + shift + _GAP_MM
        for shape in shapes:
            moved = tuple((x + shift, y) for x, y in shape.points_mm)
            yield CardShape(points_mm=moved, fill=shape.fill, stroke=shape.stroke)
