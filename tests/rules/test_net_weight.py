"""The net weight by its order of trust, how far it may be off, and weighings that are no candle's."""

import pytest

from generator.model.formats import Fill, Level
from generator.model.sizes import Weighing
from generator.problems import Fault, Severity
from generator.rules.wax.fill import fill_result
from generator.rules.wax.geometry import total_ml
from generator.rules.wax.net_weight import NetWeight, estimate_percent, net_weight
from generator.rules.wax.weighings import weighing_faults, weighings
from tests.references import JAR, Printed
from tests.rules.entries import SCENTED_SOY, blended, build, wax_shape

BLEND = blended(SCENTED_SOY)
TO_THE_LINE = Fill(to_mm=53.244, level=Level.SET)


def net_and_faults(
    fill: Fill,
    weighed: tuple[Weighing | float, ...] = (),
    brimful_ml: float | None = None,
    scale_step_g: float = 1.0,
) -> tuple[NetWeight | None, tuple[Fault, ...]]:
    made = build(fill, wax_shape(brimful_ml=brimful_ml))
    filled, faults = fill_result(made, BLEND)
    if filled is None:
        raise ValueError(faults)
    return net_weight(made, filled, weighed, scale_step_g)


def net_of(
    fill: Fill,
    weighed: tuple[Weighing | float, ...] = (),
    brimful_ml: float | None = None,
    scale_step_g: float = 1.0,
) -> NetWeight:
    net, faults = net_and_faults(fill, weighed, brimful_ml, scale_step_g)
    if net is None:
        raise ValueError(faults)
    return net


class TestNetWeight:
    def test_a_weight_from_geometry_is_3_6_percent_off_at_most(self) -> None:
        net = net_of(TO_THE_LINE)

        assert net.basis == "geometry"
        assert Printed("3.6", "physics.md A5 (COMPUTED)").agrees_with(net.error_percent)
        assert net.proven_g is None

    @pytest.mark.parametrize(
        ("density", "depth", "width", "printed"),
        [
            (0.9062118, 1e9, None, Printed("1.10", "physics.md A5 (COMPUTED)")),
            (1e9, 1e9, 70.0, Printed("2.86", "physics.md A5 (COMPUTED)")),
            (1e9, 53.244, None, Printed("1.88", "physics.md A5 (COMPUTED)")),
        ],
        ids=["density", "diameter", "level"],
    )
    def test_each_part_of_the_error_is_that_of_the_reference(
        self, density: float, depth: float, width: float | None, printed: Printed
    ) -> None:
        assert printed.agrees_with(estimate_percent(density, depth, width))

    def test_water_takes_the_diameter_out_of_the_error(self) -> None:
        net = net_of(TO_THE_LINE, brimful_ml=total_ml(JAR))

        density = BLEND.density_set.value
        by_hand = 100 * ((0.01 / density) ** 2 + (1 / 53.244) ** 2) ** 0.5
        assert net.basis == "water"
        assert net.error_percent == pytest.approx(by_hand)

    def test_a_measured_volume_counts_as_water(self) -> None:
        net = net_of(Fill(volume_ml=200.0, level=Level.SET))

        assert net.basis == "water"

    def test_a_candle_poured_to_weight_is_as_good_as_its_scale(self) -> None:
        net = net_of(Fill(weight_g=200.0), scale_step_g=0.5)

        assert net.basis == "poured to weight"
        assert net.net_g == pytest.approx(200.0)
        assert (net.error_percent, net.proven_g) == (0.25, 199.5)

    def test_weighings_are_trusted_more_than_anything_else(self) -> None:
        net = net_of(TO_THE_LINE, (186.0, 187.0))

        assert (net.basis, net.net_g) == ("weighed", 186.5)

    def test_few_weighings_leave_the_error_and_the_proof_as_they_were(self) -> None:
        net = net_of(TO_THE_LINE, (186.0, 187.0, 186.5, 186.5))

        assert net.error_percent == net_of(TO_THE_LINE).error_percent
        assert net.proven_g is None

    def test_five_weighings_prove_their_mean_less_its_margin(self) -> None:
        """By hand: mean 187, s = sqrt(10/4) = 1.581139, 2 s/sqrt(5) = 1.414214."""
        net = net_of(TO_THE_LINE, (185.0, 186.0, 187.0, 188.0, 189.0), scale_step_g=0.1)

        assert net.proven_g == pytest.approx(185.585786, abs=5e-7)
        assert net.error_percent == pytest.approx(100 * 1.414214 / 187, abs=5e-6)

    def test_the_error_of_weighings_is_never_below_a_step_of_the_scale(self) -> None:
        net = net_of(TO_THE_LINE, (187.0,) * 5)

        assert (net.error_percent, net.proven_g) == pytest.approx((100 / 187, 187.0))

    def test_what_was_poured_to_weight_is_not_proven_beyond_what_it_weighs(self) -> None:
        net = net_of(Fill(weight_g=190.0), (186.0, 187.0))

        assert (net.net_g, net.proven_g) == (186.5, 186.5)

    def test_enough_weighings_decide_also_against_what_was_poured(self) -> None:
        """By hand: mean 189, s = sqrt(488/4) = 11.045361, 2 s/sqrt(5) = 9.879271."""
        net = net_of(Fill(weight_g=190.0), (179.0, 199.0, 177.0, 201.0, 189.0))

        assert net.proven_g == pytest.approx(179.120729, abs=5e-7)

    @pytest.mark.parametrize(
        "weighed",
        [(180.0, 150.0, 190.0, 180.0, 196.0), (180.0, 178.0), (179.0,) * 5],
        ids=["five, scattered", "two", "five, alike"],
    )
    def test_weighings_that_contradict_the_pour_prove_nothing(self, weighed: tuple[float, ...]) -> None:
        net, faults = net_and_faults(Fill(weight_g=200.0), weighed)

        assert net is not None
        assert (net.proven_g, len(faults)) == (None, 1)

    def test_weighings_as_scattered_as_their_mean_prove_nothing(self) -> None:
        net = net_of(TO_THE_LINE, (10.0, 10.0, 10.0, 10.0, 500.0))

        assert net.proven_g is None


