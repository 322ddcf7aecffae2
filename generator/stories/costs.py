"""``papers cost``: what candles cost to make and what their prices leave, for the workshop alone."""

from collections.abc import Sequence

from generator.documents.costs import cost_papers
from generator.facts.costs import costs_of
from generator.facts.gather import shared_keys
from generator.rules.trade import prices_by_level
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT
from generator.stories.pressing import pressed
from generator.stories.ready import ready, unknown_codes, write_papers
from generator.stories.refusing import tell_refusals
from generator.stories.telling import refuse
from generator.writing.store import Store

NOTHING = "no cost sheet was written"


def run(asked: Asked, stock_codes: Sequence[str]) -> int:
    """Exit code 0 when the sheet is written, 1 when entries stand in the way, 2 for an unknown stock code."""
    store = Store(asked.output / ".store")
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    if unknown := unknown_codes(stock_codes, shop.sizes, NOTHING):
        return refuse(*unknown, as_json=asked.as_data)
    codes = tuple(dict.fromkeys(stock_codes)) or tuple(shop.sizes)
    shared, levels = shared_keys(shop.shop), prices_by_level(shop.shop)
    costs = [
        costs_of(
            shop.shop,
            shop.sizes[code].recorded,
            shop.sizes[code].facts,
            shared[code],
            {name: paid[code] for name, paid in levels.items() if code in paid},
        )
        for code in codes
    ]
    made = pressed(cost_papers(shop.house, costs), shop.setting.theme, store)
    if made.refused:
        each = {one.stock_code: cost_papers(shop.house, [one]) for one in costs}
        return tell_refusals(asked, shop, each, then=NOTHING)
    write_papers(asked, made.files)
    return 0
