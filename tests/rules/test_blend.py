"""The formula as one batch: weights, fragrance load, densities and heat."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.quantities import DensityAt
from generator.model.recorded import Role
from generator.rules.calculation import Number
from generator.rules.wax.blend import mean_mj_per_kg
from generator.rules.wax.density import blend_density, hot_oil_g_per_ml, molten_wax_g_per_ml, pour_fault
from tests.references import BLENDS_G_PER_ML, LOADS_PERCENT, Printed
from tests.rules.entries import COCONUT, DYE, OIL, SCENTED_SOY, SOY, UV_ABSORBER, blended, formula

SHARES = st.decimals(min_value=0, max_value=30, places=2)
WEIGHTS = st.decimals(min_value=1, max_value=5000, places=1)


def density_of(*parts: tuple[float, float]) -> float:
    return blend_density({f"part_{number}": part for number, part in enumerate(parts)}).value


class TestWeights:
    def test_parts_are_sorted_by_role_and_then_by_id(self) -> None:
        recorded = formula(
            {SOY: "700 g", COCONUT: "300 g"}, {OIL: "80 g"}, {UV_ABSORBER: "3 g"}, {DYE: "1 g"}
        )

        assert [(part.id, part.role, part.grams) for part in blended(recorded).parts] == [
            ("coconut", Role.WAX, Decimal(300)),
            ("soy", Role.WAX, Decimal(700)),
            ("oil", Role.FRAGRANCE, Decimal(80)),
            ("uv", Role.ADDITIVE, Decimal(3)),
            ("slate", Role.DYE, Decimal(1)),
        ]

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

    @settings(max_examples=50, deadline=None)
    @given(WEIGHTS, SHARES, SHARES)
    def test_a_share_comes_back_exactly_as_it_was_written(
        self, wax: Decimal, of_wax: Decimal, of_total: Decimal
    ) -> None:
        other = replace(OIL, id="other")
        recorded = formula({SOY: f"{wax} g"}, {OIL: f"{of_total} % of total", other: f"{of_wax} % of wax"})

        blend = blended(recorded)

        of_the_total, _ = (blend.of_total_percent(p) for p in blend.parts if p.role is Role.FRAGRANCE)
        assert of_the_total == of_total

    @settings(max_examples=20, deadline=None)
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
        assert printed.agrees_with(density_of(*parts))

    def test_the_arithmetic_mean_of_densities_is_not_the_density(self) -> None:
        far_apart = density_of((50.0, 0.841), (50.0, 1.150))

        assert Printed("0.9715218", "physics.md G6 (COMPUTED)").agrees_with(far_apart)
        assert not Printed("0.9955", "the wrong rule, physics.md G6 (COMPUTED)").agrees_with(far_apart)

    def test_a_recorded_formula_is_as_dense_as_the_reference_when_set(self) -> None:
        density = blended(SCENTED_SOY).density_set.value

        assert Printed("0.9062118", "physics.md G5 (COMPUTED)").agrees_with(density)

    def test_hot_wax_and_hot_oil_are_as_dense_as_the_reference(self) -> None:
        density = density_of((1000.0, 0.870), (91.6667, 0.935))

        assert Printed("0.8751084", "physics.md G7 (COMPUTED)").agrees_with(density)

    def test_a_recorded_formula_is_lighter_when_molten(self) -> None:
        """By hand: oil 0.980 - 0.0008 * 55 = 0.936; 1091.6667 / (1000/0.870 + 91.6667/0.936)."""
        density = blended(SCENTED_SOY).density_molten(75.0).value

        assert density == pytest.approx(0.875182, abs=5e-7)

    def test_each_wax_is_moved_from_its_own_temperature(self) -> None:
        recorded = formula({SOY: "500 g", COCONUT: "500 g"})
        by_hand = 1000 / (500 / (0.870 * (1 - 7.5e-4 * 5)) + 500 / (0.880 * (1 - 7.5e-4 * 10)))

        assert blended(recorded).density_molten(80.0).value == pytest.approx(by_hand, rel=1e-12)

    def test_a_pour_three_kelvin_hotter_moves_the_weight_by_two_to_three_thousandths(self) -> None:
        """Physics.md A2 (COMPUTED); 165 to 170 F is a step of 2.8 K."""
        blend = blended(SCENTED_SOY)
        cooler = blend.density_molten(75.0).value

        hotter = blend.density_molten(78.0).value

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

        density = blended(recorded).density_set.value

        assert density == pytest.approx(1000 / (900 / 0.9 + 50 / 0.98 + 50 / 1.0), rel=1e-12)

    @settings(max_examples=20, deadline=None)
    @given(SHARES, st.floats(min_value=0.85, max_value=1.10))
    def test_a_blend_is_never_lighter_or_denser_than_its_parts(self, load: Decimal, density: float) -> None:
        recorded = formula({SOY: "1000 g"}, {replace(OIL, density_g_per_ml=density): f"{load} % of wax"})

        ours = blended(recorded).density_set.value

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

        heat = blended(recorded).lhv_mj_per_kg

        assert Printed("37.24427", "physics.md G40 (COMPUTED)").agrees_with(heat)

    def test_what_records_no_heat_burns_like_paraffin(self) -> None:
        recorded = formula({SOY: "1000 g"}, None, {UV_ABSORBER: "5 g"}, {DYE: "1 g"})

        heat = blended(recorded).lhv_mj_per_kg

        assert heat == pytest.approx(43.478, rel=1e-12)


def _densities(inputs: Mapping[str, Number]) -> dict[str, float]:
    return {
        name.removesuffix("_g_per_ml"): float(n) for name, n in inputs.items() if name.endswith("_g_per_ml")
    }


def test_the_density_of_each_ingredient_is_told_cold_and_hot() -> None:
    """By hand at 85 C: wax 0.870 (1 - 7.5e-4 x 10), oil 0.980 - 0.0008 x 65; what records none counts as 1.0."""
    recorded = formula({SOY: "1000 g"}, {OIL: "90 g"}, {UV_ABSORBER: "3 g"})

    blend = blended(recorded)
    cold, hot = (_densities(each.inputs) for each in (blend.density_set, blend.density_molten(85.0)))

    assert cold == {"soy": 0.900, "oil": 0.980, "uv": 1.0}
    assert hot == pytest.approx({"soy": 0.863475, "oil": 0.928, "uv": 1.0}, abs=1e-9)
