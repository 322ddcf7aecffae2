"""What an order comes to: the sums that a buyer's sheet shows as quantities are typed, in whole cents and grams."""

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
    """What the lines of an order come to, each with the number of its packs.

    amount = sum(price pieces packs)

    ordered: each line with how many packs of it are ordered.
    Holds for whole numbers of packs of nothing and above.
    Source: addition of whole numbers, in which nothing is rounded (COMPUTED).

    >>> candle = OrderLine(price=1195, pieces=6, is_case=True, least=12, pack_g=3794)
    >>> order_totals([(candle, 3)]).amount
    21510
    """
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


def still_to_reach(amount: int, smallest: int) -> int:
    """What an order lacks to the smallest one, in the smallest coin of its currency.

    lack = max(smallest - amount, 0)

    amount: what the order comes to, in the smallest coin.
    smallest: the smallest order that is taken, in the smallest coin.
    Holds for amounts of nothing and above in one currency.
    Source: subtraction (COMPUTED).

    >>> still_to_reach(6000, 15000)
    9000
    """
    return max(smallest - amount, 0)
