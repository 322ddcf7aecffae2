"""What is on the shelves on a day: by status and dates of sale, shelf by shelf."""

from dataclasses import dataclass
from datetime import date
from enum import Enum

from generator.documents.house import House, Scent, SizeOf
from generator.model.candle import Sold
from generator.model.maker import Collection
from generator.model.sizes import Status


class Standing(Enum):
    """The state of a size for shoppers on a day."""

    ON_THE_SHELF = "on the shelf"
    COMING = "coming"
    OUT_OF_SEASON = "out of season"
    DISCONTINUED = "discontinued"
    NOT_PUBLIC = "not public"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """One collection with its scents, in the order of their names."""

    id: str
    collection: Collection
    scents: tuple[Scent, ...]


def standing(status: Status, sold: Sold | None, today: date) -> Standing:
    """The standing today of a size with this status and these dates of sale, both included."""
    if status is Status.TRIAL:
        return Standing.NOT_PUBLIC
    if status is Status.DISCONTINUED:
        return Standing.DISCONTINUED
    if status is Status.COMING or (sold and sold.from_ and today < sold.from_):
        return Standing.COMING
    if sold and sold.until and sold.until < today:
        return Standing.OUT_OF_SEASON
    return Standing.ON_THE_SHELF


def sizes_that_are(wanted: Standing, scent: Scent, today: date) -> tuple[SizeOf, ...]:
    """The sizes of a scent with one standing."""
    return tuple(
        size for size in scent.sizes if standing(size.recorded.status, scent.candle.sold, today) is wanted
    )


def public_sizes(scent: Scent) -> tuple[SizeOf, ...]:
    """The sizes shown on the site: all except trials."""
    return tuple(size for size in scent.sizes if size.recorded.status is not Status.TRIAL)


def shelves(house: House, wanted: Standing) -> tuple[Shelf, ...]:
    """The collections in their order, each with the scents that have a size of this standing."""
    found = (
        Shelf(id=key, collection=collection, scents=_scents_of(house, key, wanted))
        for key, collection in sorted(house.collections.items(), key=lambda item: (item[1].order, item[0]))
    )
    return tuple(shelf for shelf in found if shelf.scents)


def _scents_of(house: House, collection: str, wanted: Standing) -> tuple[Scent, ...]:
    scents = (
        Scent(candle=scent.candle, sizes=sizes)
        for scent in house.scents
        if scent.candle.collection == collection and (sizes := sizes_that_are(wanted, scent, house.as_of))
    )
    return tuple(sorted(scents, key=lambda scent: scent.candle.scent))
