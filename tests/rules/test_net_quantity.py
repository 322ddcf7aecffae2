"""What labels declare, whether it is proven, how tall it is printed, and how far single packages may fall short."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.markets import Market
from generator.problems import Fault
from generator.rules.calculation import Calculation
from generator.rules.labels.label_sizes import (
    least_type_mm,
    must_stand_low,
    round_panel_in2,
)
from generator.rules.labels.net_quantity import NetQuantity, declared, quantity_text
from generator.rules.labels.tolerances import (
    MAV_ROWS,
    lowest_any_g,
    lowest_few_g,
    lowest_single_g,
    mav_g,
    sample_size,
    tne_g,
)
from generator.rules.wax.net_weight import NetWeight
from tests.references import US_QUANTITIES, Printed

WEIGHTS_G = st.floats(min_value=10.0, max_value=20000.0)


def quantity(net_g: float, ounces: float | None = None) -> NetQuantity:
    return NetQuantity(net_g=net_g, ounces=ounces, status="estimated")


def net(net_g: float, proven_g: float | None = None) -> NetWeight:
    return NetWeight(
        net=Calculation("net_weight_g", {"net_weight_g": net_g}),
        basis="geometry" if proven_g is None else "weighed",
        error_percent=3.6,
        weighings=None,
        proven=None if proven_g is None else Calculation("proven_g", {"proven_g": proven_g}),
    )


def stated_g(text: str) -> tuple[Decimal, ...]:
    """The figures of a US declaration, ounces and grams, both in grams by the federal factor."""
    ounces_text, _, metric = text.removesuffix(")").partition(" (")
    words = ounces_text.split()
    units = {"lb": Decimal(16), "oz": Decimal(1)}
    ounces = sum(Decimal(n) * units[unit] for n, unit in zip(words[::2], words[1::2], strict=True))
    number, unit = metric.split()
    return ounces * Decimal("28.3495"), Decimal(number) * (1000 if unit == "kg" else 1)


class TestTexts:
    @pytest.mark.parametrize(
        ("net_g", "decimals", "expected"), US_QUANTITIES.values(), ids=US_QUANTITIES.keys()
    )
    def test_the_us_text_is_that_of_the_worked_example(
        self, net_g: float, decimals: int, expected: str
    ) -> None:
        assert quantity_text("US", quantity(net_g), decimals) == expected

    @pytest.mark.parametrize("market", ["EU", "GB"])
    @pytest.mark.parametrize(
        ("net_g", "expected"),
        [(240.9, "240 g"), (99.9, "99 g"), (999.9, "999 g"), (1000.0, "1 kg"), (1275.7, "1.27 kg")],
    )
    def test_the_eu_and_gb_text_is_metric(self, market: Market, net_g: float, expected: str) -> None:
        assert quantity_text(market, quantity(net_g)) == expected

    def test_the_makers_own_ounces_are_printed_as_she_declares_them(self) -> None:
        assert quantity_text("US", quantity(240.0, ounces=8.25)) == "8.25 oz (240 g)"

    def test_the_makers_own_ounces_become_pounds_from_16_on(self) -> None:
        assert quantity_text("US", quantity(510.0, ounces=17.5)) == "1 lb 1.5 oz (510 g)"

    def test_an_exact_weight_in_ounces_is_not_lost_to_binary_arithmetic(self) -> None:
        texts = [quantity_text("US", quantity(ounces * 28.349523125)) for ounces in (1.0, 6.5, 8.0)]

        assert texts == ["1 oz (28 g)", "6.5 oz (184 g)", "8 oz (226 g)"]

    @settings(max_examples=100, deadline=None)
    @given(WEIGHTS_G, st.sampled_from([1, 2]))
    def test_no_figure_of_a_text_overstates(self, net_g: float, decimals: int) -> None:
        text = quantity_text("US", quantity(net_g), decimals)

        assert max(stated_g(text)) <= Decimal(net_g)

    @settings(max_examples=100, deadline=None)
    @given(WEIGHTS_G)
    def test_no_figure_of_a_text_loses_more_than_a_step(self, net_g: float) -> None:
        ounces_g, metric_g = stated_g(quantity_text("US", quantity(net_g)))

        assert Decimal(net_g) - ounces_g <= Decimal("2.84") + Decimal(net_g) / 10**5
        assert Decimal(net_g) - metric_g <= (1 if net_g < 1000 else 10)

    @settings(max_examples=50, deadline=None)
    @given(WEIGHTS_G, st.sampled_from(["US", "EU", "GB"]))
    def test_no_text_qualifies_the_quantity(self, net_g: float, market: Market) -> None:
        letters = {c for c in quantity_text(market, quantity(net_g)) if c.isalpha()}

        assert letters <= set("ozlbkg")

    def test_less_than_10_grams_is_refused(self) -> None:
        with pytest.raises(ValueError, match="less than 10"):
            quantity_text("GB", quantity(9.99))


class TestProof:
    def test_nothing_declared_is_an_estimate_from_the_net_weight(self) -> None:
        assert declared(net(247.9), None, None) == (quantity(247.9), ())

    def test_nothing_declared_is_proven_as_far_as_the_proof_goes(self) -> None:
        proven = NetQuantity(net_g=245.0, ounces=None, status="proven")

        assert declared(net(247.9, proven_g=245.0), None, None) == (proven, ())

    @pytest.mark.parametrize(
        ("declared_g", "status"),
        [(245.0, "proven"), (245.1, "estimated"), (247.9, "estimated"), (247.91, "refuted")],
        ids=["as proven", "above the proof", "as estimated", "above the estimate"],
    )
    def test_a_declared_weight_is_held_against_proof_and_estimate(
        self, declared_g: float, status: str
    ) -> None:
        held, _ = declared(net(247.9, proven_g=245.0), declared_g, None)

        assert held.status == status

    @pytest.mark.parametrize(
        ("ounces", "status"),
        [(8.4, "proven"), (8.65, "estimated"), (8.75, "refuted")],
        ids=["238.1 g", "245.2 g", "248.1 g"],
    )
    def test_declared_ounces_must_hold_as_well(self, ounces: float, status: str) -> None:
        held, _ = declared(net(247.9, proven_g=245.0), 240.0, ounces)

        assert held.status == status

    def test_a_declared_weight_that_is_worked_out_is_only_estimated(self) -> None:
        assert declared(net(247.9), 240.0, 8.4) == (quantity(240.0, ounces=8.4), ())

    def test_a_refuted_weight_is_an_error_that_says_the_most_there_is(self) -> None:
        _, faults = declared(net(247.9), 250.0, None)

        assert faults == (
            Fault(
                path=("declared",),
                what="declared 250 g is more than the 247.90 g in the candle (calculated from the vessel)",
                why="a net quantity must never overstate, and of grams and ounces the larger counts",
                fix="declared: at most 247 g",
            ),
        )

    def test_a_refuted_pair_is_answered_with_a_pair_that_is_proven(self) -> None:
        _, faults = declared(net(247.9, proven_g=245.0), 240.0, 9.0)

        assert [(fault.what, fault.fix) for fault in faults] == [
            (
                "declared 240 g and 9 oz is more than the 247.90 g in the candle (the mean of the weighings)",
                "declared: at most {g: 245, oz: 8.6}",
            )
        ]

    @pytest.mark.parametrize(("grams", "ounces"), [(0.0, None), (240.0, 0.3)], ids=["grams", "ounces"])
    def test_a_declared_weight_of_next_to_nothing_is_an_error(
        self, grams: float, ounces: float | None
    ) -> None:
        held, faults = declared(net(247.9), grams, ounces)

        assert held == NetQuantity(net_g=247.9, ounces=None, status="refuted")
        assert [(fault.path, fault.fix) for fault in faults] == [
            (("declared",), "declared: ... g, as on the label")
        ]

    @settings(max_examples=50, deadline=None)
    @given(WEIGHTS_G, WEIGHTS_G)
    def test_what_a_refusal_proposes_is_not_refused(self, net_g: float, declared_g: float) -> None:
        held, faults = declared(net(net_g), declared_g, None)

        proposed_g = float(stated_g(quantity_text("US", held))[1])
        assert (held.status == "refuted") == (declared_g > net_g) == bool(faults)
        assert declared(net(net_g), proposed_g, None)[1] == ()


class TestTypeHeight:
    @pytest.mark.parametrize(
        ("diameter_mm", "height_mm", "printed", "least_in"),
        [
            (80.0, 90.0, Printed("14.02", "V17: 16 CFR 500.21 (area FOUND, band MEMORY)"), 1 / 8),
            (63.5, 25.4, Printed("3.142", "V18: 16 CFR 500.21 (FOUND)"), 1 / 16),
            (114.3, 127.0, Printed("28.27", "V19: 16 CFR 500.21 (band MEMORY)"), 3 / 16),
        ],
        ids=["V17", "V18", "V19"],
    )
    def test_panel_and_type_of_a_cylinder_are_those_of_the_worked_example(
        self, diameter_mm: float, height_mm: float, printed: Printed, least_in: float
    ) -> None:
        panel = round_panel_in2(height_mm, diameter_mm)

        assert printed.agrees_with(panel)
        assert least_type_mm(panel) == pytest.approx(least_in * 25.4)

    def test_moulded_letters_are_taller(self) -> None:
        """Standards.md N17 (MEMORY)."""
        heights = [least_type_mm(panel, moulded=True) for panel in (5.0, 25.0, 100.0, 400.0, 401.0)]

        assert heights == pytest.approx([25.4 * inches for inches in (1 / 8, 3 / 16, 1 / 4, 5 / 16, 9 / 16)])

    def test_only_a_small_panel_may_carry_the_quantity_anywhere(self) -> None:
        assert [must_stand_low(panel) for panel in (3.142, 5.0, 5.01)] == [False, False, True]


class TestSinglePackages:
    @pytest.mark.parametrize(
        ("label_g", "printed_g"),
        [("113", "7.2"), ("184", "10.8"), ("226", "12.7"), ("453", "19.9"), ("28", "2.8")],
        ids=["V21", "V22", "V23", "V24", "V25"],
    )
    def test_the_us_variation_is_that_of_the_table(self, label_g: str, printed_g: str) -> None:
        assert Printed(printed_g, "HB 133 table 2-5 (V21 FOUND as 7, rest MEMORY)").agrees_with(
            mav_g(Decimal(label_g))
        )

    def test_the_us_variation_of_a_3_oz_label_is_the_one_printed(self) -> None:
        ounces = mav_g(3 * Decimal("28.349523125")) / Decimal("28.349523125")

        assert Printed("0.25", "V20: HB 133 table 2-5, 2005 (FOUND)").agrees_with(ounces)

    def test_the_lowest_single_package_is_label_less_variation(self) -> None:
        assert Printed("173.2", "V22: HB 133 table 2-5 (MEMORY)").agrees_with(lowest_single_g(Decimal(184)))

    def test_every_us_variation_is_a_thousandth_of_a_pound_cut_to_a_tenth_of_a_gram(self) -> None:
        """Standards.md 1.1: each gram value equals its pounds times 453.592, truncated (FOUND as a cross-check)."""
        pounds = (8, 12, 16, 20, 24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 64, 70, 78)
        cut = [Decimal(p * 453592 // 100000) / 10 for p in pounds]

        assert [variation_g for _, variation_g in MAV_ROWS] == cut

    def test_a_label_above_the_us_table_is_refused(self) -> None:
        with pytest.raises(ValueError, match="above the table"):
            mav_g(Decimal("1120.1"))

    @pytest.mark.parametrize(
        ("lot", "sample"), [(11, 11), (12, 12), (60, 12), (250, 12), (251, 24), (3201, 48)]
    )
    def test_a_us_sample_grows_with_the_lot(self, lot: int, sample: int) -> None:
        """HB 133 table 2-1 (MEMORY); V26 is a lot of 60."""
        assert sample_size(lot) == sample

    @pytest.mark.parametrize(
        ("nominal_g", "printed"),
        [
            ("180", Printed("8.1", "V27: 76/211/EEC (FOUND)")),
            ("250", Printed("9", "V28: 76/211/EEC, UK outline (FOUND)")),
            ("165", Printed("7.5", "V29: 76/211/EEC (FOUND, rounding MEMORY)")),
            ("75", Printed("4.5", "V30: 76/211/EEC (FOUND)")),
            ("400", Printed("12", "V31: 76/211/EEC (FOUND)")),
            ("30", Printed("2.7", "standards.md 1.4: 76/211/EEC (FOUND)")),
            ("600", Printed("15.0", "standards.md 1.4: 76/211/EEC (FOUND)")),
        ],
        ids=["V27", "V28", "V29", "V30", "V31", "30 g", "600 g"],
    )
    def test_the_tolerable_error_is_that_of_the_directive(self, nominal_g: str, printed: Printed) -> None:
        assert printed.agrees_with(tne_g(Decimal(nominal_g)))

    def test_the_two_limits_below_a_nominal_quantity_are_those_of_the_reference(self) -> None:
        assert Printed("171.9", "V27, T1 (FOUND)").agrees_with(lowest_few_g(Decimal(180)))
        assert Printed("163.8", "V27, T2 (FOUND)").agrees_with(lowest_any_g(Decimal(180)))

    @pytest.mark.parametrize("nominal_g", ["4.9", "10000.1"], ids=["too light", "too heavy"])
    def test_a_nominal_quantity_outside_the_directive_is_refused(self, nominal_g: str) -> None:
        with pytest.raises(ValueError, match="is not between 5 and 10000 g"):
            tne_g(Decimal(nominal_g))

    @settings(max_examples=20, deadline=None)
    @given(st.sampled_from([50, 100, 200, 300, 500]))
    def test_both_formulas_of_the_directive_agree_at_the_edge_of_a_band(self, edge: int) -> None:
        just_above = tne_g(Decimal(edge) + Decimal("0.0001"))

        assert just_above - tne_g(Decimal(edge)) <= Decimal("0.1")