class TestWeighings:
    def test_pairs_and_net_weights_are_averaged_together_exactly(self) -> None:
        seen = weighings((Weighing(empty_g=285.2, full_g=533.9), 247.9))

        assert seen is not None
        assert (seen.n, seen.mean_g) == (2, 248.3)
        assert seen.sd_g == pytest.approx(0.565685, abs=5e-7)

    def test_one_weighing_has_no_scatter(self) -> None:
        seen = weighings((247.9,))

        assert seen is not None
        assert (seen.n, seen.mean_g, seen.sd_g) == (1, 247.9, None)

    def test_nothing_weighed_is_no_weighing(self) -> None:
        assert weighings(()) is None

    def test_a_candle_no_heavier_than_its_vessel_is_an_error(self) -> None:
        faults = tuple(weighing_faults((247.9, Weighing(empty_g=285.2, full_g=280.0), 3.0)))

        why = "a candle has at least 10 g of wax, and the printed weight is the mean of the weighings"
        fix = "{empty: the vessel with its wick, full: the finished candle}, or its net weight"
        assert faults == (
            Fault(path=("weighed", 1), what="full 280 g less empty 285.2 g is -5.2 g", why=why, fix=fix),
            Fault(path=("weighed", 2), what="weighed 3 g", why=why, fix=fix),
        )

    def test_a_weighing_at_fault_leaves_no_net_weight(self) -> None:
        net, faults = net_and_faults(TO_THE_LINE, (3.0,))

        assert (net, len(faults)) == (None, 1)

    @pytest.mark.parametrize(
        ("weighed_g", "what"),
        [
            (1.0501 * 185.689, "weighed 195.0 g on average, 5.0 % more than the 185.7 g of the fill"),
            (0.9499 * 185.689, "weighed 176.4 g on average, 5.0 % less than the 185.7 g of the fill"),
        ],
        ids=["heavier", "lighter"],
    )
    def test_weighings_over_5_percent_from_the_fill_are_a_warning(self, weighed_g: float, what: str) -> None:
        _, faults = net_and_faults(TO_THE_LINE, (weighed_g,))

        assert faults == (
            Fault(
                path=("weighed",),
                what=what,
                why="one of the weighings, fill, vessel or densities is wrong, and so are the hours",
                fix="correct weighed and fill to what a finished candle shows",
                severity=Severity.WARNING,
            ),
        )

    @pytest.mark.parametrize("weighed_g", [1.0499 * 185.689, 0.9501 * 185.689], ids=["heavier", "lighter"])
    def test_weighings_within_5_percent_of_the_fill_are_believed(self, weighed_g: float) -> None:
        _, faults = net_and_faults(TO_THE_LINE, (weighed_g,))

        assert faults == ()


def test_more_wax_than_the_vessel_holds_is_an_error_and_no_net_weight() -> None:
    net, faults = net_and_faults(TO_THE_LINE, (600.0,) * 5)

    assert net is None
    assert faults == (
        Fault(
            path=("weighed",),
            what="weighed 600.0 g on average, 662.1 ml of set wax, more than the 307.9 ml the vessel holds",
            why="the printed wax weight would be more than the vessel holds",
            fix="weighed: [{empty: the vessel with its wick, full: the finished candle}], or correct the vessel",
        ),
    )
