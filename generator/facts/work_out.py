"""From one record to all its facts: made, burnt and priced, with every figure explained."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import floor

from generator.facts.burn_result import BurnResult, burn_result, burn_track, moved
from generator.facts.facts import ContainerFacts, Facts, PartFacts, ShapeFacts, TestFacts, WickFacts
from generator.facts.figures import figures_of
from generator.facts.hazard_facts import Hazards, hazards_of
from generator.facts.poured_candle import PouredCandle, poured_candle
from generator.model.burn_safety import BurnAdvice, BurnHours
from generator.model.kinds import KINDS
from generator.model.markets import Market
from generator.model.materials import Wax
from generator.model.recorded import Recorded
from generator.model.vessel import Vessel, WaxShape
from generator.problems import Fault
from generator.rules.burning.guidance import ADVICE_KEPT, COOL_DOWN_H, advice
from generator.rules.entries.plausible_candle import candle_doubts
from generator.rules.labels.barcode import barcode_faults
from generator.rules.labels.net_quantity import NetQuantity, declared, quantity_text
from generator.rules.trade.cases import cartons, case_g, gross_g
from generator.rules.trade.pricing import Prices, trade_margin_percent, trade_price_faults
from generator.rules.wax.blend import FORMULAS_KEPT, Blend
from generator.rules.wax.geometry import brimful_ml, height_mm, outline_mm, widest_mm
from generator.rules.wax.temperatures import make_faults

OUTLINE_STEPS = 12
"""How many straight pieces make up a curved wall in a drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """The facts, or None where a fault prevents them; and every fault found."""

    facts: Facts | None
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Outcome:
    """Everything worked out, before it is put together."""

    recorded: Recorded
    poured: PouredCandle
    quantity: NetQuantity
    burn: BurnResult | None
    hazards: Hazards


def work_out(recorded: Recorded) -> Worked:
    """Every figure of one stock code. A candle without its wick has none; that is reported elsewhere."""
    faults = [*_plain_faults(recorded)]
    poured, pour_faults = poured_candle(recorded)
    faults += pour_faults
    if poured is None:
        return Worked(facts=None, faults=tuple(faults))
    faults += candle_doubts(recorded, poured.blend, poured.filled)
    quantity, quantity_faults = declared(poured.net, recorded.declared_g, recorded.declared_oz)
    faults += quantity_faults
    burn = None
    kind = KINDS[recorded.kind]
    if kind.takes_wick and not recorded.build.wicks:
        return Worked(facts=None, faults=tuple(faults))
    if kind.has_flame:
        burn, burn_faults = burn_result(recorded, poured)
        faults += burn_faults
        if burn is None:
            return Worked(facts=None, faults=tuple(faults))
    hazards, hazard_faults = hazards_of(recorded, poured)
    faults += hazard_faults
    outcome = _Outcome(recorded=recorded, poured=poured, quantity=quantity, burn=burn, hazards=hazards)
    return Worked(facts=_facts(outcome), faults=tuple(faults))


def _plain_faults(recorded: Recorded) -> Iterator[Fault]:
    """Faults of single fields, which do not need the candle's figures."""
    formula = recorded.build.formula
    if recorded.barcode is not None:
        yield from barcode_faults(recorded.barcode)
    if recorded.make is not None:
        waxes = [portion.material for portion in formula.waxes]
        fragrances = [portion.material for portion in formula.fragrances]
        yield from make_faults(recorded.make, waxes, fragrances)
    prices = _prices(recorded)
    if prices is not None:
        yield from trade_price_faults(prices)


def _prices(recorded: Recorded) -> Prices | None:
    if recorded.price is None or recorded.trade_price is None:
        return None
    return Prices(
        retail=recorded.price,
        trade=recorded.trade_price,
        tax_percent=recorded.prices_include_tax_percent,
        currency=recorded.currency,
    )


def _facts(outcome: _Outcome) -> Facts:
    recorded, poured, burn = outcome.recorded, outcome.poured, outcome.burn
    build, blend, net = poured.build, poured.blend, poured.net
    figures = tuple(figures_of(poured, outcome.quantity, burn))
    prices = _prices(recorded)
    quantities = {market: quantity_text(market, outcome.quantity) for market in recorded.markets}
    return Facts(
        stock_code=recorded.stock_code,
        candle=recorded.candle,
        kind=recorded.kind,
        margin_percent=trade_margin_percent(prices) if prices else None,
        minimum_cartons=cartons(recorded.minimum, recorded.case) if recorded.minimum else None,
        hs_heading=recorded.hs or KINDS[recorded.kind].customs_heading,
        site_path=f"candles/{recorded.candle}.html",
        safety_path=f"safety/{recorded.stock_code}.html",
        container=_container(recorded.build.container),
        shape=_shape(recorded.build.shape),
        wick=_wick(recorded),
        fill_volume_ml=poured.filled.volume_ml,
        level_set_mm=poured.filled.level_set_mm,
        net_weight_g=net.net_g,
        net_weight_basis=net.basis,
        net_weight_error_percent=net.error_percent,
        weighed_n=net.weighings.n if net.weighings else 0,
        declared=quantities if outcome.quantity.status == "proven" else dict.fromkeys(quantities),
        estimated=quantities,
        declared_status=outcome.quantity.status,
        declared_g=None if outcome.quantity.whole_g is None else int(outcome.quantity.whole_g.exact),
        density_set_g_per_ml=blend.density_set.value,
        density_molten_g_per_ml=poured.density_molten.value,
        fragrance_of_wax_percent=float(blend.fragrance_of_wax_percent),
        fragrance_of_total_percent=float(blend.fragrance_of_total_percent),
        heel_g=burn.fuel.heel.value if burn else None,
        burnable_g=burn.fuel.burnable_g if burn else None,
        lhv_mj_per_kg=blend.lhv_mj_per_kg,
        heat_w=burn.heat.value if burn else None,
        gross_g=_gross_g(outcome),
        case_g=case_g(_gross_g(outcome), recorded.case, recorded.cased),
        rate_g_per_h=burn.rate_g_per_h if burn else None,
        rate_high_g_per_h=burn.hours.rate_high_g_per_h if burn else None,
        burn_hours=_hours(burn) if burn else None,
        burn_test=_tests(recorded, burn),
        burn_track=burn_track(burn, net.net_g) if burn else None,
        first_burn_h=burn.first.hours if burn else None,
        session_limit_h=burn.session_limit.value if burn else None,
        stop_depth_mm=burn.fuel.stop_depth_mm if burn and KINDS[recorded.kind].has_stop_line else None,
        advice=_advice(recorded, burn) if burn else {},
        hazards=outcome.hazards,
        outline_mm=outline_mm(build.shape.inside, OUTLINE_STEPS),
        contains=_contains(blend),
        parts=_parts(blend),
        figures=figures,
        sources={figure.name: figure.source for figure in figures},
    )


