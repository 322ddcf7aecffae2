"""What the link to a page shows: one picture for each scent and one for the house, as plain values."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from generator.document import Value
from generator.documents.contrast import LIGHT, tint
from generator.documents.drawings import CardShape, Outline, card_shapes
from generator.documents.frame import home_market
from generator.documents.house import House, Rendition, Scent, SizeOf
from generator.documents.outlines import UNDYED, outline_of
from generator.documents.previews import Shared, preview
from generator.documents.printed import burning, net_quantity
from generator.documents.shelves import Standing, public_sizes, shelves
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Linked:
    """A page as a link to it is shown: its path from the site's root, its title, one sentence about it."""

    path: str
    title: str
    description: str


def cards(house: House) -> Mapping[str, CardOf]:
    """Every picture by its path below the output folder."""
    scents = (scent for scent in house.scents if public_sizes(scent))
    return {
        f"site/{_path('house')}": _card_of_house(house),
        **{f"site/{_path(f'candle-{scent.candle.id}')}": _card_of_scent(house, scent) for scent in scents},
    }


def preview_of_scent(house: House, scent: Scent, linked: Linked) -> tuple[Mapping[str, Value], ...]:
    """The Open Graph properties of a page about one scent; only the candle's own page names a price."""
    sizes = public_sizes(scent)
    sold = next((size for size in sizes if size.facts.price is not None), None)
    is_own_page = linked.path == sizes[0].facts.site_path
    return preview(
        house.maker,
        Shared(
            path=linked.path,
            title=linked.title,
            description=linked.description,
            picture=_rendition(f"candle-{scent.candle.id}"),
            picture_text=house.words["site"]["card_of_scent"].format(scent=scent.candle.scent),
            price=sold.facts.price if sold and is_own_page else None,
        ),
    )


def preview_of_house(house: House, linked: Linked) -> tuple[Mapping[str, Value], ...]:
    """The Open Graph properties of any other page."""
    return preview(
        house.maker,
        Shared(
            path=linked.path,
            title=linked.title,
            description=linked.description,
            picture=_rendition("house"),
            picture_text=house.words["site"]["card_of_house"].format(house=house.maker.name),
        ),
    )


def _path(name: str) -> str:
    return f"previews/{name}.png"


def _rendition(name: str) -> Rendition:
    return Rendition(path=_path(name), width=WIDTH, height=HEIGHT, format="png")


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
        shapes=card_shapes(outline_of(size, candle)),
    )


def _card_of_house(house: House) -> CardOf:
    return CardOf(
        ground=LIGHT.paper,
        ink=LIGHT.ink,
        title=house.maker.name,
        second=house.maker.line or "",
        third="",
        house="",
        shapes=tuple(_side_by_side([outline_of(size, candle) for candle, size in _shown(house)])),
    )


def _shown(house: House) -> list[tuple[Candle, SizeOf]]:
    """The first size of the first scents of each shelf, as many as there is room for."""
    standing = [shelf.scents for shelf in shelves(house, Standing.ON_THE_SHELF)]
    turns = [scents[n] for n in range(_CANDLES_OF_A_HOUSE) for scents in standing if n < len(scents)]
    return [(scent.candle, scent.sizes[0]) for scent in turns[:_CANDLES_OF_A_HOUSE]]


def _side_by_side(outlines: list[Outline]) -> Iterator[CardShape]:
    right_mm = 0.0
    for outline in outlines:
        shapes = card_shapes(outline)
        across = [x for shape in shapes for x, _ in shape.points_mm]
        shift = right_mm - min(across)
        right_mm = max(across) + shift + _GAP_MM
        for shape in shapes:
            moved = tuple((x + shift, y) for x, y in shape.points_mm)
            yield CardShape(points_mm=moved, fill=shape.fill, stroke=shape.stroke)
