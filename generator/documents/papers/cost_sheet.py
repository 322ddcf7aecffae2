"""The cost sheet, for the workshop only: what one candle costs, and the profit at each price."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House, Words
from generator.documents.papers.workshop_papers import workshop_papers
from generator.documents.printed import SPACE, listed, number, percent
from generator.facts.cost_facts import Costs, PricedLevel
from generator.model.money import CURRENCIES

_TEMPLATE: Final = "papers/cost.typ"
FINER_PLACES: Final = 2
"""A wick or a drop of dye costs less than the smallest coin, so lines have this many places more (CHOICE)."""

_MINUTES: Final = 60
_WORDS: Final = (
    "private", "cost_candle", "cost_of_one", "cost_lacks", "cost_line", "cost_amount", "cost_price", "cost_paid",
    "cost_kept", "cost_margin",
)  # fmt: skip


def cost_papers(house: House, costs: Sequence[Costs]) -> Iterator[Document]:
    """One sheet with a part for each stock code, on each size of paper."""
    words = house.words
    codes = tuple(one.stock_code for one in costs)
    title = words["bench"]["cost_title"].format(codes=listed(codes, house.words))
    value: dict[str, Value] = {
        "title": title if len(codes) == 1 else words["bench"]["cost_title_all"],
        "waste": _waste(costs[0], words),
        "candles": tuple(_candle(one, words) for one in costs),
    }
    name = codes[0] if len(codes) == 1 else "costs"
    return workshop_papers(house, name, _TEMPLATE, _WORDS, value)


def _candle(costs: Costs, words: Words) -> Mapping[str, Value]:
    known = {id(line): line.amount for line in costs.lines if line.amount is not None}
    total = _finely(costs.total, costs.currency)
    amounts = dict(zip(known, _adding_up(tuple(known.values()), total, costs.currency), strict=True))
    lacks = bool(costs.lacks)
    return {
        "name": f"{costs.scent}, {costs.size} ({costs.stock_code})",
        "lines": tuple(
            {
                "name": _line_name(line.name, costs, words),
                "amount": _money(amounts[id(line)], costs.currency, words) if id(line) in amounts else None,
                "missing": None if line.missing is None else words["missing_costs"][line.missing],
            }
            for line in costs.lines
        ),
        "total": words["bench"]["cost_at_least" if lacks else "cost_total"],
        "total_amount": _money(total, costs.currency, words),
        "at_least": words["bench"]["cost_at_least_amount"].format(amount=_money(total, costs.currency, words))
        if lacks
        else None,
        "levels": tuple(_level(level, costs, words) for level in costs.levels),
    }


def _waste(costs: Costs, words: Words) -> str:
    """The allowance is the house's, and so the same for all candles."""
    if costs.waste_percent is None:
        return words["bench"]["cost_no_waste"]
    return words["bench"]["waste"].format(percent=percent(costs.waste_percent, words))


def _adding_up(amounts: Sequence[Fraction], total: Decimal, currency: str) -> list[Decimal]:
    """The amounts at the sheet's finest step, the largest remainders rounded up, so that they add up to the total."""
    step = _step(currency)
    in_steps = [amount / Fraction(step) for amount in amounts]
    whole = [int(steps) for steps in in_steps]
    left_over = int(total / step) - sum(whole)
    by_remainder = sorted(range(len(whole)), key=lambda place: whole[place] - in_steps[place])
    raised = frozenset(by_remainder[:left_over])
    return [(steps + (place in raised)) * step for place, steps in enumerate(whole)]


def _level(level: PricedLevel, costs: Costs, words: Words) -> Mapping[str, Value]:
    name = words["price_levels"][level.name].format(level=level.called)
    if level.without_tax is None or level.margin is None:
        return {"name": name, "paid": words["missing_costs"]["price"], "kept": None, "margin": None}
    kept = _coins(level.margin.kept, costs.currency, words)
    share = f"{number(f'{float(level.margin.percent):.1f}', words)}{SPACE}%"
    at_most = words["bench"]["cost_at_most"] if costs.lacks else "{amount}"
    return {
        "name": name,
        "paid": _coins(Fraction(level.without_tax), costs.currency, words),
        "kept": at_most.format(amount=kept),
        "margin": at_most.format(amount=share),
    }


def _line_name(name: str, costs: Costs, words: Words) -> str:
    if name == "labour" and costs.labour_h is not None:
        return words["bench"]["labour_minutes"].format(
            minutes=number(f"{round(costs.labour_h * _MINUTES, 1):,g}", words)
        )
    if name == "overhead" and costs.overhead_percent is not None:
        return words["bench"]["overhead_percent"].format(percent=percent(costs.overhead_percent, words))
    return words["cost_lines"].get(name, name)


def _step(currency: str) -> Decimal:
    return Decimal(1).scaleb(-CURRENCIES[currency] - FINER_PLACES)


def _finely(amount: Fraction, currency: str) -> Decimal:
    step = _step(currency)
    steps = Decimal(round(amount / Fraction(step)))
    return steps * step


def _coins(amount: Fraction, currency: str, words: Words) -> str:
    exact = Decimal(amount.numerator) / Decimal(amount.denominator)
    coins = exact.quantize(Decimal(1).scaleb(-CURRENCIES[currency]), rounding=ROUND_HALF_UP)
    return _money(coins, currency, words)


def _money(amount: Decimal, currency: str, words: Words) -> str:
    return f"{number(f'{amount:,f}', words)}{SPACE}{currency}"
