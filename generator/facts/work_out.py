"""From one record to all its facts: made, burnt, priced, and every figure explained."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import floor

from generator.facts.burn_figures import burn_figures, flame_rate_g_per_h, printed_claim_h
from generator.facts.burn_tracks import burn_track
from generator.facts.burnt import Burnt, burn, moved
from generator.facts.facts import Facts, Figure, PartFacts, TestFacts, VesselFacts, WickFacts
from generator.facts.hazard_facts import Hazards, hazards_of
from generator.facts.made import Made, make
from generator.facts.weight_figures import weight_figures
from generator.model.burn_safety import BurnAdvice, BurnHours
from generator.model.candle import Kind
from generator.model.maker import Market
from generator.model.recorded import Recorded
from generator.problems import Fault
from generator.rules.burning.guidance import COOL_DOWN_H, advice
from generator.rules.burning.heat import flame_heat_w
from generator.rules.burning.matching import MatchLevel
from generator.rules.entries.plausible_candle import candle_doubts
from generator.rules.labels.barcode import barcode_faults
from generator.rules.labels.net_quantity import NetQuantity, declared, quantity_text
from generator.rules.trade.cases import cartons, case_g, gross_g, hs_heading
from generator.rules.trade.pricing import Prices, trade_faults, trade_margin_percent
from generator.rules.wax.geometry import brimful_ml, height_mm, outline_mm, widest_mm
from generator.rules.wax.portions import stirred_in
from generator.rules.wax.temperatures import make_faults

OUTLINE_STEPS = 12
"""How many straight pieces stand for a curved wall in a drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """The facts, or None where a fault stands in the way; and every fault met."""

    facts: Facts | None
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Outcome:
    """Everything that was worked out, before it is put in one place."""

    recorded: Recorded
    made: Made
    quantity: NetQuantity
    burnt: Burnt | None
    hazards: Hazards


def work_out(recorded: Recorded) -> Worked:
    """Every figure of one stock code. A container without a wick has none; that it lacks one is told elsewhere."""
    faults = [*_plain_faults(recorded)]
    made, made_faults = make(recorded)
    faults += made_faults
    if made is None:
        return Worked(facts=None, faults=tuple(faults))
    faults += candle_doubts(recorded, made.blend, made.finish)
    quantity, quantity_faults = declared(made.net, recorded.declared_g, recorded.declared_oz)
    faults += quantity_faults
    burnt = None
    if recorded.kind is Kind.CONTAINER:
        if not recorded.build.wicks:
            return Worked(facts=None, faults=tuple(faults))
        burnt, burnt_faults = burn(recorded, made)
        faults += burnt_faults
        if burnt is None:
            return Worked(facts=None, faults=tuple(faults))
    hazards, hazard_faults = hazards_of(recorded, made)
    faults += hazard_faults
    outcome = _Outcome(recorded=recorded, made=made, quantity=quantity, burnt=burnt, hazards=hazards)
    return Worked(facts=_facts(outcome), faults=tuple(faults))


def _plain_faults(recorded: Recorded) -> Iterator[Fault]:
    """Faults of single fields, whatever the candle comes to."""
    formula = recorded.build.formula
    if recorded.barcode is not None:
        yield from barcode_faults(recorded.barcode)
    if recorded.make is not None:
        waxes = [portion.material for portion in formula.waxes]
        fragrances = [portion.material for portion in formula.fragrances]
        yield from make_faults(recorded.make, waxes, fragrances)
    prices = _prices(recorded)
    if prices is not None:
        yield from trade_faults(prices)


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
    recorded, made, burnt = outcome.recorded, outcome.made, outcome.burnt
    build, blend, net = made.build, made.blend, made.net
    figures = _figures(outcome)
    prices = _prices(recorded)
    return Facts(
        stock_code=recorded.stock_code,
        candle=recorded.candle,
        kind=recorded.kind,
        margin_percent=trade_margin_percent(prices) if prices else None,
        minimum_cartons=cartons(recorded.minimum, recorded.case) if recorded.minimum else None,
        hs_heading=hs_heading(recorded.kind),
        site_path=f"candles/{recorded.candle}.html",
        safety_path=f"safety/{recorded.stock_code}.html",
        vessel=_vessel(recorded),
        wick=_wick(recorded),
        fill_volume_ml=made.finish.volume_ml,
        level_set_mm=made.finish.level_set_mm,
        net_weight_g=net.net_g,
        net_weight_basis=net.basis,
        net_weight_error_percent=net.error_percent,
        weighed_n=net.weighings.n if net.weighings else 0,
        declared=_declared(outcome),
        estimated={market: quantity_text(market, outcome.quantity) for market in recorded.markets},
        declared_status=outcome.quantity.status,
        density_set_g_per_ml=made.density_set_g_per_ml,
        density_molten_g_per_ml=made.density_molten_g_per_ml,
        fragrance_of_wax_percent=float(blend.fragrance_of_wax_percent),
        fragrance_of_total_percent=float(blend.fragrance_of_total_percent),
        heel_g=burnt.fuel.heel_g if burnt else None,
        burnable_g=burnt.fuel.burnable_g if burnt else None,
        lhv_mj_per_kg=made.lhv_mj_per_kg,
        heat_w=flame_heat_w(flame_rate_g_per_h(burnt), made.lhv_mj_per_kg) if burnt else None,
        gross_g=_gross_g(outcome),
        case_g=case_g(_gross_g(outcome), recorded.case, recorded.cased),
        rate_g_per_h=burnt.rate_g_per_h if burnt else None,
        rate_high_g_per_h=burnt.hours.rate_high_g_per_h if burnt else None,
        burn_hours=_hours(recorded, burnt) if burnt else None,
        burn_test=_tests(recorded, burnt),
        burn_track=burn_track(burnt, net.net_g) if burnt else None,
        first_burn_h=burnt.first.hours if burnt else None,
        session_limit_h=burnt.session_limit_h if burnt else None,
        stop_depth_mm=burnt.fuel.stop_depth_mm if burnt else None,
        advice=_advice(recorded, burnt) if burnt else {},
        hazards=outcome.hazards,
        outline_mm=outline_mm(build.vessel.inside, OUTLINE_STEPS),
        contains=tuple(_contains(recorded)),
        parts=tuple(_parts(made)),
        figures=figures,
        sources={figure.name: figure.source for figure in figures},
    )


