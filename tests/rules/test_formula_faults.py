"""Limits of fragrance, and amounts and densities of a formula that cannot be true."""

from dataclasses import replace
from decimal import Decimal
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.amounts import Basis, Share
from generator.model.materials import Additive, Fragrance, WaxDensity
from generator.model.quantities import DensityAt
from generator.model.recorded import Formula
from generator.problems import Fault, Severity
from generator.rules.wax.blend import resolve
from tests.rules.entries import COCONUT, DYE, OIL, SOY, UV_ABSORBER, formula

SHARES = st.decimals(min_value=0, max_value=30, places=2)
WEIGHTS = st.decimals(min_value=1, max_value=5000, places=1)


def share_of(written: str) -> Share:
    percent, _, basis = written.partition(" % ")
    return Share(Decimal(percent), Basis(basis))


class TestLimits:
    @pytest.mark.parametrize(
        ("limit", "amount"),
        [("10 % of wax", "100 g"), ("9 % of total", "9 % of total"), ("8 % of total", "80 g")],
        ids=["of wax", "of total", "below"],
    )
    def test_fragrance_up_to_the_limit_of_the_wax_is_allowed(self, limit: str, amount: str) -> None:
        wax = replace(SOY, most_fragrance=share_of(limit))

        _, faults = resolve(formula({wax: "1000 g"}, {OIL: amount}))

        assert faults == ()

    def test_fragrance_above_the_limit_of_the_wax_is_an_error(self) -> None:
        wax = replace(SOY, most_fragrance=share_of("10 % of wax"))

        blend, faults = resolve(formula({wax: "1000 g"}, {OIL: "101 g"}))

        assert blend is not None
        assert faults == (
            Fault(
                path=("formula", "oil"),
                what="oil is 10.1 % of wax, more than the 10 % of wax that soy can hold",
                why="excess oil sweats out of the wax and can flare",
                fix="oil: at most 10 % of wax",
            ),
        )

    def test_two_waxes_hold_what_each_of_them_holds_and_two_oils_count_together(self) -> None:
        waxes = {
            replace(COCONUT, most_fragrance=share_of("12 % of wax")): "250 g",
            replace(SOY, most_fragrance=share_of("8 % of wax")): "750 g",
        }
        other = replace(OIL, id="other")

        _, within = resolve(formula(waxes, {OIL: "40 g", other: "50 g"}))
        _, above = resolve(formula(waxes, {OIL: "40 g", other: "50.1 g"}))

        assert within == ()
        assert [fault.what for fault in above] == [
            "oil and other together are 9.01 % of wax, more than the 9 % of wax that coconut and soy can hold"
        ]
        assert [(fault.path, fault.fix) for fault in above] == [
            (("formula", "other"), "other: at most 9 % of wax together")
        ]

    def test_waxes_with_limits_on_different_bases_are_counted_on_the_wax(self) -> None:
        """By hand: 500 g hold 10 % of 500 g; the other 500 g hold 8 % of half the total, 0.08 * 0.5 * 1093.75 g."""
        waxes = {
            replace(COCONUT, most_fragrance=share_of("10 % of wax")): "500 g",
            replace(SOY, most_fragrance=share_of("8 % of total")): "500 g",
        }

        _, within = resolve(formula(waxes, {OIL: "93.75 g"}))
        _, above = resolve(formula(waxes, {OIL: "93.76 g"}))

        assert within == ()
        assert [fault.fix for fault in above] == ["oil: at most 9.37 % of wax"]

    def test_a_wax_without_a_recorded_limit_says_nothing(self) -> None:
        waxes = {replace(COCONUT, most_fragrance=share_of("1 % of wax")): "500 g", SOY: "500 g"}

        _, faults = resolve(formula(waxes, {OIL: "200 g"}))

        assert faults == ()

    @pytest.mark.parametrize("amount", ["22 % of total", "21.99 % of total"])
    def test_fragrance_up_to_its_certificate_is_allowed(self, amount: str) -> None:
        oil = replace(OIL, ifra_category_12=share_of("22 % of total"))

        _, faults = resolve(formula({SOY: "1000 g"}, {oil: amount}))

        assert faults == ()

    def test_fragrance_above_its_certificate_is_an_error(self) -> None:
        oil = replace(OIL, ifra_category_12=share_of("5 % of total"))

        _, faults = resolve(formula({SOY: "1000 g"}, {oil: "5.01 % of total"}))

        assert faults == (
            Fault(
                path=("formula", "oil"),
                what="oil is 5.01 % of total, more than the 5 % of total of its IFRA certificate for category 12",
                why="the supplier vouches for the oil in a candle only up to that share",
                fix="oil: at most 5 % of total",
            ),
        )

    @pytest.mark.parametrize("certificate", [None, "no restriction"])
    def test_a_fragrance_without_restriction_has_no_limit(
        self, certificate: Literal["no restriction"] | None
    ) -> None:
        oil = replace(OIL, ifra_category_12=certificate)

        _, faults = resolve(formula({SOY: "1000 g"}, {oil: "300 g"}))

        assert faults == ()

    @settings(max_examples=50, deadline=None)
    @given(SHARES.filter(lambda percent: percent > 0), WEIGHTS)
    def test_exactly_at_a_limit_is_allowed_on_either_basis(self, percent: Decimal, wax: Decimal) -> None:
        for basis in Basis:
            limit = Share(percent, basis)
            limited = {replace(SOY, most_fragrance=limit): f"{wax} g"}
            oil = replace(OIL, ifra_category_12=limit)

            _, faults = resolve(formula(limited, {oil: f"{percent} % {basis.value}"}))

            assert faults == ()


