"""What an order comes to, in whole cents and grams, reckoned apart from the script of the buyer's sheet."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One stock code that may be ordered, by the pack: a case, or one candle where no case is recorded.

    ``price`` is that of one candle in the smallest coin of its currency. ``pack_g`` is what a pack weighs to the whole
    gram, None where that is not known. ``least`` is the smallest order of the code in candles.
    """

    price: int
    pieces: int = 1
    is_case: bool = False
    least: int = 0
    pack_g: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderTotals:
    """The sums of an order; ``weight_g`` is None where the weight of something ordered is not known.

    ``cases`` counts the cartons of full cases, ``loose`` the candles that are sold by the piece. ``too_few`` are the
    places of the lines that are ordered below their smallest order.
    """

    pieces: int
    cases: int
    loose: int
    amount: int
    weight_g: int | None
    too_few: tuple[int, ...]


def order_totals(ordered: Iterable[tuple[OrderLine, int]]) -> OrderTotals:
    """What the lines of an order come to, each with the number of its packs."""
    taken = [(place, line, packs) for place, (line, packs) in enumerate(ordered) if packs]
    weights = [None if line.pack_g is None else line.pack_g * packs for _, line, packs in taken]
    return OrderTotals(
        pieces=sum(line.pieces * packs for _, line, packs in taken),
        cases=sum(packs for _, line, packs in taken if line.is_case),
        loose=sum(packs for _, line, packs in taken if not line.is_case),
        amount=sum(line.price * line.pieces * packs for _, line, packs in taken),
        weight_g=None if None in weights else sum(weight for weight in weights if weight is not None),
        too_few=tuple(place for place, line, packs in taken if line.pieces * packs < line.least),
    )