def _figures(outcome: _Outcome) -> tuple[Figure, ...]:
    recorded, made, burnt = outcome.recorded, outcome.made, outcome.burnt
    burning = burn_figures(recorded, made, burnt) if burnt else ()
    return (*weight_figures(recorded, made, outcome.quantity), *burning)


def _vessel(recorded: Recorded) -> VesselFacts:
    vessel = recorded.build.vessel
    return VesselFacts(
        id=vessel.id,
        name=vessel.name,
        material=vessel.material,
        brimful_ml=brimful_ml(vessel),
        diameter_mm=widest_mm(vessel.inside),
        depth_mm=height_mm(vessel.inside),
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


def _declared(outcome: _Outcome) -> Mapping[Market, str | None]:
    proven = outcome.quantity.status == "proven"
    return {
        market: quantity_text(market, outcome.quantity) if proven else None
        for market in outcome.recorded.markets
    }


def _gross_g(outcome: _Outcome) -> float | None:
    recorded, build = outcome.recorded, outcome.recorded.build
    return gross_g(outcome.made.net.net_g, build.vessel, build.wicks, recorded.packaging_g)


def _hours(recorded: Recorded, burnt: Burnt) -> BurnHours:
    hours = burnt.hours
    return BurnHours(
        claim=printed_claim_h(recorded, burnt),
        low=hours.low_h,
        mean=hours.mean_h,
        high=hours.high_h,
        basis=hours.basis,
    )


def _tests(recorded: Recorded, burnt: Burnt | None) -> TestFacts:
    if burnt is None:
        return TestFacts(files=(), pieces=0, sessions=0, coverage=None, excluded=(), matches=False, moved=())
    exact = [test.match is not None and test.match.level is MatchLevel.EXACT for test in burnt.evidence]
    return TestFacts(
        files=tuple(test.file for test in recorded.tests),
        pieces=len(burnt.hours.pieces),
        sessions=burnt.hours.sessions,
        coverage=burnt.hours.estimate.coverage if burnt.hours.estimate else None,
        excluded=burnt.hours.excluded,
        matches=bool(exact) and all(exact),
        moved=tuple(moved(burnt)),
    )


def _advice(recorded: Recorded, burnt: Burnt) -> Mapping[Market, BurnAdvice]:
    trim_mm = min(use.wick.trim_mm for use in recorded.build.wicks)
    return {market: _advice_for(market, trim_mm, burnt) for market in recorded.markets}


def _advice_for(market: Market, trim_mm: float, burnt: Burnt) -> BurnAdvice:
    given = advice(market, trim_mm)
    return BurnAdvice(
        trim=given.trim.text,
        longest_session_h=_half_hours_below(burnt.session_limit_h),
        stop_at=given.stop_at.text,
        apart=given.apart.text,
        clear_of=given.clear_of.text if given.clear_of else None,
        first_burn_h=_first_burn_h(burnt),
        cool_down_h=COOL_DOWN_H,
    )


def _half_hours_below(hours: float) -> float:
    """Half an hour at least: no paper advises a longer burn than the figures do."""
    return max(1, floor(hours * 2)) / 2


def _first_burn_h(burnt: Burnt) -> float:
    """To the nearest half hour, within the longest burn: too short a first burn leaves wax at the edge."""
    nearest = max(1, floor(burnt.first.hours * 2 + 0.5)) / 2
    return min(nearest, _half_hours_below(burnt.session_limit_h))


def _parts(made: Made) -> Iterator[PartFacts]:
    formula = made.build.formula
    names = {
        **{portion.material.id: portion.material.name for portion in formula.waxes},
        **{portion.material.id: portion.material.name for portion in stirred_in(formula)},
    }
    for part in made.blend.parts:
        yield PartFacts(
            id=part.id,
            name=names[part.id],
            role=part.role.value,
            of_wax_percent=made.blend.of_wax_percent(part),
            of_total_percent=made.blend.of_total_percent(part),
        )


def _contains(recorded: Recorded) -> Iterator[str]:
    formula = recorded.build.formula
    declared_as = dict.fromkeys(
        name for portion in formula.waxes for name in portion.material.declared_as or (portion.material.name,)
    )
    yield from declared_as
    for portions in (formula.fragrances, formula.additives, formula.dyes):
        yield from (portion.material.name for portion in portions)
