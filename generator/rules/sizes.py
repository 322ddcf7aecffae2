"""All sizes of a shop, one after the other."""

from collections.abc import Iterator
from typing import Final

from generator.model.candle import Candle, Shared, Size
from generator.model.shop import Shop
from generator.problems import Path

_NOTHING_SHARED: Final = Shared()


def sizes(shop: Shop) -> Iterator[tuple[Path, Candle, Size, Shared]]:
    """Every size with its path, its candle, and the format it takes keys from."""
    for id_, candle in shop.candles.items():
        for number, size in enumerate(candle.sizes):
            yield (
                (f"candles/{id_}.yaml", "sizes", number),
                candle,
                size,
                shop.formats.get(size.format or "", _NOTHING_SHARED),
            )
