"""``fills``: how many candles the wax in the pot will fill."""

from collections.abc import Sequence
from typing import Final, TypedDict

from generator.arguments import CommandParser
from generator.documents.house import SizeOf
from generator.facts.pours import fills
from generator.making.load_shop import load_sound_shop
from generator.making.loaded_shop import SoundShop
from generator.making.options import CommandOptions
from generator.making.report import Refusal, refuse, report_faults, say, unknown_codes
from generator.model.quantities import MASS
from generator.problems import is_error

UNANSWERED: Final = "nothing was calculated"


def add_arguments(words: CommandParser) -> None:
    """What the pot holds, and what is to be filled."""
    words.add_argument(
        "pot", metavar="WEIGHT", help="the weight of what is in the pot, such as '4.6 kg' or '26 oz'"
    )
    words.add_argument("stock_codes", metavar="STOCK_CODE", nargs="+")
    words.add_argument(
        "--unscented", action="store_true", help="the pot holds wax only, with nothing added yet"
    )
    words.runs(run)


def run(options: CommandOptions, stock_codes: Sequence[str], pot: str, *, unscented: bool) -> int:
    """Exit code 0 when it is told, 1 when entries stand in the way, 2 for what is no weight or no stock code."""
    if not MASS.holds(pot):
        return refuse(_no_weight(pot), as_json=options.as_data)
    shop = load_sound_shop(options)
    if not isinstance(shop, SoundShop):
        return report_faults(options, filter(is_error, shop), UNANSWERED)
    if unknown := unknown_codes(stock_codes, shop.sizes, UNANSWERED):
        return refuse(*unknown, as_json=options.as_data)
    waste = shop.shop.maker.waste_percent
    filled = [
        _filled(shop.sizes[code], pot, waste, unscented=unscented) for code in dict.fromkeys(stock_codes)
    ]
    lines = [
        f"{one['stock_code']}: fills {one['count']}, {one['each_g']:.1f} g each, with {one['left_g']:.0f} g left over"
        for one in filled
    ]
    kept = (
        "No waste allowance is recorded. Add waste: 3 %, or your own figure, to maker.yaml for what stays "
        "in the pot and jug."
        if waste is None
        else f"Includes {waste:g} % waste for what stays in the pot and jug."
    )
    data = {"fills": filled, "waste_percent": waste}
    pour = " ".join(f"{one['stock_code']}={one['count']}" for one in filled[:1] if one["count"])
    next_step = f"wickwright papers pour {pour}" if pour else None
    say((*lines, kept), data, as_json=options.as_data, next_step=next_step)
    return 0


def _no_weight(pot: str) -> Refusal:
    """A number alone may be of any unit; a pot of that many grams is the least likely."""
    number = pot.strip().replace(",", ".")
    units = [f"'{number} {unit}'" for unit in ("kg", "lb", "g")]
    fix = " or ".join(units) if MASS.holds(f"{number} kg") else "a number and its unit: kg, g, lb or oz"
    return Refusal(what=f"'{pot}' is not a weight", then=UNANSWERED, fix=f"write {fix}")


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
