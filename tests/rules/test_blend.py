"""The formula as one batch: weights, fragrance load, densities, heat, and amounts that do not say how much."""

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
from generator.rules.blend import (
    BlendPart,
    Role,
    density_molten_g_per_ml,
    density_set_g_per_ml,
    lhv_mj_per_kg,
    mean_mj_per_kg,
    resolve,
)
from generator.rules.density import harmonic_g_per_ml, hot_oil_g_per_ml, molten_wax_g_per_ml, pour_fault
from tests.references import BLENDS_G_PER_ML, LOADS_PERCENT, Printed
from tests.rules.entries import COCONUT, DYE, OIL, SCENTED_SOY, SOY, UV_ABSORBER, blended, formula

SHARES = st.decimals(min_value=0, max_value=30, places=2)
WEIGHTS = st.decimals(min_value=1, max_value=5000, places=1)


def part(id_: str, role: Role, grams: str) -> BlendPart:
    return BlendPart(id=id_, role=role, grams=Decimal(grams))


class TestWeights:
    def test_parts_are_sorted_by_role_and_then_by_id(self) -> None:
        recorded = formula(
            {SOY: "700 g", COCONUT: "300 g"}, {OIL: "80 g"}, {UV_ABSORBER: "3 g"}, {DYE: "1 g"}
        )

        assert blended(recorded).parts == (
            part("coconut", Role.WAX, "300"),
            part("soy", Role.WAX, "700"),
            part("oil", Role.FRAGRANCE, "80"),
            part("uv", Role.ADDITIVE, "3"),
            part("slate", Role.DYE, "1"),
        )

    def test_waxes_in_parts_share_out_1000_grams(self) -> None:
        blend = blended(formula({COCONUT: "1 part", SOY: "3 parts"}, {OIL: "8 % of wax"}))

        assert [p.grams for p in blend.parts] == [Decimal(250), Decimal(750), Decimal(80)]

    def test_counted_amounts_weigh_what_their_entry_records(self) -> None:
        block = replace(DYE, id="block")
        recorded = formula(
            {SOY: "1000 g"}, None, {UV_ABSORBER: "0.75 US tsp"}, {block: "2 blocks", DYE: "6 drops"}
        )

        weights = {p.id: p.grams for p in blended(recorded).parts}

        assert weights == {
            "soy": Decimal(1000),
            "uv": Decimal("2.325"),
            "block": Decimal(20),
            "slate": Decimal("0.18"),
        }

    def test_millilitres_weigh_what_the_density_says(self) -> None:
        blend = blended(formula({SOY: "1000 g"}, {OIL: "100 ml"}))

        assert blend.fragrance_g == Decimal(98)

    def test_shares_of_wax_and_of_total_are_solved_together(self) -> None:
        other = replace(OIL, id="other")
        recorded = formula({SOY: "880 g"}, {OIL: "5 % of wax", other: "4 % of total"}, {UV_ABSORBER: "36 g"})

        blend = blended(recorded)

        assert blend.total_g == Decimal(1000)
        assert [p.grams for p in blend.parts] == [Decimal(880), Decimal(44), Decimal(40), Decimal(36)]

    @settings(max_examples=50)
    @given(WEIGHTS, SHARES, SHARES)
    def test_a_share_comes_back_exactly_as_it_was_written(
        self, wax: Decimal, of_wax: Decimal, of_total: Decimal
    ) -> None:
        other = replace(OIL, id="other")
        recorded = formula({SOY: f"{wax} g"}, {OIL: f"{of_total} % of total", other: f"{of_wax} % of wax"})

        blend = blended(recorded)

        of_the_total, _ = (blend.of_total_percent(p) for p in blend.parts if p.role is Role.FRAGRANCE)
        assert of_the_total == of_total

    @settings(max_examples=20)
    @given(WEIGHTS, WEIGHTS, SHARES)
    def test_splitting_a_wax_in_two_changes_nothing(self, one: Decimal, other: Decimal, oil: Decimal) -> None:
        whole = blended(formula({SOY: f"{one + other} g"}, {OIL: f"{oil} % of total"}))

        split = blended(
            formula(
                {replace(SOY, id="a"): f"{one} g", replace(SOY, id="b"): f"{other} g"},
                {OIL: f"{oil} % of total"},
            )
        )

        assert (split.wax_g, split.fragrance_g) == (whole.wax_g, whole.fragrance_g)


