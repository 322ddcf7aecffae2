"""The pictures of link previews, as plain values: one for each scent and one for the house."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from generator.document import Card, Polygon
from generator.documents.frame import home_market
from generator.documents.house import House, Rendition, Scent, SizeOf
from generator.documents.outlines import UNDYED, outline_of
from generator.documents.printed import hours_in_words, net_quantity
from generator.documents.shelves import Standing, public_sizes, shelves
from generator.drawing.contrast import LIGHT, tint
from generator.drawing.drawings import Outline, card_shapes
from generator.model.candle import Candle

_WIDTH: Final = 1200
_HEIGHT: Final = 630
_CANDLES_OF_A_HOUSE: Final = 4
_GAP_MM: Final = 16.0


def card_file(page: str) -> Rendition:
    """Where the picture for a page stands."""
    return Rendition(
        path=f"previews/{page.removesuffix('.html')}.png", width=_WIDTH, height=_HEIGHT, format="png"
    )


def card_of_scent(house: House, scent: Scent) -> Card:
    """The picture of a scent in its first public size."""
    candle, size = scent.candle, public_sizes(scent)[0]
    shade = candle.colour.shade if candle.colour else UNDYED
    return Card(
        ground=tint(shade, LIGHT),
        ink=LIGHT.ink,
        title=candle.scent,
        second=net_quantity(size.facts, home_market(house), house.words),
        third=hours_in_words(size.facts.burn_hours, house.words) or "",
        house=house.maker.name,
        shapes=_shapes(outline_of(size, candle, house.speech.materials)),
    )


def card_of_house(house: House) -> Card:
    """The picture of the house: the first candles of its shelves."""
    return Card(
        ground=LIGHT.paper,
        ink=LIGHT.ink,
        title=house.maker.name,
        second=house.maker.line or "",
        shapes=tuple(
            _side_by_side(outline_of(size, candle, house.speech.materials) for candle, size in _shown(house))
        ),
    )


def _shown(house: House) -> list[tuple[Candle, SizeOf]]:
    """The first size of the first scents of each shelf, as many as fit."""
    standing = [shelf.scents for shelf in shelves(house, Standing.ON_THE_SHELF)]
    turns = [scents[n] for n in range(_CANDLES_OF_A_HOUSE) for scents in standing if n < len(scents)]
    return [(scent.candle, scent.sizes[0]) for scent in turns[:_CANDLES_OF_A_HOUSE]]


def _side_by_side(outlines: Iterable[Outline]) -> Iterator[Polygon]:
    right_mm = 0.0
    for outline in outlines:
        shapes = _shapes(outline)
        across = [x for shape in shapes for x, _ in shape.points_mm]
        shift = right_mm - min(across)
        right_mm = max(across) + shift + _GAP_MM
        for shape in shapes:
            yield replace(shape, points_mm=tuple((x + shift, y) for x, y in shape.points_mm))


def _shapes(outline: Outline) -> tuple[Polygon, ...]:
    return tuple(
        Polygon(points_mm=points, fill=fill, stroke=stroke) for points, fill, stroke in card_shapes(outline)
    )
