"""``explain STOCK_CODE``: every figure with what it was worked out from, how, and by whose rule."""

import json
from collections.abc import Iterator
from typing import Final, TypedDict

from generator.facts.facts import Facts, Input
from generator.facts.gather import Gathered
from generator.problems import Places, is_error
from generator.stories.shop import Asked, know
from generator.stories.telling import nearest_codes, tell
from generator.writing.store import Store

WRONG_USE: Final = 2
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
    found = {facts.stock_code: (gathered, facts) for gathered, facts in known.facts}
    if stock_code in found:
        gathered, facts = found[stock_code]
        explained = explanation(gathered, facts, known.places)
        print(
            json.dumps(explained, ensure_ascii=False, indent=2) if asked.as_data else told(facts, explained)
        )
        return 0
    errors = [problem for problem in known.problems if is_error(problem)]
    if errors:
        tell(errors, as_json=asked.as_data, then=f"{stock_code} could not be worked out")
        return 1
    print(f"there is no stock code '{stock_code}'; {nearest_codes(stock_code, found)}")
    return WRONG_USE


def explanation(gathered: Gathered, facts: Facts, places: Places) -> list[Explained]:
    """Every figure of a stock code, each input with the place it was written at."""

    def term(item: Input) -> Term:
        written = str(places.of(gathered.origin(item.origin))) if item.origin else None
        return Term(name=item.name, value=_number(item.value), unit=item.unit, written_at=written)

    return [
        Explained(
            figure=figure.name,
            label=figure.label,
            value=_number(figure.value),
            unit=figure.unit,
            formula=figure.formula,
            inputs=[term(item) for item in figure.inputs],
            source=figure.source,
        )
        for figure in facts.figures
    ]


def told(facts: Facts, explained: list[Explained]) -> str:
    """The same as text: a block for each figure, with everything it was worked out from."""
    return "\n".join(_lines(facts, explained))


def _lines(facts: Facts, explained: list[Explained]) -> Iterator[str]:
    yield f"{facts.stock_code}: {facts.scent}, {facts.size}"
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
