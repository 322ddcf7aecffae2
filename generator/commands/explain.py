"""``explain STOCK_CODE``: every figure and hazard with what it was worked out from, how, and by whose rule."""

from collections.abc import Iterator, Mapping
from typing import Final, TypedDict

from generator.commands.explain_hazards import Hazard, hazard_lines, hazards_of
from generator.facts.facts import Facts, Input
from generator.facts.gather import Gathered
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import unknown_codes
from generator.making.load_shop import Known, know
from generator.making.options import Asked
from generator.making.report import refuse, say, tell
from generator.model.maker import Market
from generator.model.recorded import Recorded
from generator.problems import Places, is_error
from generator.reading.languages import FIRST, words_of
from generator.writing.store import Store

DIGITS: Final = 12
"""Significant digits of a printed number: enough to work every figure out again from them."""


class Term(TypedDict):
    """One number of a formula, and where it was written if it was."""

    name: str
    value: str
    unit: str
    written_at: str | None


class Explained(TypedDict):
    """One figure with everything that anybody needs to work it out again."""

    figure: str
    label: str
    value: str
    unit: str
    formula: str
    inputs: list[Term]
    source: str


def run(asked: Asked, stock_code: str) -> int:
    """Exit code 0 when there are figures, 1 when the entries are at fault, 2 for an unknown stock code."""
    known = know(asked, Store(asked.output / ".store"))
    errors = [problem for problem in known.problems if is_error(problem)]
    codes = _codes(known)
    if stock_code not in codes and not (errors and not codes):
        return refuse(*unknown_codes((stock_code,), codes, "nothing was explained"), as_json=asked.as_data)
    if errors:
        tell(errors, as_json=asked.as_data, then=f"fix them before you trust the figures of {stock_code}")
        return AT_FAULT
    found = {facts.stock_code: (gathered, facts) for gathered, facts in known.facts}
    gathered, facts = found[stock_code]
    figures, hazards = explanation(gathered, facts, known.places), hazards_of(facts)
    say(
        (told(gathered.recorded, figures, hazards),),
        {"figures": figures, "hazards": hazards},
        as_json=asked.as_data,
    )
    return 0


def _codes(known: Known) -> list[str]:
    """Every stock code that an entry names, be it worked out or not."""
    candles = known.shop.candles.values() if known.shop else ()
    return sorted(size.stock_code for candle in candles for size in candle.sizes)


def explanation(gathered: Gathered, facts: Facts, places: Places) -> list[Explained]:
    """Every figure of a stock code, each input with the place it was written at; commands speak English."""
    words = words_of(FIRST)

    def term(item: Input) -> Term:
        written = str(places.of(gathered.origin(item.origin))) if item.origin else None
        return Term(name=item.name, value=_number(item.value), unit=item.unit, written_at=written)

    return [
        Explained(
            figure=figure.name,
            label=words["figure_labels"][figure.label],
            value=_number(figure.value),
            unit=figure.unit,
            formula=figure.formula,
            inputs=[term(item) for item in figure.inputs],
            source=words["figure_sources"][figure.source],
        )
        for figure in facts.figures
    ]


def told(recorded: Recorded, explained: list[Explained], hazards: Mapping[Market, Hazard | None]) -> str:
    """The same as text: a block for each figure and for each market's hazards."""
    return "\n".join((*_lines(recorded, explained), *hazard_lines(hazards)))


def _lines(recorded: Recorded, explained: list[Explained]) -> Iterator[str]:
    yield f"{recorded.stock_code}: {recorded.scent}, {recorded.size_name}"
    for figure in explained:
        yield ""
        yield figure["label"]
        yield f"    {figure['figure']} = {figure['formula']}"
        yield f"    {figure['figure']} = {figure['value']} {figure['unit']}".rstrip()
        for item in figure["inputs"]:
            written = f"    ({item['written_at']})" if item["written_at"] else ""
            yield f"        {item['name']} = {item['value']} {item['unit']}".rstrip() + written
        yield f"    source: {figure['source']}"


def _number(value: float) -> str:
    return f"{value:.{DIGITS}g}"
