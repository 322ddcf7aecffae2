"""The workshop's page on one fragrance: the loads at which a label changes, and each candle's label."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal
from typing import Final

from generator.document import Document, Value
from generator.documents.hazard_labels import Regime, market_names, regimes
from generator.documents.house import House, Scent, SizeOf, Words
from generator.documents.printed import SPACE, day, listed, number
from generator.facts.facts import Facts, PartFacts
from generator.facts.fragrance_loads import FragranceLoads, LoadStep, MarketLoads
from generator.model.amounts import Basis
from generator.model.burn_safety import HazardLabel
from generator.model.markets import Market

_PLACES: Final = Decimal("0.0001")
_HOLDS: Final = {Basis.OF_WAX: "holds_of_wax", Basis.OF_TOTAL: "holds_of_total"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Use:
    """A size that contains the fragrance, and how much of it."""

    size: SizeOf
    oil: PartFacts


def loads_path(fragrance: str) -> str:
    """The address of a fragrance's page, from the workshop's root."""
    return f"hazards/{fragrance}.html"


def loads_page(house: House, fragrance: str, loads: FragranceLoads) -> Document:
    """The page of one fragrance, in a house about the scents that contain it."""
    uses = [
        _Use(size=size, oil=part)
        for size in house.sizes
        for part in size.facts.parts
        if part.role == "fragrance" and part.id == fragrance
    ]
    return Document(
        path=f"workshop/{loads_path(fragrance)}",
        template="pages/loads.html",
        value=_value(house, loads, uses),
    )


def scents_by_fragrance(house: House) -> Mapping[str, list[Scent]]:
    """The scents that contain each fragrance in one of their sizes."""
    found: dict[str, list[Scent]] = {}
    for scent in house.scents:
        for id_ in dict.fromkeys(
            part.id for size in scent.sizes for part in size.facts.parts if part.role == "fragrance"
        ):
            found.setdefault(id_, []).append(scent)
    return found


def _value(house: House, loads: FragranceLoads, uses: list[_Use]) -> dict[str, Value]:
    words = house.words["loads"]
    return {
        "title": words["title"].format(fragrance=loads.name),
        "language": house.maker.language,
        "house": house.maker.name,
        "for_day": words["for_day"].format(day=day(house.as_of, house.words)),
        "regimes": tuple(_regime(house, markets, one) for markets, one in _alike(loads)),
        "blends": tuple(_blend(house, loads, alike) for alike in _by_blend(uses)),
    }


def _alike(loads: FragranceLoads) -> Iterator[tuple[tuple[Market, ...], MarketLoads]]:
    """Markets whose steps are the same, together."""
    found: dict[tuple[LoadStep, ...] | None, tuple[Market, ...]] = {}
    for market, one in loads.markets.items():
        found[one.steps] = (*found.get(one.steps, ()), market)
    for markets in found.values():
        yield markets, loads.markets[markets[0]]


def _regime(house: House, markets: tuple[Market, ...], loads: MarketLoads) -> Mapping[str, Value]:
    words = house.words["loads"]
    return {
        "heading": market_names(markets, house.words),
        "plain": None if loads.steps else words["unknown" if loads.steps is None else "no_change"],
        "rows": tuple(_row(house, step) for step in loads.steps or ()),
    }


def _row(house: House, step: LoadStep) -> Mapping[str, Value]:
    return {
        "of_wax": _load(step.of_wax_percent, house.words),
        "of_total": _load(step.of_total_percent, house.words),
        "label": _said(house, step),
        "named": listed(step.named, house.words),
        "classes": listed(step.classes, house.words),
    }


def _said(house: House, step: LoadStep) -> str:
    """What a label says from this load on, in codes."""
    if step.status == "refused":
        return house.words["loads"]["refused"]
    return listed(step.codes, house.words) or house.words["loads"]["no_label"]


def _by_blend(uses: Iterable[_Use]) -> Iterable[list[_Use]]:
    """Uses grouped by wax blend."""
    blends: dict[tuple[tuple[str, Decimal], ...], list[_Use]] = {}
    for use in uses:
        waxes = tuple((part.id, part.of_wax_percent) for part in _waxes(use.size))
        blends.setdefault(waxes, []).append(use)
    return blends.values()


def _waxes(size: SizeOf) -> tuple[PartFacts, ...]:
    return tuple(part for part in size.facts.parts if part.role == "wax")


def _blend(house: House, loads: FragranceLoads, uses: list[_Use]) -> Mapping[str, Value]:
    return {
        "name": house.words["loads"]["in_blend"].format(blend=_blend_name(house, uses[0].size)),
        "holds": listed(_holds(house, uses[0].size), house.words),
        "candles": tuple(_candle(house, loads, use) for use in uses),
    }


def _blend_name(house: House, size: SizeOf) -> str:
    waxes = _waxes(size)
    if len(waxes) == 1:
        return waxes[0].name
    return listed((f"{wax.name} {_percent(wax.of_wax_percent, house.words)}" for wax in waxes), house.words)


def _holds(house: House, size: SizeOf) -> Iterator[str]:
    """How much fragrance each wax can hold according to its supplier."""
    for portion in size.recorded.build.formula.waxes:
        most = portion.material.most_fragrance
        if most is not None:
            yield house.words["loads"][_HOLDS[most.basis]].format(
                wax=portion.material.name, percent=_percent(most.percent, house.words)
            )


def _candle(house: House, loads: FragranceLoads, use: _Use) -> Mapping[str, Value]:
    facts, recorded = use.size.facts, use.size.recorded
    return {
        "stock_code": recorded.stock_code,
        "scent": recorded.scent,
        "size": recorded.size_name,
        "of_wax": _percent(use.oil.of_wax_percent, house.words),
        "of_total": _percent(use.oil.of_total_percent, house.words),
        "stands": tuple(
            _stands(house, loads, use, regime) for regime in regimes(house.sheets[facts.stock_code].value)
        ),
        "pack": _pack(house, facts),
    }


def _stands(house: House, loads: FragranceLoads, use: _Use, regime: Regime) -> Mapping[str, Value]:
    """The candle's label at its load, what a small pack may omit, and the next change."""
    words, label, market = house.words["loads"], regime.label, regime.markets[0]
    hazards = use.size.facts.hazards[market]
    spared = hazards.may_leave_off if hazards else ()
    following = _next_step(loads.markets[market], use.oil)
    return {
        "markets": market_names(regime.markets, house.words),
        "label": listed((*label.h, *label.euh), house.words) or house.words["loads_statuses"][label.status],
        "spared": words["spared"].format(codes=listed(spared, house.words)) if spared else None,
        "next": None if following is None else _following(house, following, label),
    }


