"""What shops learn of a candle besides its price: the same words on the general sheet and on every buyer's."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.documents.house import House, Scent, SizeOf
from generator.documents.printed import hours, measured
from generator.documents.shelves import Shelf, Standing, shelves
from generator.facts.facts import Facts
from generator.model.kinds import KINDS
from generator.model.markets import Market
from generator.model.sizes import Status


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelvedScent:
    """One scent on one shelf with the sizes that shops can order, now or soon."""

    shelf: Shelf
    scent: Scent
    standing: Standing

    @property
    def place(self) -> tuple[int, str]:
        """The position of its shelf among the others."""
        return self.shelf.collection.order, self.shelf.id


def listed_scents(house: House) -> list[ShelvedScent]:
    """What shops can order, by collection; on each shelf, what is coming is last."""
    found = [
        ShelvedScent(shelf=one, scent=scent, standing=standing)
        for standing in (Standing.ON_THE_SHELF, Standing.COMING)
        for one in shelves(house, standing)
        for scent in one.scents
    ]
    return sorted(found, key=lambda listed: listed.place)


def listed_sizes(house: House) -> Iterator[tuple[ShelvedScent, SizeOf]]:
    """Every one of its sizes, in the same order."""
    for listed in listed_scents(house):
        for size in listed.scent.sizes:
            yield listed, size


def remark_for_shops(house: House, listed: ShelvedScent, size: SizeOf) -> str | None:
    """What a shop must know before ordering a candle."""
    words = house.words["trade"]
    if listed.standing is Standing.COMING:
        return words["status_coming"]
    marked = {Status.MADE_TO_ORDER: "status_made_to_order", Status.LAST_FEW: "status_last_few"}
    return words[marked[size.recorded.status]] if size.recorded.status in marked else None


def estimate(house: House, facts: Facts, market: Market) -> str:
    """The estimated weight where none is proven."""
    if any(facts.declared.values()):
        return ""
    weight = measured(facts.estimated[market], house.words)
    return house.words["trade"]["about"].format(figure=weight)


def hours_for_shops(house: House, facts: Facts) -> Mapping[str, str | None]:
    """The burn hours, always with their basis."""
    words, burn = house.words["trade"], facts.burn_hours
    if burn is None or burn.claim is None:
        return {"text": words[KINDS[facts.kind].sentences.no_hours], "mark": None}
    about = words["about"].format(figure=hours(burn.claim, house.words))
    return {"text": about, "mark": house.words["trade_hours"][burn.basis]}
