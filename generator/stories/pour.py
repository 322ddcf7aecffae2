"""``papers pour``: the sheet for a pour; ``fills``: how many candles the wax in the pot will fill."""

from collections.abc import Iterator, Mapping, Sequence

from generator.document import Document
from generator.documents.pour import pour_papers
from generator.facts.pours import Scale, Wanted, fills, pour
from generator.model.candle import Status
from generator.model.quantities import MASS
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT, WRONG_USE
from generator.stories.pressing import pressed
from generator.stories.ready import Ready, are_known, ready, write_papers
from generator.stories.refusing import tell_refusals
from generator.writing.store import Store

NOTHING = "no pour sheet was written"
UNANSWERED = "nothing was worked out"


def run(asked: Asked, counts: Mapping[str, int]) -> int:
    """Exit code 0 when the sheet is written, 1 when entries stand in the way, 2 for an unknown stock code."""
    store = Store(asked.output / ".store")
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    if not are_known(counts, shop.sizes, NOTHING):
        return WRONG_USE
    for code in counts:
        if shop.sizes[code].facts.status is Status.DISCONTINUED:
            print(f"{code} is discontinued: no shelf shows it; write status: current if it is made again")
    made = pressed(_papers(shop, counts), shop.setting.theme, store)
    if made.refused:
        each = {code: _papers(shop, {code: count}) for code, count in counts.items()}
        return tell_refusals(asked, shop, each, then=NOTHING)
    write_papers(asked, made.files)
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
        print(f"'{pot}' is not a weight; write {MASS.offer(pot)}; {UNANSWERED}")
        return WRONG_USE
    shop = ready(asked, Store(asked.output / ".store"), UNANSWERED)
    if shop is None:
        return AT_FAULT
    if not are_known(stock_codes, shop.sizes, UNANSWERED):
        return WRONG_USE
    scale = _scale(shop)
    for code in dict.fromkeys(stock_codes):
        one = shop.sizes[code]
        net_g, waste = one.facts.net_weight_g, scale.waste_percent or 0.0
        count, left_g = fills(one.recorded, net_g, MASS.number(pot), waste, unscented=unscented)
        print(f"{code}: fills {count} of {net_g:.1f} g each; {left_g:.0f} g are left over")
    if scale.waste_percent is None:
        print("no waste is recorded in maker.yaml, so nothing is kept back for pot and jug; write waste: 3 %")
    else:
        print(f"with {scale.waste_percent:g} % for what stays in pot, jug and test pieces")
    return 0


def _scale(shop: Ready) -> Scale:
    maker = shop.shop.maker
    return Scale(step_g=maker.scale_step_g, waste_percent=maker.waste_percent)
