"""``papers pour``: the sheet for a pour; ``fills``: how many candles the wax in the pot will fill."""

from collections.abc import Iterator, Mapping, Sequence
from typing import TypedDict

from generator.document import Document
from generator.documents.house import SizeOf
from generator.documents.papers.pour_sheet import pour_papers
from generator.facts.pours import Scale, Wanted, fills, pour
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import Ready, ready, unknown_codes, write_papers
from generator.making.options import Asked
from generator.making.pdf_papers import pressed
from generator.making.refused_papers import tell_refusals
from generator.making.report import Refusal, refuse, say
from generator.model.candle import Status
from generator.model.quantities import MASS
from generator.writing.store import Store

NOTHING = "no pour sheet was written"
UNANSWERED = "nothing was worked out"


def run(asked: Asked, counts: Mapping[str, int]) -> int:
    """Exit code 0 when the sheet is written, 1 when entries stand in the way, 2 for an unknown stock code."""
    store = Store(asked.output / ".store")
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    if unknown := unknown_codes(counts, shop.sizes, NOTHING):
        return refuse(*unknown, as_json=asked.as_data)
    gone = tuple(
        f"{code} is discontinued: no shelf shows it; write status: current if it is made again"
        for code in counts
        if shop.sizes[code].recorded.status is Status.DISCONTINUED
    )
    made = pressed(_papers(shop, counts), shop.setting.theme, store)
    if made.refused:
        each = {code: _papers(shop, {code: count}) for code, count in counts.items()}
        return tell_refusals(asked, shop, each, then=NOTHING)
    write_papers(asked, made.files, *gone)
    return 0


def _papers(shop: Ready, counts: Mapping[str, int]) -> Iterator[Document]:
    wanted = [
        Wanted(recorded=shop.sizes[code].recorded, facts=shop.sizes[code].facts, count=count)
        for code, count in counts.items()
    ]
    scale = _scale(shop)
    return pour_papers(shop.house, pour(wanted, scale), scale)


def run_fills(asked: Asked, stock_codes: Sequence[str], pot: str, *, unscented: bool) -> int:
    """Exit code 0 when it is told, 1 when entries stand in the way, 2 for what is no weight or no stock code."""
    if not MASS.holds(pot):
        return refuse(_no_weight(pot), as_json=asked.as_data)
    shop = ready(asked, Store(asked.output / ".store"), UNANSWERED)
    if shop is None:
        return AT_FAULT
    if unknown := unknown_codes(stock_codes, shop.sizes, UNANSWERED):
        return refuse(*unknown, as_json=asked.as_data)
    waste = _scale(shop).waste_percent
    filled = [
        _filled(shop.sizes[code], pot, waste, unscented=unscented) for code in dict.fromkeys(stock_codes)
    ]
    lines = [
        f"{one['stock_code']}: fills {one['count']} of {one['each_g']:.1f} g each; {one['left_g']:.0f} g are left over"
        for one in filled
    ]
    kept = (
        "no waste is recorded in maker.yaml, so nothing is kept back for pot and jug; write waste: 3 %"
        if waste is None
        else f"with {waste:g} % for what stays in pot, jug and test pieces"
    )
    say((*lines, kept), {"fills": filled, "waste_percent": waste}, as_json=asked.as_data)
    return 0


def _no_weight(pot: str) -> Refusal:
    """A number alone may be of any unit; a pot of that many grams is the least likely."""
    number = pot.strip().replace(",", ".")
    units = [f"'{number} {unit}'" for unit in ("kg", "lb", "g")]
    write = " or ".join(units) if MASS.holds(f"{number} kg") else "a number and its unit: kg, g, lb or oz"
    return Refusal(what=f"'{pot}' is not a weight", then=UNANSWERED, write=f"write {write}")


class Filled(TypedDict):
    """How many of one stock code a pot fills."""

    stock_code: str
    count: int
    each_g: float
    left_g: float


def _filled(size: SizeOf, pot: str, waste: float | None, *, unscented: bool) -> Filled:
    each_g = size.facts.net_weight_g
    count, left_g = fills(size.recorded, each_g, MASS.number(pot), waste or 0.0, unscented=unscented)
    return Filled(stock_code=size.facts.stock_code, count=count, each_g=each_g, left_g=left_g)


def _scale(shop: Ready) -> Scale:
    maker = shop.shop.maker
    return Scale(step_g=maker.scale_step_g, waste_percent=maker.waste_percent)