UNWEIGHED_DYE = replace(DYE, drop_g=None, block_g=None)
UNWEIGHED_UV: Additive = replace(UV_ABSORBER, teaspoon_g=None)
UNKNOWN_OIL: Fragrance = replace(OIL, density_g_per_ml=None)
AMOUNTS_AT_FAULT: dict[str, tuple[Formula, tuple[str, ...], str, str, str]] = {
    "no wax": (
        formula({}, {OIL: "80 g"}),
        (),
        "the recipe has no wax",
        "every share is of the wax or of the total",
        "add a wax and its amount, as {...: ... g}",
    ),
    "wax of no weight": (
        formula({SOY: "0 g"}, {OIL: "80 g"}),
        ("soy",),
        "soy is given as 0 g, but there is no other wax",
        "every share is of the wax or of the total",
        "soy: ... g",
    ),
    "wax as a share": (
        formula({SOY: "92 % of total"}, {OIL: "80 g"}),
        ("soy",),
        "soy is given as 92 % of total, but it is a wax",
        "the shares of the others are of the wax, so the wax itself must be weighed",
        "soy: ... g, or ... parts",
    ),
    "waxes in parts and in grams": (
        formula({COCONUT: "300 g", SOY: "70 parts"}),
        ("soy",),
        "soy is in parts, but coconut is weighed",
        "a part has no weight of its own, so the wax blend is unknown",
        "give all waxes in parts, or all in grams",
    ),
    "fragrance in parts": (
        formula({SOY: "92 parts"}, {OIL: "8 parts"}),
        ("oil",),
        "oil is given as 8 parts, but it is not a wax",
        "parts are for waxes only",
        "oil: ... g, or ... % of wax",
    ),
    "fragrance in drops": (
        formula({SOY: "1000 g"}, {OIL: "40 drops"}),
        ("oil",),
        "oil is given as 40 drops, but it is a fragrance",
        "hazard limits are in grams",
        "oil: ... g, or ... % of wax",
    ),
    "millilitres without density": (
        formula({SOY: "1000 g"}, None, {UV_ABSORBER: "5 ml"}),
        ("uv",),
        "uv is given as 5 ml, but its entry has no density",
        "hazard limits are in grams, and oils range from 0.85 to 1.10 g/ml",
        "density: as in the supplier's sheet, in the entry of uv",
    ),
    "drops nobody weighed": (
        formula({SOY: "1000 g"}, None, None, {UNWEIGHED_DYE: "6 drops"}),
        ("slate",),
        "slate is given as 6 drops, but its entry does not give the weight of a drop",
        "drops differ between bottles, and hazard limits are in grams",
        "drop: weigh ten and enter a tenth, in the entry of slate",
    ),
    "teaspoons nobody weighed": (
        formula({SOY: "1000 g"}, None, {UNWEIGHED_UV: "0.75 US tsp"}),
        ("uv",),
        "uv is given as 0.75 US tsp, but its entry does not give the weight of a teaspoon",
        "a level teaspoon of powder weighs 2.5 to 5.5 g, a factor of two on the safety sheet",
        "teaspoon: weigh ten and enter a tenth, in the entry of uv",
    ),
    "blocks nobody weighed": (
        formula({SOY: "1000 g"}, None, None, {UNWEIGHED_DYE: "1 block"}),
        ("slate",),
        "slate is given as 1 block, but its entry does not give the weight of a block",
        "blocks differ between suppliers, and hazard limits are in grams",
        "block: weigh ten and enter a tenth, in the entry of slate",
    ),
    "shares of the total that leave no room": (
        formula({SOY: "1000 g"}, {OIL: "60 % of total"}, {UV_ABSORBER: "40 % of total"}),
        ("uv",),
        "the shares of the total add up to 100 %",
        "there would be no room for the wax",
        "uv: a smaller share of the total",
    ),
}


