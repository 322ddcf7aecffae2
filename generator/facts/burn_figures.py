"""How hours, first burn and longest session of a candle were worked out, line by line."""

from collections.abc import Iterator, Sequence
from math import floor

from generator.facts.burnt import Burnt
from generator.facts.facts import Figure, Input
from generator.facts.made import Made
from generator.facts.weight_figures import wax_volume_term
from generator.model.kinds import KINDS
from generator.model.markets import Market
from generator.model.quantities import MM_PER_INCH
from generator.model.recorded import Recorded
from generator.rules.burning.fuel import FASTEST_UNTESTED_G_PER_H, SHARED_HEAT
from generator.rules.burning.guidance import LONGEST_SESSION_H, general_advice
from generator.rules.burning.heat import flame_heat_w
from generator.rules.burning.pieces import Piece
from generator.rules.burning.rates import DRIFT, RateEstimate


def burn_figures(recorded: Recorded, made: Made, burnt: Burnt) -> Iterator[Figure]:
    """From the stop depth to the hours, and what the papers advise."""
    if KINDS[recorded.kind].has_stop_line:
        yield _stop_depth(recorded.markets, burnt)
    yield from _burnable(recorded, burnt)
    estimate = burnt.hours.estimate
    if estimate is not None:
        yield from _rates(burnt.hours.pieces, estimate)
    yield from _hours(burnt)
    yield from _printed_hours(recorded, burnt)
    yield _first_burn(burnt)
    yield _session_limit(recorded, burnt)
    yield _heat(made, burnt)


def _stop_depth(markets: Sequence[Market], burnt: Burnt) -> Figure:
    inputs = tuple(
        Input(name=f"stop_{market}_mm", value=general_advice(market).stop_at.mm, unit="mm")
        for market in markets
    )
    return Figure(
        name="stop_depth_mm",
        label="stop_depth",
        value=burnt.fuel.stop_depth_mm,
        unit="mm",
        formula=_of_several("max", [item.name for item in inputs]),
        inputs=inputs,
        source="markets",
    )


def _burnable(recorded: Recorded, burnt: Burnt) -> Iterator[Figure]:
    fuel = burnt.fuel
    term = wax_volume_term(recorded, "stop_depth_mm", fuel.stop_depth_mm)
    yield Figure(
        name="heel_volume_ml",
        label="heel_volume",
        value=fuel.heel_ml,
        unit="ml",
        formula=f"max(0, {term.formula})",
        inputs=term.inputs,
        source="heel",
    )
    net = Input(name="net_weight_g", value=fuel.net_g, unit="g")
    yield Figure(
        name="heel_g",
        label="heel",
        value=fuel.heel_g,
        unit="g",
        formula="net_weight_g * heel_volume_ml / fill_volume_ml",
        inputs=(
            net,
            Input(name="heel_volume_ml", value=fuel.heel_ml, unit="ml"),
            Input(name="fill_volume_ml", value=fuel.fill_ml, unit="ml"),
        ),
        source="heel",
    )
    yield Figure(
        name="burnable_g",
        label="burnable",
        value=fuel.burnable_g,
        unit="g",
        formula="net_weight_g - heel_g",
        inputs=(net, Input(name="heel_g", value=fuel.heel_g, unit="g")),
        source="heel",
    )


def _rates(pieces: Sequence[Piece], estimate: RateEstimate) -> Iterator[Figure]:
    numbers = range(1, len(pieces) + 1)
    lost = [
        Input(name=f"lost_{n}_g", value=piece.loss_g, unit="g", shown="private")
        for n, piece in zip(numbers, pieces, strict=True)
    ]
    hours = [
        Input(name=f"burnt_{n}_h", value=piece.hours, unit="h", shown="private")
        for n, piece in zip(numbers, pieces, strict=True)
    ]
    yield Figure(
        name="rate_g_per_h",
        label="rate",
        value=estimate.rate_g_per_h,
        unit="g/h",
        formula=f"({_sum(lost)}) / ({_sum(hours)})",
        inputs=(*lost, *hours),
        source="tested",
    )
    rates = [
        Input(name=f"rate_{n}_g_per_h", value=piece.rate_g_per_h, unit="g/h", shown="private")
        for n, piece in zip(numbers, pieces, strict=True)
    ]
    yield from _spread(rates, estimate)
    yield from _drift(estimate)
    yield _high_rate(estimate)


