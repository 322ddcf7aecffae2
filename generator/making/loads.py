"""The loads at which every fragrance changes a label: worked out once, and remembered until something changes."""

from collections.abc import Mapping

from generator.facts.fragrance_loads import FragranceLoads, loads_of
from generator.facts.remembered import recalled_loads, remembered_loads
from generator.model.materials import Fragrance
from generator.model.shop import Shop
from generator.writing.program import program_digest
from generator.writing.store import Store, digest


def loads_by_fragrance(shop: Shop, store: Store) -> Mapping[str, FragranceLoads]:
    """By the fragrance's id, in the order of the shop."""
    return {id_: _loads(shop, fragrance, store) for id_, fragrance in shop.fragrances.items()}


def _loads(shop: Shop, fragrance: Fragrance, store: Store) -> FragranceLoads:
    asked = (fragrance, shop.maker.markets, shop.maker.as_of)
    key = digest(program_digest(), repr(asked))
    return recalled_loads(store.shelf("loads").remember(key, lambda: remembered_loads(loads_of(*asked))))