def _container(container: Vessel | None) -> ContainerFacts | None:
    if container is None:
        return None
    return ContainerFacts(id=container.id, name=container.name, material=container.material)


def _shape(shape: WaxShape) -> ShapeFacts:
    return ShapeFacts(
        brimful_ml=brimful_ml(shape), diameter_mm=widest_mm(shape.inside), depth_mm=height_mm(shape.inside)
    )


def _wick(recorded: Recorded) -> WickFacts | None:
    uses = recorded.build.wicks
    if not uses:
        return None
    return WickFacts(
        id=", ".join(use.wick.id for use in uses),
        name=", ".join(use.wick.name for use in uses),
        count=sum(use.count for use in uses),
        trim_mm=min(use.wick.trim_mm for use in uses),
    )


def _gross_g(outcome: _Outcome) -> float | None:
    recorded, build = outcome.recorded, outcome.recorded.build
    return gross_g(outcome.poured.net.net_g, build.container, build.wicks, recorded.packaging_g)


def _hours(burn: BurnResult) -> BurnHours:
    hours = burn.hours
    return BurnHours(
        claim=burn.printed_h,
        low=hours.low_h,
        mean=None if hours.mean is None else hours.mean.value,
        high=hours.high_h,
        basis=hours.basis,
    )


def _tests(recorded: Recorded, burn: BurnResult | None) -> TestFacts:
    if burn is None:
        return TestFacts(files=(), pieces=0, sessions=0, coverage=None, excluded=(), matches=False, moved=())
    exact = [test.is_exact for test in burn.evidence]
    return TestFacts(
        files=tuple(test.file for test in recorded.tests),
        pieces=len(burn.hours.pieces),
        sessions=burn.hours.sessions,
        coverage=burn.hours.estimate.coverage if burn.hours.estimate else None,
        excluded=burn.hours.excluded,
        matches=bool(exact) and all(exact),
        moved=tuple(moved(burn)),
    )


def _advice(recorded: Recorded, burn: BurnResult) -> Mapping[Market, BurnAdvice]:
    trim_mm = min(use.wick.trim_mm for use in recorded.build.wicks)
    has_stop_line = KINDS[recorded.kind].has_stop_line
    longest_h, first_h = _half_hours_below(burn.session_limit.value), _first_burn_h(burn)
    return {
        market: _advice_for(market, trim_mm, longest_h, first_h, has_stop_line=has_stop_line)
        for market in recorded.markets
    }


@lru_cache(maxsize=ADVICE_KEPT)
def _advice_for(
    market: Market, trim_mm: float, longest_h: float, first_h: float, *, has_stop_line: bool
) -> BurnAdvice:
    given = advice(market, trim_mm)
    return BurnAdvice(
        trim=given.trim.text,
        longest_session_h=longest_h,
        stop_at=given.stop_at.text if has_stop_line else None,
        apart=given.apart.text,
        clear_of=given.clear_of.text if given.clear_of else None,
        first_burn_h=first_h,
        cool_down_h=COOL_DOWN_H,
    )


def _half_hours_below(hours: float) -> float:
    """Rounded down to the half hour, at least one: no paper advises a longer burn than the figures do."""
    return max(1, floor(hours * 2)) / 2


def _first_burn_h(burn: BurnResult) -> float:
    """To the nearest half hour, at most the longest burn: too short a first burn leaves wax at the edge."""
    nearest = max(1, floor(burn.first.hours * 2 + 0.5)) / 2
    return min(nearest, _half_hours_below(burn.session_limit.value))


@lru_cache(maxsize=FORMULAS_KEPT)
def _parts(blend: Blend) -> tuple[PartFacts, ...]:
    return tuple(
        PartFacts(
            id=part.id,
            name=part.material.name,
            role=part.role,
            of_wax_percent=blend.of_wax_percent(part),
            of_total_percent=blend.of_total_percent(part),
        )
        for part in blend.parts
    )


@lru_cache(maxsize=FORMULAS_KEPT)
def _contains(blend: Blend) -> tuple[str, ...]:
    materials = [part.material for part in blend.parts]
    waxes = [wax for wax in materials if isinstance(wax, Wax)]
    declared_as = dict.fromkeys(name for wax in waxes for name in wax.declared_as or (wax.name,))
    return (*declared_as, *(each.name for each in materials if not isinstance(each, Wax)))