def _spread(rates: Sequence[Input], estimate: RateEstimate) -> Iterator[Figure]:
    rate = Input(name="rate_g_per_h", value=estimate.rate_g_per_h, unit="g/h")
    least = f"{estimate.least_spread:g} * rate_g_per_h"
    formula, inputs = least, [rate]
    if estimate.deviation is not None:
        yield _deviation(rates, estimate.deviation)
        deviation = Input(
            name="rate_deviation_g_per_h", value=estimate.deviation, unit="g/h", shown="private"
        )
        formula, inputs = f"max(rate_deviation_g_per_h, {least})", [deviation, rate]
    yield Figure(
        name="rate_spread_g_per_h",
        label="rate_spread",
        value=estimate.spread,
        unit="g/h",
        formula=formula,
        inputs=tuple(inputs),
        source="tested",
    )


def _deviation(rates: Sequence[Input], deviation: float) -> Figure:
    mean = f"({_sum(rates)}) / {len(rates)}"
    squares = " + ".join(f"({item.name} - {mean})^2" for item in rates)
    return Figure(
        name="rate_deviation_g_per_h",
        label="rate_deviation",
        value=deviation,
        unit="g/h",
        formula=f"sqrt(({squares}) / {len(rates) - 1})",
        inputs=tuple(rates),
        source="tested",
        shown="private",
    )


def _drift(estimate: RateEstimate) -> Iterator[Figure]:
    """Only where part of a life was seen; else nothing drifts."""
    if estimate.drift == 1:
        return
    yield Figure(
        name="drift",
        label="drift",
        value=estimate.drift,
        unit="",
        formula=f"1 + {DRIFT} * (1 - coverage)",
        inputs=(Input(name="coverage", value=estimate.coverage, unit=""),),
        source="drift",
    )


def _high_rate(estimate: RateEstimate) -> Figure:
    rate = Input(name="rate_g_per_h", value=estimate.rate_g_per_h, unit="g/h")
    spread = Input(name="rate_spread_g_per_h", value=estimate.spread, unit="g/h")
    factor = Input(name="factor", value=estimate.factor, unit="")
    drift = Input(name="drift", value=estimate.drift, unit="")
    return Figure(
        name="rate_high_g_per_h",
        label="rate_high",
        value=estimate.rate_high_g_per_h,
        unit="g/h",
        formula="(rate_g_per_h + factor * rate_spread_g_per_h) * drift",
        inputs=(rate, factor, spread, drift),
        source="careful",
    )


def _hours(burnt: Burnt) -> Iterator[Figure]:
    hours, estimate = burnt.hours, burnt.hours.estimate
    if hours.claim_h is None:
        return
    burnable = Input(name="burnable_g", value=burnt.fuel.burnable_g, unit="g")
    if estimate is None or hours.basis == "thin test":
        yield _untested_hours(burnt, burnable)
    if estimate is None:
        return
    if hours.least_life_h is not None:
        yield _least_life(burnt, burnable, hours.least_life_h)
    yield _claim(burnt, estimate, hours.claim_h)
    if hours.mean_h is not None:
        yield _mean(burnable, estimate, hours.mean_h)


def _claim(burnt: Burnt, estimate: RateEstimate, claim_h: int) -> Figure:
    """The least of what the rate gives, the shortest-lived piece gave, and, for a thin test, the untested hours."""
    least_life_h, untested_h = burnt.hours.least_life_h, burnt.hours.band.low_h
    limits = [Input(name="least_life_h", value=least_life_h, unit="h")] if least_life_h is not None else []
    if burnt.hours.basis == "thin test":
        limits.append(Input(name="untested_h", value=untested_h, unit="h"))
    terms = ["burnable_g / rate_high_g_per_h", *(limit.name for limit in limits)]
    return Figure(
        name="claim_h",
        label="claim",
        value=claim_h,
        unit="h",
        formula=f"floor({_of_several('min', terms)})",
        inputs=(
            Input(name="burnable_g", value=burnt.fuel.burnable_g, unit="g"),
            Input(name="rate_high_g_per_h", value=estimate.rate_high_g_per_h, unit="g/h"),
            *limits,
        ),
        source="tested",
    )


def _mean(burnable: Input, estimate: RateEstimate, mean_h: float) -> Figure:
    return Figure(
        name="mean_h",
        label="mean",
        value=mean_h,
        unit="h",
        formula="burnable_g / (rate_g_per_h * drift)",
        inputs=(
            burnable,
            Input(name="rate_g_per_h", value=estimate.rate_g_per_h, unit="g/h"),
            Input(name="drift", value=estimate.drift, unit=""),
        ),
        source="tested",
    )


def printed_claim_h(recorded: Recorded, burnt: Burnt) -> int | None:
    """The hours that papers print: what the figures carry, or the maker's own lower figure."""
    carried_h, own_h = burnt.hours.claim_h, recorded.claim_hours
    return carried_h if carried_h is None or own_h is None else min(carried_h, floor(own_h))