class TestFragranceLoad:
    @pytest.mark.parametrize(
        ("written", "of_wax", "of_total"), LOADS_PERCENT.values(), ids=LOADS_PERCENT.keys()
    )
    def test_the_load_on_either_basis_is_that_of_the_reference(
        self, written: str, of_wax: Printed, of_total: Printed
    ) -> None:
        blend = blended(formula({SOY: "24 oz"}, {OIL: written}))

        assert of_wax.agrees_with(blend.fragrance_of_wax_percent)
        assert of_total.agrees_with(blend.fragrance_of_total_percent)

    def test_an_additive_counts_in_the_total_and_not_in_the_wax(self) -> None:
        blend = blended(formula({SOY: "900 g"}, {OIL: "90 g"}, {UV_ABSORBER: "10 g"}))

        assert blend.fragrance_of_wax_percent == Decimal(10)
        assert blend.fragrance_of_total_percent == Decimal(9)


class TestDensity:
    @pytest.mark.parametrize(("parts", "printed"), BLENDS_G_PER_ML.values(), ids=BLENDS_G_PER_ML.keys())
    def test_a_blend_is_as_dense_as_its_volumes_together(
        self, parts: tuple[tuple[float, float], ...], printed: Printed
    ) -> None:
        assert printed.agrees_with(harmonic_g_per_ml(parts))

    def test_the_arithmetic_mean_of_densities_is_not_the_density(self) -> None:
        far_apart = harmonic_g_per_ml([(50.0, 0.841), (50.0, 1.150)])

        assert Printed("0.9715218", "physics.md G6 (COMPUTED)").agrees_with(far_apart)
        assert not Printed("0.9955", "the wrong rule, physics.md G6 (COMPUTED)").agrees_with(far_apart)

    def test_a_recorded_formula_is_as_dense_as_the_reference_when_set(self) -> None:
        density = density_set_g_per_ml(SCENTED_SOY, blended(SCENTED_SOY))

        assert Printed("0.9062118", "physics.md G5 (COMPUTED)").agrees_with(density)

    def test_hot_wax_and_hot_oil_are_as_dense_as_the_reference(self) -> None:
        density = harmonic_g_per_ml([(1000.0, 0.870), (91.6667, 0.935)])

        assert Printed("0.8751084", "physics.md G7 (COMPUTED)").agrees_with(density)

    def test_a_recorded_formula_is_lighter_when_molten(self) -> None:
        """By hand: oil 0.980 - 0.0008 * 55 = 0.936; 1091.6667 / (1000/0.870 + 91.6667/0.936)."""
        density = density_molten_g_per_ml(SCENTED_SOY, blended(SCENTED_SOY), 75.0)

        assert density == pytest.approx(0.875182, abs=5e-7)

    def test_each_wax_is_moved_from_its_own_temperature(self) -> None:
        recorded = formula({SOY: "500 g", COCONUT: "500 g"})
        by_hand = 1000 / (500 / (0.870 * (1 - 7.5e-4 * 5)) + 500 / (0.880 * (1 - 7.5e-4 * 10)))

        assert density_molten_g_per_ml(recorded, blended(recorded), 80.0) == pytest.approx(by_hand, rel=1e-12)

    def test_a_pour_three_kelvin_hotter_moves_the_weight_by_two_to_three_thousandths(self) -> None:
        """Physics.md A2 (COMPUTED); 165 to 170 F is a step of 2.8 K."""
        blend = blended(SCENTED_SOY)
        cooler = density_molten_g_per_ml(SCENTED_SOY, blend, 75.0)

        hotter = density_molten_g_per_ml(SCENTED_SOY, blend, 78.0)

        assert 0.002 <= 1 - hotter / cooler <= 0.003

    @pytest.mark.parametrize(
        ("warm", "hot"),
        [(0.8939, 0.8795), (0.8839, 0.8686), (0.8949, 0.8795)],
        ids=["soybean", "rapeseed", "coconut"],
    )
    def test_molten_vegetable_oils_expand_as_measured(self, warm: float, hot: float) -> None:
        """60 and 82.2 degC of JAOCS 69 (1992) 1184 (FOUND, transcription); one coefficient for all, within 0.1 %."""
        ours = molten_wax_g_per_ml(DensityAt(warm, 60.0), 82.2)

        assert ours == pytest.approx(hot, rel=1e-3)

    @pytest.mark.parametrize("at_c", [29.9, 120.1], ids=["not molten", "smoking"])
    def test_a_temperature_at_which_no_wax_is_poured_is_refused(self, at_c: float) -> None:
        with pytest.raises(ValueError, match=r"is not between 30\.0 and 120\.0 C"):
            molten_wax_g_per_ml(DensityAt(0.87, 75.0), at_c)
        with pytest.raises(ValueError, match=r"is not between 30\.0 and 120\.0 C"):
            hot_oil_g_per_ml(0.98, at_c)

    def test_a_pour_at_the_ends_of_the_range_is_believed(self) -> None:
        assert [pour_fault(at_c, ("fill", "at")) for at_c in (30.0, 120.0)] == [None, None]

    def test_what_records_no_density_is_taken_at_its_default(self) -> None:
        recorded = formula(
            {SOY: "900 g"}, {replace(OIL, density_g_per_ml=None): "50 g"}, {UV_ABSORBER: "50 g"}
        )

        density = density_set_g_per_ml(recorded, blended(recorded))

        assert density == pytest.approx(1000 / (900 / 0.9 + 50 / 0.98 + 50 / 1.0), rel=1e-12)

    @settings(max_examples=20)
    @given(SHARES, st.floats(min_value=0.85, max_value=1.10))
    def test_a_blend_is_never_lighter_or_denser_than_its_parts(self, load: Decimal, density: float) -> None:
        recorded = formula({SOY: "1000 g"}, {replace(OIL, density_g_per_ml=density): f"{load} % of wax"})

        ours = density_set_g_per_ml(recorded, blended(recorded))

        assert min(0.9, density) - 1e-12 <= ours <= max(0.9, density) + 1e-12


