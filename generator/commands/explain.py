"""``explain STOCK_CODE``: every figure and hazard with what it was worked out from, how, and by whose rule."""

from collections.abc import Iterator, Mapping
from typing import Final, TypedDict

from generator.arguments import CommandParser
from generator.facts.facts import Facts, Input
from generator.facts.gather import Gathered
from generator.facts.hazard_facts import HazardFacts
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop
from generator.making.options import CommandOptions
from generator.making.report import refuse, report_faults, say, unknown_codes
from generator.model.markets import Market
from generator.model.recorded import Recorded
from generator.problems import Places
from generator.reading.languages import FIRST, words_of

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


class Hazard(TypedDict):
    """One market's hazards with the reasons behind each class, and the limits that come next."""

    status: str
    law: str
    classes: list[str]
    reasons: list[str]
    next_limits: list[str]


def add_arguments(words: CommandParser) -> None:
    """One stock code."""
    words.add_argument("stock_code", metavar="STOCK_CODE")
    words.runs(run)


def run(options: CommandOptions, stock_code: str) -> int:
    """Exit code 0 when there are figures, 1 when the entries are at fault, 2 for an unknown stock code."""
    loaded = load_shop(options)
    candles = loaded.shop.candles.values() if isinstance(loaded, LoadedShop) else ()
    codes = sorted(size.stock_code for candle in candles for size in candle.sizes)
    if stock_code not in codes and (codes or not loaded.errors):
        return refuse(*unknown_codes((stock_code,), codes, "nothing was explained"), as_json=options.as_data)
    if not isinstance(loaded, LoadedShop) or loaded.errors:
        then = f"the figures of {stock_code} cannot be trusted until these are fixed"
        return report_faults(options, loaded.errors, then)
    gathered, facts = next(one for one in loaded.facts if one[1].stock_code == stock_code)
    figures, hazards = explanation(gathered, facts, loaded.places), _explained_hazards(facts)
    lines = (told(gathered.recorded, figures, hazards),)
    data = {"as_of": loaded.shop.as_of.isoformat(), "figures": figures, "hazards": hazards}
    say(lines, data, as_json=options.as_data)
    return 0


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


def _explained_hazards(facts: Facts) -> dict[Market, Hazard | None]:
    """Every market's hazards; None where the law asks for no such label."""
    return {market: None if found is None else _hazard(found) for market, found in facts.hazards.items()}


def hazard_lines(hazards: Mapping[Market, Hazard | None]) -> Iterator[str]:
    """The same as text, a block for each market."""
    for market, found in hazards.items():
        yield ""
        if found is None:
            yield f"Hazards, {market}: no hazard label is required there"
            continue
        yield f"Hazards, {market}: {', '.join(found['classes']) or found['status']}"
        yield from (f"    {reason}" for reason in found["reasons"])
        yield from (f"    next: {limit}" for limit in found["next_limits"])
        yield f"    law: {found['law']}"


def _hazard(found: HazardFacts) -> Hazard:
    return Hazard(
        status=found.label.status,
        law=found.label.law,
        classes=list(found.classes),
        reasons=list(found.reasons),
        next_limits=list(found.next_limits),
    )
