"""What a parcel weighs and how many there are: candles by the piece, by the case, by the carton."""

from generator.model.formats import Cased
from generator.model.recorded import WickUse
from generator.model.vessel import Vessel


def gross_g(
    net_g: float, container: Vessel | None, wicks: tuple[WickUse, ...], packaging_g: float | None
) -> float | None:
    """What one candle weighs as sold, in g; None while one of its weights is not recorded.

    gross = net + container + lid + sum(count wick) + packaging

    net_g: net weight of the wax, g.
    container: empty, with its lid, each with its weight in g; None where the wax is free-standing.
    wicks: how many of which wick; one without a recorded weight counts as nothing, being a few grams at most, g.
    packaging_g: box and label, g.
    Holds for one candle in one box.
    Source: addition (COMPUTED); that a wick with its holder weighs 1 to 3 g is common practice, no source (PRACTICE).

    >>> from generator.model.vessel import Cylinder
    >>> inside = Cylinder(shape="cylinder", diameter_mm=74.0, height_mm=92.0)
    >>> tumbler = Vessel(id="t", name="Tumbler", material="glass", inside=inside, weight_g=285.0)
    >>> gross_g(249.0, tumbler, (), 40.0)
    574.0
    """
    container_g = container.weight_g if container else 0.0
    lid_g = container.lid.weight_g if container and container.lid else 0.0
    if container_g is None or lid_g is None or packaging_g is None:
        return None
    wicks_g = sum(use.count * (use.wick.weight_g or 0.0) for use in wicks)
    return net_g + container_g + lid_g + wicks_g + packaging_g


def case_g(unit_g: float | None, case: int | None, cased: Cased | None) -> float | None:
    """What a full case weighs, in g; None while one of its weights is not recorded.

    case = count unit + carton

    unit_g: gross weight of one candle, g.
    case: count of candles in a case.
    cased: the empty carton, with its weight in g.
    Holds for a full case.
    Source: addition (COMPUTED).

    >>> case_g(574.0, 6, Cased(size=(300.0, 200.0, 120.0), weight_g=350.0))
    3794.0
    """
    return None if unit_g is None or case is None or cased is None else case * unit_g + cased.weight_g


def cartons(quantity: int, case: int | None) -> int | None:
    """How many cartons a quantity fills, including a part-filled last one; None where no case is recorded.

    cartons = ceil(quantity / case)

    quantity: count of candles of one stock code.
    case: count of candles in a case.
    Holds for a case of one candle or more, one stock code in it.
    Source: counting (COMPUTED).

    >>> cartons(13, 6)
    3
    """
    return None if case is None else -(-quantity // case)