class TestHeat:
    def test_the_heat_of_a_blend_is_that_of_the_reference(self) -> None:
        heat = mean_mj_per_kg([(1000.0, 37.45), (91.6667, 35.0)])

        assert Printed("37.24427", "physics.md G40 (COMPUTED)").agrees_with(heat)
        assert Printed("6.915866", "physics.md G40, MJ of 185.689 g (COMPUTED)").agrees_with(
            heat * 0.185689376
        )

    def test_a_recorded_heat_is_used(self) -> None:
        recorded = formula({replace(SOY, heat_mj_per_kg=37.45): "1000 g"}, {OIL: "91.6667 g"})

        heat = lhv_mj_per_kg(recorded, blended(recorded))

        assert Printed("37.24427", "physics.md G40 (COMPUTED)").agrees_with(heat)

    def test_what_records_no_heat_burns_like_paraffin(self) -> None:
        recorded = formula({SOY: "1000 g"}, None, {UV_ABSORBER: "5 g"}, {DYE: "1 g"})

        heat = lhv_mj_per_kg(recorded, blended(recorded))

        assert heat == pytest.approx(43.478, rel=1e-12)


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
                why="oil beyond that sweats out of the wax and can flare",
                write="oil: at most 10 % of wax",
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
        assert [(fault.path, fault.write) for fault in above] == [
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
        assert [fault.write for fault in above] == ["oil: at most 9.37 % of wax"]

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
                write="oil: at most 5 % of total",
            ),
        )

    @pytest.mark.parametrize("certificate", [None, "no restriction"])
    def test_a_fragrance_without_restriction_has_no_limit(
        self, certificate: Literal["no restriction"] | None
    ) -> None:
        oil = replace(OIL, ifra_category_12=certificate)

        _, faults = resolve(formula({SOY: "1000 g"}, {oil: "300 g"}))

        assert faults == ()

    @settings(max_examples=50)
    @given(SHARES.filter(lambda percent: percent > 0), WEIGHTS)
    def test_exactly_at_a_limit_is_allowed_on_either_basis(self, percent: Decimal, wax: Decimal) -> None:
        for basis in Basis:
            limit = Share(percent, basis)
            limited = {replace(SOY, most_fragrance=limit): f"{wax} g"}
            oil = replace(OIL, ifra_category_12=limit)

            _, faults = resolve(formula(limited, {oil: f"{percent} % {basis.value}"}))

            assert faults == ()