def soy_of(set_g_per_ml: float, molten_g_per_ml: float, at_c: float) -> Formula:
    density = WaxDensity(set_g_per_ml=set_g_per_ml, molten=DensityAt(molten_g_per_ml, at_c))
    return formula({replace(SOY, density=density): "1000 g"})


DENSITY_WHY = "the net weight is calculated from it"
DENSITY_WRITE = "enter the density with its unit as the supplier gives it, in g/ml or kg/m3"
WAX_WRITE = "density: {set: ... g/ml, molten: ... g/ml at ... C}, as the supplier gives them"
DENSITIES_AT_FAULT: dict[str, tuple[Formula, str, str, str]] = {
    "no lighter when molten": (
        soy_of(0.87, 0.87, 75.0),
        "soy is 0.87 g/ml molten and 0.87 g/ml set",
        "wax shrinks as it sets, so set wax is denser",
        WAX_WRITE,
    ),
    "molten at a room's temperature": (
        soy_of(0.90, 0.87, 20.0),
        "soy records its molten density at 20 C, not between 30 and 120 C",
        "the weight of a hot pour is calculated from it",
        WAX_WRITE,
    ),
    "ten times too heavy": (
        soy_of(9.0, 0.87, 75.0),
        "the set density of soy is 9 g/ml, not between 0.5 and 5 g/ml",
        DENSITY_WHY,
        DENSITY_WRITE,
    ),
    "ten times too light when molten": (
        soy_of(0.90, 0.087, 75.0),
        "the molten density of soy is 0.087 g/ml, not between 0.5 and 5 g/ml",
        DENSITY_WHY,
        DENSITY_WRITE,
    ),
}


class TestAmountsAndDensitiesThatCannotBeTrue:
    @pytest.mark.parametrize(
        ("recorded", "at", "what", "why", "fix"), AMOUNTS_AT_FAULT.values(), ids=AMOUNTS_AT_FAULT.keys()
    )
    def test_an_amount_that_does_not_say_how_much_is_an_error(
        self, recorded: Formula, at: tuple[str, ...], what: str, why: str, fix: str
    ) -> None:
        blend, faults = resolve(recorded)

        assert blend is None
        assert faults == (Fault(path=("formula", *at), what=what, why=why, fix=fix),)

    @pytest.mark.parametrize(
        ("recorded", "what", "why", "fix"), DENSITIES_AT_FAULT.values(), ids=DENSITIES_AT_FAULT.keys()
    )
    def test_a_density_that_no_wax_has_is_an_error(
        self, recorded: Formula, what: str, why: str, fix: str
    ) -> None:
        blend, faults = resolve(recorded)

        assert blend is None
        assert faults == (Fault(path=("entry", "soy", "density"), what=what, why=why, fix=fix),)

    def test_the_density_of_what_is_stirred_in_is_looked_at_too(self) -> None:
        _, faults = resolve(formula({SOY: "1000 g"}, {replace(OIL, density_g_per_ml=0.0): "80 g"}))

        assert [(fault.path, fault.what) for fault in faults] == [
            (("entry", "oil", "density"), "the density of oil is 0 g/ml, not between 0.5 and 5 g/ml")
        ]

    def test_a_fragrance_without_density_is_a_warning(self) -> None:
        blend, faults = resolve(formula({SOY: "1000 g"}, {UNKNOWN_OIL: "80 g"}))

        assert blend is not None
        assert faults == (
            Fault(
                path=("entry", "oil"),
                what="oil has no density; 0.98 g/ml is assumed",
                why="oils range from 0.85 to 1.10 g/ml, so the net weight may be 1 % out",
                fix="density: as in section 9 of the supplier's safety data sheet",
                severity=Severity.WARNING,
            ),
        )

    def test_all_faults_of_a_formula_are_told_at_once(self) -> None:
        _, faults = resolve(formula({SOY: "1000 g"}, {UNKNOWN_OIL: "40 drops"}, {UNWEIGHED_UV: "1 US tsp"}))

        assert [fault.path[1] for fault in faults] == ["oil", "uv", "oil"]