def _printed_hours(recorded: Recorded, burnt: Burnt) -> Iterator[Figure]:
    printed_h, carried_h, own_h = printed_claim_h(recorded, burnt), burnt.hours.claim_h, recorded.claim_hours
    if printed_h is None or carried_h is None or own_h is None:
        return
    carried = "untested_h" if burnt.hours.estimate is None else "claim_h"
    yield Figure(
        name="printed_h",
        label="printed",
        value=printed_h,
        unit="h",
        formula=f"min({carried}, floor(claim_hours))",
        inputs=(
            Input(name=carried, value=carried_h, unit="h"),
            Input(name="claim_hours", value=own_h, unit="h", origin=("claim_hours",)),
        ),
        source="own_figure",
    )


def _untested_hours(burnt: Burnt, burnable: Input) -> Figure:
    shared = f" * {SHARED_HEAT}" if burnt.wicks > 1 else ""
    return Figure(
        name="untested_h",
        label="untested",
        value=burnt.hours.band.low_h,
        unit="h",
        formula=f"floor(burnable_g / ({FASTEST_UNTESTED_G_PER_H} * wicks{shared}))",
        inputs=(burnable, Input(name="wicks", value=burnt.wicks, unit="")),
        source="untested",
    )


def _least_life(burnt: Burnt, burnable: Input, least_life_h: float) -> Figure:
    lives = [(n, piece) for n, piece in enumerate(burnt.hours.pieces, start=1) if piece.life_h is not None]
    inputs = [
        item
        for n, piece in lives
        for item in (
            Input(name=f"burnt_{n}_h", value=piece.hours, unit="h", shown="private"),
            Input(name=f"lost_{n}_g", value=piece.loss_g, unit="g", shown="private"),
        )
    ]
    terms = [f"burnt_{n}_h * burnable_g / lost_{n}_g" for n, _ in lives]
    return Figure(
        name="least_life_h",
        label="least_life",
        value=least_life_h,
        unit="h",
        formula=_of_several("min", terms),
        inputs=(burnable, *inputs),
        source="tested",
    )


def _first_burn(burnt: Burnt) -> Figure:
    limit = Input(name="session_limit_h", value=burnt.session_limit_h, unit="h")
    if burnt.first.timed:
        formula, source = "full_pool_h", "timed"
        inputs = [Input(name="full_pool_h", value=burnt.first.asked_h, unit="h")]
    else:
        formula = f"surface_mm / sqrt(wicks) / {MM_PER_INCH}"
        source = "hour_an_inch"
        inputs = [
            Input(name="surface_mm", value=burnt.surface_mm, unit="mm"),
            Input(name="wicks", value=burnt.wicks, unit=""),
        ]
    return Figure(
        name="first_burn_h",
        label="first_burn",
        value=burnt.first.hours,
        unit="h",
        formula=f"min({formula}, session_limit_h)",
        inputs=(*inputs, limit),
        source=source,
    )


def _session_limit(recorded: Recorded, burnt: Burnt) -> Figure:
    limits = (
        ("usual_limit_h", LONGEST_SESSION_H),
        ("longest_tested_h", burnt.longest_tested_h),
        ("own_limit_h", recorded.longest_session_h),
    )
    inputs = tuple(Input(name=name, value=value, unit="h") for name, value in limits if value is not None)
    return Figure(
        name="session_limit_h",
        label="session_limit",
        value=burnt.session_limit_h,
        unit="h",
        formula=_of_several("min", [item.name for item in inputs]),
        inputs=inputs,
        source="session_limit",
    )


def flame_rate_g_per_h(burnt: Burnt) -> float:
    """The rate that the heat is worked out from: tested, or the fast one of the untested band."""
    return burnt.rate_g_per_h or burnt.hours.band.rate_high_g_per_h


def _heat(made: Made, burnt: Burnt) -> Figure:
    rate = flame_rate_g_per_h(burnt)
    return Figure(
        name="heat_w",
        label="heat",
        value=flame_heat_w(rate, made.lhv_mj_per_kg),
        unit="W",
        formula="flame_rate_g_per_h * lhv_mj_per_kg / 3.6",
        inputs=(
            Input(name="flame_rate_g_per_h", value=rate, unit="g/h"),
            Input(name="lhv_mj_per_kg", value=made.lhv_mj_per_kg, unit="MJ/kg", shown="private"),
        ),
        source="heat",
        shown="private",
    )


def _of_several(function: str, terms: Sequence[str]) -> str:
    """The least or the most of the terms; a single one needs no function."""
    return f"{function}({', '.join(terms)})" if len(terms) > 1 else terms[0]


def _sum(inputs: Sequence[Input]) -> str:
    return " + ".join(item.name for item in inputs)
