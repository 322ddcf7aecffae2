"""``papers cost``: what candles cost to make and what their prices leave, for the workshop alone."""

from collections.abc import Sequence

from generator.documents.papers.cost_sheet import cost_papers
from generator.facts.cost_facts import costs_of
from generator.facts.gather import shared_keys
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import ready, unknown_codes, write_papers
from generator.making.options import CommandOptions
from generator.making.pdf_papers import pressed
from generator.making.refused_papers import tell_refusals
from generator.making.report import refuse
from generator.rules.trade.prices import prices_by_level
from generator.writing.store import Store

NOTHING = "no cost sheet was written"


def run(asked: CommandOptions, stock_codes: Sequence[str]) -> int:
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
    made = pressed(cost_papers(shop.house, costs), shop.presentation.theme, store)
    if made.refused:
        each = {one.stock_code: cost_papers(shop.house, [one]) for one in costs}
        return tell_refusals(asked, shop, each, then=NOTHING)
    write_papers(asked, made.files)
    return 0