def share_of(written: str) -> Share:
    percent, _, basis = written.partition(" % ")
    return Share(Decimal(percent), Basis(basis))


UNWEIGHED_DYE = replace(DYE, drop_g=None, block_g=None)
UNWEIGHED_UV: Additive = replace(UV_ABSORBER, teaspoon_g=None)
UNKNOWN_OIL: Fragrance = replace(OIL, density_g_per_ml=None)
AMOUNTS_AT_FAULT: dict[str, tuple[Formula, tuple[str, ...], str, str, str]] = {
    "no wax": (
        formula({}, {OIL: "80 g"}),
        (),
        "the formula holds no wax",
        "every share is counted on the wax or on the total",
        "a wax and its amount, such as soy: 1000 g",
    ),
    "wax of no weight": (
        formula({SOY: "0 g"}, {OIL: "80 g"}),
        ("soy",),
        "soy is 0 g, and there is no other wax",
        "every share is counted on the wax or on the total",
        "soy: 1000 g",
    ),
    "wax as a share": (
        formula({SOY: "92 % of total"}, {OIL: "80 g"}),
        ("soy",),
        "soy is written as 92 % of total, and it is a wax",
        "the shares of the others are counted on the wax, so the wax itself must be weighed",
        "soy: its weight such as 1000 g, or 70 parts",
    ),
    "waxes in parts and in grams": (
        formula({COCONUT: "300 g", SOY: "70 parts"}),
        ("soy",),
        "soy is in parts and coconut is weighed",
        "a part has no weight of its own, so the blend of the waxes is unknown",
        "all waxes in parts, or all in grams",
    ),
    "fragrance in parts": (
        formula({SOY: "92 parts"}, {OIL: "8 parts"}),
        ("oil",),
        "oil is written as 8 parts, and it is no wax",
        "parts share out the wax alone",
        "oil: its weight in grams, or a share such as 8.5 % of wax",
    ),
    "fragrance in drops": (
        formula({SOY: "1000 g"}, {OIL: "40 drops"}),
        ("oil",),
        "oil is written as 40 drops, and it is a fragrance",
        "hazard limits count grams",
        "oil: its weight in grams, or a share such as 8.5 % of wax",
    ),
    "millilitres without density": (
        formula({SOY: "1000 g"}, None, {UV_ABSORBER: "5 ml"}),
        ("uv",),
        "uv is written as 5 ml, and its entry records no density",
        "hazard limits count grams, and oils lie between 0.85 and 1.10 g/ml",
        "density: as the supplier's sheet gives it, such as 0.98 g/ml, in the entry of uv",
    ),
    "drops nobody weighed": (
        formula({SOY: "1000 g"}, None, None, {UNWEIGHED_DYE: "6 drops"}),
        ("slate",),
        "slate is written as 6 drops, and its entry records no weight of a drop",
        "drops differ between bottles, and hazard limits count grams",
        "drop: weigh ten once and write a tenth, such as 0.03 g, in the entry of slate",
    ),
    "teaspoons nobody weighed": (
        formula({SOY: "1000 g"}, None, {UNWEIGHED_UV: "0.75 US tsp"}),
        ("uv",),
        "uv is written as 0.75 US tsp, and its entry records no weight of a teaspoon",
        "a level teaspoon of powder weighs 2.5 to 5.5 g, a factor of two on the safety sheet",
        "teaspoon: weigh ten once and write a tenth, such as 3.1 g, in the entry of uv",
    ),
    "blocks nobody weighed": (
        formula({SOY: "1000 g"}, None, None, {UNWEIGHED_DYE: "1 block"}),
        ("slate",),
        "slate is written as 1 block, and its entry records no weight of a block",
        "blocks differ between suppliers, and hazard limits count grams",
        "block: weigh ten once and write a tenth, such as 10 g, in the entry of slate",
    ),
    "shares of the total that leave no room": (
        formula({SOY: "1000 g"}, {OIL: "60 % of total"}, {UV_ABSORBER: "40 % of total"}),
        ("uv",),
        "the shares of the total add up to 100 %",
        "there would be no room for the wax",
        "uv: a smaller share, such as 7.8 % of total",
    ),
}


