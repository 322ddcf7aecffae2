"""A batch for so many candles, and a batch of the trade recorded as entries."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.candle import Make
from generator.model.formats import Fill
from generator.model.quantities import MASS, VOLUME, celsius
from generator.model.recorded import Formula, Role
from generator.problems import Fault
from generator.rules.wax.batches import count_of, melted, weighed_out
from generator.rules.wax.blend import Blend, resolve
from generator.rules.wax.density import pour_fault
from generator.rules.wax.fill import fill_result
from generator.rules.wax.geometry import brimful_ml
from tests.references import JAR, Printed
from tests.rules.entries import OIL, SOY, UV_ABSORBER, blended, build, formula, ingredient, wax_shape

TRADE: Formula = formula({SOY: "24 oz"}, {OIL: "2.2 oz"})
"""24 oz of wax with 2.2 oz of fragrance (common practice, no source)."""

COUNTS = st.integers(min_value=1, max_value=500)
NETS_G = st.floats(min_value=10.0, max_value=2000.0)
WASTES = st.floats(min_value=0.0, max_value=50.0)


NOISE = Decimal("1e-6")


class TestBatches:
    def test_a_batch_is_that_of_the_worked_example(self) -> None:
        printed = Printed("4594.639175", "physics.md G42 (COMPUTED)")

        assert printed.agrees_with(melted(24, 185.7, 3.0).value)

    def test_the_ingredients_of_a_batch_are_those_of_the_worked_example(self) -> None:
        (_, wax_g), (_, oil_g) = weighed_out(blended(TRADE), melted(24, 185.7, 3.0).value, 1e-9)

        assert Printed("4208.829779", "physics.md G42 (COMPUTED)").agrees_with(wax_g)
        assert Printed("385.809396", "physics.md G42 (COMPUTED)").agrees_with(oil_g)

    def test_a_batch_fills_as_many_candles_as_in_the_worked_example(self) -> None:
        """Physics.md D9: 742.758 g at 3 % of waste make 3.88 candles of 185.7 g, so three (COMPUTED)."""
        assert count_of(742.758, 185.7, 3.0) == 3

    @settings(max_examples=50, deadline=None)
    @given(COUNTS, NETS_G, WASTES)
    def test_a_batch_made_for_so_many_candles_fills_just_as_many(
        self, count: int, net_g: float, waste: float
    ) -> None:
        assert count_of(melted(count, net_g, waste).value, net_g, waste) == count

    @pytest.mark.parametrize("waste", [-0.1, 100.0], ids=["negative", "everything"])
    def test_a_waste_that_leaves_nothing_is_refused(self, waste: float) -> None:
        with pytest.raises(ValueError, match="is not between 0 and 100 %"):
            melted(24, 185.7, waste)


class TestWeighingOut:
    def test_the_largest_remainders_are_rounded_up(self) -> None:
        blend = Blend(
            parts=(
                ingredient("a", Role.WAX, "1.4"),
                ingredient("b", Role.WAX, "1.35"),
                ingredient("c", Role.FRAGRANCE, "1.25"),
            )
        )

        steps = [(part.id, grams) for part, grams in weighed_out(blend, 4.0, 1.0)]

        assert steps == [("a", Decimal(2)), ("b", Decimal(1)), ("c", Decimal(1))]

    def test_what_comes_to_less_than_a_step_keeps_its_exact_weight(self) -> None:
        tinted = formula({SOY: "1000 g"}, None, {UV_ABSORBER: "0.1 g"})

        _, (uv, uv_g) = weighed_out(blended(tinted), 1000.1, 1.0)

        assert (uv_g, uv.role) == (Decimal(0), Role.ADDITIVE)
        assert uv.grams == pytest.approx(Decimal("0.1"), rel=Decimal("0.001"))

    @settings(max_examples=50, deadline=None)
    @given(
        st.lists(st.decimals(min_value=0, max_value=5000, places=2), min_size=1, max_size=8),
        st.floats(min_value=10.0, max_value=20000.0),
        st.sampled_from([0.01, 0.1, 0.5, 1.0, 5.0]),
    )
    def test_the_parts_add_up_to_the_batch_on_the_scale(
        self, weights: list[Decimal], batch: float, step: float
    ) -> None:
        parts = (ingredient(str(n), Role.WAX, w) for n, w in enumerate((Decimal(1), *weights)))

        out = weighed_out(Blend(parts=tuple(parts)), batch, step)

        exact_step = Decimal(str(step))
        # A float that misses a step by its last digit is that step, not one more.
        assert -NOISE < sum(grams for _, grams in out) - Decimal(str(batch)) < exact_step
        assert all(abs(grams - part.grams) < exact_step for part, grams in out)
        assert all(grams % exact_step == 0 for _, grams in out)

    def test_equal_remainders_go_to_the_first(self) -> None:
        parts = tuple(ingredient(id_, Role.WAX, "1") for id_ in "abc")

        out = weighed_out(Blend(parts=parts), 10.0, 1.0)

        assert [grams for _, grams in out] == [Decimal(4), Decimal(3), Decimal(3)]


SMALL_JAR_G = MASS.number("6.55 oz")


class TestABatchOfTheTrade:
    """Facts of the trade: common practice, no source."""

    def test_2_2_oz_of_fragrance_in_24_oz_of_wax_is_9_17_percent_of_wax_and_8_40_of_total(self) -> None:
        blend = blended(TRADE)

        assert Printed("9.17", "arithmetic (PRACTICE)").agrees_with(blend.fragrance_of_wax_percent)
        assert Printed("8.40", "arithmetic (PRACTICE)").agrees_with(blend.fragrance_of_total_percent)

    def test_it_lies_within_8_to_9_percent_only_on_the_total(self) -> None:
        blend = blended(TRADE)

        within = [
            8 <= load <= 9 for load in (blend.fragrance_of_wax_percent, blend.fragrance_of_total_percent)
        ]
        assert within == [False, True]

    def test_it_fills_four_small_jars_with_almost_nothing_to_spare(self) -> None:
        batch = float(blended(TRADE).total_g)

        spare_oz = (batch - 4 * SMALL_JAR_G) / MASS.number("1 oz")

        assert count_of(batch, SMALL_JAR_G, 0.0) == 4
        assert spare_oz == pytest.approx(0.0, abs=0.01)

    def test_with_3_percent_of_waste_it_fills_only_three(self) -> None:
        assert count_of(float(blended(TRADE).total_g), SMALL_JAR_G, 3.0) == 3

    @pytest.mark.parametrize(("wax", "full_percent"), [("6.5 oz", "76"), ("7 oz", "82")])
    def test_a_jar_of_9_us_fluid_ounces_holds_6_5_to_7_oz_of_wax(self, wax: str, full_percent: str) -> None:
        jar = wax_shape(JAR, brimful_ml=VOLUME.number("9 US fl oz"))

        filled, faults = fill_result(build(Fill(weight_g=MASS.number(wax)), jar, TRADE), blended(TRADE))

        assert filled is not None, faults
        full = 100 * filled.volume_ml / brimful_ml(jar)
        assert Printed(full_percent, "filling of a straight-sided jar (PRACTICE)").agrees_with(full)

    def test_three_quarters_of_a_teaspoon_of_uv_absorber_counts_by_its_weighed_teaspoon(self) -> None:
        blend = blended(formula({SOY: "24 oz"}, {OIL: "2.2 oz"}, {UV_ABSORBER: "0.75 US tsp"}))

        assert [p.grams for p in blend.parts if p.role is Role.ADDITIVE] == [Decimal("2.325")]

    def test_a_pour_at_165_to_170_f_is_believed_and_moves_the_weight_by_2_thousandths(self) -> None:
        cooler_c, hotter_c = celsius("165 F"), celsius("170 F")
        faults: list[Fault | None] = [pour_fault(at_c, ("make", "pour_at")) for at_c in (cooler_c, hotter_c)]

        cooler, hotter = (blended(TRADE).density_molten(at_c).value for at_c in (cooler_c, hotter_c))

        assert faults == [None, None]
        assert 1 - hotter / cooler == pytest.approx(0.002, abs=0.0005)

    def test_wax_cools_from_the_heat_to_the_fragrance_to_the_pour(self) -> None:
        made = Make(heat_to_c=celsius("190 F"), fragrance_at_c=celsius("180 F"), pour_at_c=celsius("165 F"))

        assert (made.pour_at_c, made.fragrance_at_c, made.heat_to_c) == pytest.approx(
            (73.889, 82.222, 87.778), abs=5e-4
        )
        assert resolve(TRADE)[1] == ()