def _following(house: House, step: LoadStep, label: HazardLabel) -> str:
    """The next change: other statements, or only additional names."""
    words, load = house.words["loads"], _load(step.of_wax_percent, house.words)
    if step.codes == (*label.h, *label.euh):
        further = (name for name in step.named if name not in label.named_substances)
        return words["next_names"].format(load=load, names=listed(further, house.words))
    return words["next"].format(load=load, label=_said(house, step))


def _next_step(loads: MarketLoads, oil: PartFacts) -> LoadStep | None:
    steps = loads.steps or ()
    return next((step for step in steps if Decimal(step.of_total_percent) > oil.of_total_percent), None)


def _pack(house: House, facts: Facts) -> str | None:
    """The required size of the label and its diamonds; None where there is nothing to print."""
    sizes = [hazards.size for hazards in facts.hazards.values() if hazards and hazards.size]
    if not sizes:
        return None
    size, words = sizes[0], house.words["loads"]
    return words["label_if_possible" if size.if_possible else "label_at_least"].format(
        width=size.width_mm, height=size.height_mm, least=size.pictogram_least_mm, side=size.pictogram_mm
    )


def _percent(share: Decimal, words: Words) -> str:
    """Truncated, like the limits beside it."""
    return _load(f"{share.quantize(_PLACES, rounding=ROUND_DOWN).normalize():f}", words)


def _load(plain: str, words: Words) -> str:
    return f"{number(plain, words)}{SPACE}%"