def soy_of(set_g_per_ml: float, molten_g_per_ml: float, at_c: float) -> Formula:
    density = WaxDensity(set_g_per_ml=set_g_per_ml, molten=DensityAt(molten_g_per_ml, at_c))
    return formula({replace(SOY, density=density): "1000 g"})


DENSITY_WHY = "the net weight is worked out from it"
DENSITY_WRITE = "the density with its unit as the supplier gives it, such as 0.90 g/ml or 900 kg/m3"
WAX_WRITE = "density: {set: 0.90 g/ml, molten: 0.87 g/ml at 75 C}, as the supplier gives them"
DENSITIES_AT_FAULT: dict[str, tuple[Formula, str, str, str]] = {
    "no lighter when molten": (
        soy_of(0.87, 0.87, 75.0),
        "soy is 0.87 g/ml molten and 0.87 g/ml set",
        "wax shrinks as it sets, so the set wax is the denser",
        WAX_WRITE,
    ),
    "molten at a room's temperature": (
        soy_of(0.90, 0.87, 20.0),
        "soy records its molten density at 20 C, not between 30 and 120 C",
        "the weight of a hot pour is worked out from it",
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
        ("recorded", "at", "what", "why", "write"), AMOUNTS_AT_FAULT.values(), ids=AMOUNTS_AT_FAULT.keys()
    )
    def test_an_amount_that_does_not_say_how_much_is_an_error(
        self, recorded: Formula, at: tuple[str, ...], what: str, why: str, write: str
    ) -> None:
        blend, faults = resolve(recorded)

        assert blend is None
        assert faults == (Fault(path=("formula", *at), what=what, why=why, write=write),)

    @pytest.mark.parametrize(
        ("recorded", "what", "why", "write"), DENSITIES_AT_FAULT.values(), ids=DENSITIES_AT_FAULT.keys()
    )
    def test_a_density_that_no_wax_has_is_an_error(
        self, recorded: Formula, what: str, why: str, write: str
    ) -> None:
        blend, faults = resolve(recorded)

        assert blend is None
        assert faults == (Fault(path=("formula", "soy"), what=what, why=why, write=write),)

    def test_the_density_of_what_is_stirred_in_is_looked_at_too(self) -> None:
        _, faults = resolve(formula({SOY: "1000 g"}, {replace(OIL, density_g_per_ml=0.0): "80 g"}))

        assert [(fault.path, fault.what) for fault in faults] == [
            (("formula", "oil"), "the density of oil is 0 g/ml, not between 0.5 and 5 g/ml")
        ]

    def test_a_fragrance_without_density_is_a_warning(self) -> None:
        blend, faults = resolve(formula({SOY: "1000 g"}, {UNKNOWN_OIL: "80 g"}))

        assert blend is not None
        assert faults == (
            Fault(
                path=("formula", "oil"),
                what="oil records no density; 0.98 g/ml is taken",
                why="oils lie between 0.85 and 1.10 g/ml, so the net weight may be 1 % off",
                write="density: as section 9 of the supplier's safety data sheet gives it, such as 0.98 g/ml",
                severity=Severity.WARNING,
            ),
        )

    def test_all_faults_of_a_formula_are_told_at_once(self) -> None:
        _, faults = resolve(formula({SOY: "1000 g"}, {UNKNOWN_OIL: "40 drops"}, {UNWEIGHED_UV: "1 US tsp"}))

        assert [fault.path[1] for fault in faults] == ["oil", "uv", "oil"]
