"""Quantities, amounts and words: every unit against pint, water against IAPWS-95, and no text that breaks them."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal

import pint
import pytest
from chemicals.iapws import iapws95_rho
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pydantic_core import PydanticCustomError

from generator.model.amounts import Amount, AmountUnit, Basis, Share, amount, share_from_text
from generator.model.countries import country
from generator.model.dates import calendar_date, day_or_today
from generator.model.materials import core
from generator.model.money import money_from_text, price_per_mass
from generator.model.quantities import (
    DENSITY,
    DURATION,
    ENERGY,
    GRAMS_PER_OUNCE,
    LABOUR,
    LENGTH,
    MASS,
    MM_PER_INCH,
    VOLUME,
    DensityAt,
    FlashPoint,
    Measure,
    as_written,
    bare_hours,
    celsius,
    density_at,
    duration_h,
    flash_point,
    number_from_text,
    percent_from_text,
)
from generator.model.water import brimful_from_text, water_density_g_per_ml
from generator.model.words import id_of, matching, shade, text_from_entry, whole_number, yes_or_no
from tests.references import Printed

PINT = pint.application_registry
PINT_NAMES = {
    "US fl oz": "fluid_ounce",
    "imp fl oz": "imperial_fluid_ounce",
    "g/cm3": "g/cm**3",
    "kg/m3": "kg/m**3",
    "days": "day",
    "min": "minute",
    "h": "hour",
    "in": "inch",
    "inches": "inch",
    "oz": "ounce",
    "lb": "pound",
    "cl": "centilitre",
    "l": "litre",
    "ml": "millilitre",
    "g/ml": "g/millilitre",
    "kg/l": "kg/litre",
}
MEASURES: tuple[tuple[Measure, str], ...] = (
    (LENGTH, "mm"),
    (MASS, "gram"),
    (VOLUME, "millilitre"),
    (DURATION, "hour"),
    (DENSITY, "g/millilitre"),
    (ENERGY, "MJ/kg"),
)
UNITS = [(measure, unit, ours) for measure, ours in MEASURES for unit in measure.units]


def said(reader: Callable[[object], object], written: str) -> tuple[str, str]:
    """What is wrong with a text, and what to write."""
    with pytest.raises(PydanticCustomError) as fault:
        reader(written)
    context = fault.value.context or {}
    return context["what"], context["fix"]


class TestUnits:
    @pytest.mark.parametrize(("measure", "unit", "ours"), UNITS, ids=[unit for _, unit, _ in UNITS])
    def test_a_unit_is_worth_what_pint_says(self, measure: Measure, unit: str, ours: str) -> None:
        expected = PINT.Quantity(7.5, PINT_NAMES.get(unit, unit)).to(ours).magnitude

        assert measure.number(f"7.5 {unit}") == pytest.approx(expected, rel=1e-12)

    def test_the_named_constants_are_worth_what_pint_says(self) -> None:
        ours = (GRAMS_PER_OUNCE, MM_PER_INCH)

        expected = (
            PINT.Quantity(1, "ounce").to("g").magnitude,
            PINT.Quantity(1, "inch").to("mm").magnitude,
        )
        assert ours == pytest.approx(expected, rel=1e-12)

    @pytest.mark.parametrize("fahrenheit", [32.0, 165.0, 180.0, 195.0, 212.0])
    def test_fahrenheit_becomes_celsius_as_pint_does_it(self, fahrenheit: float) -> None:
        expected = PINT.Quantity(fahrenheit, PINT.degF).to(PINT.degC).magnitude

        assert celsius(f"{fahrenheit:g} F") == pytest.approx(expected, abs=1e-9)

    @pytest.mark.parametrize(
        ("written", "printed"),
        [
            ("8 oz", Printed("226.796", "16 CFR 500.19(a) (FOUND)")),
            ("1 lb", Printed("453.592", "16 CFR 500.19(a) (FOUND)")),
            ("1 oz", Printed("28.3495", "16 CFR 500.19(a) (FOUND)")),
        ],
        ids=["8 oz", "1 lb", "1 oz"],
    )
    def test_a_weight_is_worth_what_the_law_prints(self, written: str, printed: Printed) -> None:
        assert printed.agrees_with(MASS.exact(written))

    def test_nine_us_fluid_ounces_are_a_volume(self) -> None:
        printed = Printed("266.161766", "physics.md G13: pint 0.25.3 (COMPUTED)")

        assert printed.agrees_with(VOLUME.exact("9 US fl oz"))

    def test_ounces_by_fluid_ounces_are_a_density(self) -> None:
        printed = Printed("0.8244058", "physics.md G15: pint 0.25.3 (COMPUTED)")

        assert printed.agrees_with(MASS.exact("0.86 oz") / VOLUME.exact("1 US fl oz"))

    @pytest.mark.parametrize("written", ["1,5 g", "1.0000000001 g", ".5 g", "1e3 g", "-5 g"])
    def test_a_number_of_another_form_is_a_fault(self, written: str) -> None:
        with pytest.raises(PydanticCustomError, match=f"is '{written}'; "):
            MASS.exact(written)

    @pytest.mark.parametrize(
        ("measure", "written", "offered"),
        [
            (LENGTH, "62", "62 mm"),
            (LENGTH, "29.9", "29.9 mm or 29.9 cm"),
            (MASS, "99", "99 g or 99 oz"),
            (MASS, "100", "100 g"),
            (VOLUME, "390", "390 ml"),
            (DURATION, "14", "14 h or 14 days"),
            (LABOUR, "7", "7 min"),
            (LABOUR, "0.5", "0.5 h"),
            (DENSITY, "0.9", "0.9 g/ml"),
            (DENSITY, "900", "900 kg/m3"),
            (ENERGY, "37500", "37500 kJ/kg"),
        ],
    )
    def test_a_number_without_unit_is_offered_its_likely_ones(
        self, measure: Measure, written: str, offered: str
    ) -> None:
        assert said(measure.number, written) == (f"is '{written}', without a unit", offered)

    @pytest.mark.parametrize(
        ("measure", "written", "offered"),
        [
            (LENGTH, "6.8 centimetres", "6.8 cm"),
            (LENGTH, '3"', "3 in"),
            (LENGTH, "2 ft", "24 in"),
            (MASS, "285 gr", "285 g"),
            (MASS, "1 pound", "1 lb"),
            (DURATION, "2 weeks", "14 days"),
            (MASS, "40 g with the box", "40 and one of g, oz, kg, lb or mg"),
        ],
    )
    def test_a_unit_in_other_words_is_offered_with_the_makers_own_number(
        self, measure: Measure, written: str, offered: str
    ) -> None:
        unit = written.lstrip("0123456789. ")

        assert said(measure.number, written) == (
            f"is '{written}'; '{unit}' is not a unit of {measure.name}",
            offered,
        )

    @pytest.mark.parametrize(
        ("measure", "written", "offered"),
        [
            (MASS, "2 lb 3 oz", "35 oz, or 992.2 g"),
            (MASS, "1 kg and 200 grams", "1200 g"),
            (DURATION, "1 h 30 min", "90 min, or 1.5 h"),
            (LENGTH, "68-70 mm", "one number and one of mm, cm, m, in or inch"),
            (MASS, "2½ lb", "one number and one of g, oz, kg, lb or mg"),
        ],
    )
    def test_several_numbers_are_added_up_or_none_is_offered(
        self, measure: Measure, written: str, offered: str
    ) -> None:
        assert said(measure.number, written) == (
            f"is '{written}'; expected one number with one unit",
            offered,
        )

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("high", ""),
            ("about 68 mm", "68 mm"),
            (".5 mm", "0.5 mm"),
            ("-5 mm", "one number and one of mm, cm, m, in or inch"),
        ],
    )
    def test_a_text_that_is_no_length_is_offered_its_own_number_where_it_has_one(
        self, written: str, offered: str
    ) -> None:
        assert said(LENGTH.number, written) == (f"is '{written}'; expected a length", offered)

    def test_a_weight_in_ounces_stays_exact(self) -> None:
        assert MASS.exact("24 oz") == Decimal("680.388555000")

    def test_capitals_of_a_unit_do_not_matter(self) -> None:
        assert (MASS.number("85 G"), VOLUME.number("9 CL"), LENGTH.number("62 MM")) == (85.0, 90.0, 62.0)


class TestWater:
    @pytest.mark.parametrize("at_c", [0.5, 4.0, 15.0, 20.0, 22.0, 25.0, 40.0, 60.0, 80.0, 99.0])
    def test_water_is_as_dense_as_iapws_95_says(self, at_c: float) -> None:
        expected = iapws95_rho(273.15 + at_c, 101325.0) / 1000  # type: ignore[no-untyped-call]  # it ships no types

        assert water_density_g_per_ml(at_c) == pytest.approx(expected, rel=2e-5)

    @pytest.mark.parametrize("at_c", [-0.1, 100.1], ids=["ice", "steam"])
    def test_water_that_is_no_liquid_is_refused(self, at_c: float) -> None:
        with pytest.raises(ValueError, match="is not between"):
            water_density_g_per_ml(at_c)

    @pytest.mark.parametrize(
        ("written", "printed_ml"),
        [("250 g of water at 20 C", 250.44902), ("250 g of water at 25 C", 250.740)],
        ids=["20 C", "25 C"],
    )
    def test_a_brimful_weighed_with_water_is_a_volume(self, written: str, printed_ml: float) -> None:
        """Printed by IAPWS-95 (physics.md G12, A5, COMPUTED); Kell's formula of 1975 is 3 millionths lighter."""
        assert brimful_from_text(written) == pytest.approx(printed_ml, rel=4e-6)

    def test_water_without_its_temperature_is_taken_at_20_degrees(self) -> None:
        assert brimful_from_text("250 g of water") == brimful_from_text("250 g of water at 68 F")

    def test_a_brimful_may_be_written_as_a_volume(self) -> None:
        assert (brimful_from_text("390 ml"), brimful_from_text("39 cl of water")) == (390.0, 390.0)

    @pytest.mark.parametrize("written", ["389 g of water at 101 C", "389 g of water at -1 C"])
    def test_a_brimful_of_ice_or_steam_is_a_fault(self, written: str) -> None:
        with pytest.raises(PydanticCustomError, match="water is not liquid at"):
            brimful_from_text(written)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("9 oz", "9 oz of water at ... C, or 9 US fl oz, or 9 imp fl oz"),
            ("262 g", "262 g of water at ... C"),
            ("262 g water", "262 g of water at ... C"),
        ],
    )
    def test_a_brimful_in_weight_says_of_what(self, written: str, offered: str) -> None:
        assert said(brimful_from_text, written) == (
            f"is '{written}'; expected a volume or a weight of water",
            offered,
        )


class TestOtherForms:
    def test_hours_are_read_from_every_way_of_writing_them(self) -> None:
        written = ("4 h", "30 min", "14 days", "3:45")

        assert tuple(map(duration_h, written)) == (4.0, 0.5, 336.0, 3.75)

    def test_a_table_of_hours_needs_no_unit(self) -> None:
        assert (bare_hours("3.5"), bare_hours("3:30"), bare_hours("40 h")) == (3.5, 3.5, 40.0)

    def test_a_molten_density_carries_its_temperature(self) -> None:
        assert density_at("0.80 g/ml at 167 F") == DensityAt(0.80, 75.0)

    def test_a_molten_density_without_temperature_is_a_fault(self) -> None:
        with pytest.raises(PydanticCustomError, match="without its temperature"):
            density_at("0.80 g/ml")

    @pytest.mark.parametrize(
        ("written", "expected"),
        [("93 C", FlashPoint(93.0, above=False)), ("> 93 C", FlashPoint(93.0, above=True))],
        ids=["exact", "above"],
    )
    def test_a_flash_point_may_be_greater_than(self, written: str, expected: FlashPoint) -> None:
        assert flash_point(written) == expected

    @pytest.mark.parametrize(
        ("written", "offered"), [("75", "75 C, or 75 F"), ("49", "49 C"), ("180", "180 F"), ("-5", "-5 C")]
    )
    def test_a_temperature_without_unit_is_offered_the_likely_ones(self, written: str, offered: str) -> None:
        assert said(celsius, written) == (f"is '{written}', without a unit", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("75 degrees", "75 C, or 75 F"),
            ("167 degrees F", "167 F"),
            ("warm", ""),
        ],
    )
    def test_a_temperature_in_other_words_keeps_its_number(self, written: str, offered: str) -> None:
        assert said(celsius, written) == (f"is '{written}'; expected a temperature", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [("20", "20 %"), ("0.2", "20 %, or 0.2 %"), ("20 % VAT", "20 %"), ("many", "")],
    )
    def test_a_percentage_in_another_form_keeps_its_number(self, written: str, offered: str) -> None:
        assert said(percent_from_text, written) == (f"is '{written}'; expected a percentage", offered)

    def test_a_number_with_a_unit_is_not_offered_without_it(self) -> None:
        assert said(number_from_text, "19.3 oz") == (
            "is '19.3 oz'; expected a number",
            "",
        )

    def test_plain_numbers_and_percentages_are_read(self) -> None:
        assert (number_from_text("12.5"), percent_from_text("20 %"), percent_from_text("20%")) == (
            12.5,
            20.0,
            20.0,
        )

    @settings(max_examples=50, deadline=None)
    @given(st.decimals(min_value=0, max_value=10**6, places=3))
    def test_a_number_is_given_back_as_it_was_written(self, written: Decimal) -> None:
        assert as_written(float(written)) == written


class TestAmounts:
    @pytest.mark.parametrize(
        ("written", "expected"),
        [
            ("85 g", Amount(Decimal(85), AmountUnit.GRAMS)),
            ("2.2 oz", Amount(Decimal("62.3689508750"), AmountUnit.GRAMS)),
            ("85 G", Amount(Decimal(85), AmountUnit.GRAMS)),
            ("70 parts", Amount(Decimal(70), AmountUnit.PARTS)),
            ("8.5% of wax", Amount(Decimal("8.5"), AmountUnit.PERCENT_OF_WAX)),
            ("7.8 %  of total", Amount(Decimal("7.8"), AmountUnit.PERCENT_OF_TOTAL)),
            ("6 Drops", Amount(Decimal(6), AmountUnit.DROPS)),
            ("0.75 US tsp", Amount(Decimal("0.75"), AmountUnit.TEASPOONS)),
            ("1 block", Amount(Decimal(1), AmountUnit.BLOCKS)),
            ("2 cl", Amount(Decimal(20), AmountUnit.MILLILITRES)),
            ("1 US fl oz", Amount(Decimal("29.5735295625"), AmountUnit.MILLILITRES)),
        ],
        ids=str,
    )
    def test_an_amount_is_read_exactly(self, written: str, expected: Amount) -> None:
        assert amount(written) == expected

    def test_a_share_keeps_its_basis(self) -> None:
        assert share_from_text("10 %  of wax") == Share(Decimal(10), Basis.OF_WAX)

    @settings(max_examples=20, deadline=None)
    @given(st.decimals(min_value=0, max_value=100, places=2))
    @example(Decimal("8.5"))
    def test_a_percentage_without_basis_is_refused_with_both_offered(self, written: Decimal) -> None:
        for reader in (share_from_text, amount):
            with pytest.raises(PydanticCustomError) as fault:
                reader(f"{written} %")

            assert fault.value.context is not None
            assert fault.value.context["fix"] == f"{written} % of wax, or {written} % of total"

    @pytest.mark.parametrize("reader", [VOLUME.number, brimful_from_text, amount])
    @pytest.mark.parametrize("written", ["9 fl oz", "9 FL OZ", "9 fl. oz.", "9 fluid ounces"])
    def test_bare_fluid_ounces_are_refused_with_both_offered(
        self, reader: Callable[[object], object], written: str
    ) -> None:
        with pytest.raises(PydanticCustomError) as fault:
            reader(written)

        assert fault.value.context is not None
        assert fault.value.context["fix"] == "9 US fl oz, or 9 imp fl oz"

    @pytest.mark.parametrize("written", ["0.75 tsp", "1 teaspoon", "2 Teaspoons"])
    def test_a_bare_teaspoon_is_refused(self, written: str) -> None:
        with pytest.raises(PydanticCustomError, match="a teaspoon has two sizes"):
            amount(written)

    @pytest.mark.parametrize(
        ("written", "offered"), [("85", "85 g, or 85 % of wax"), ("100.1", "100.1 g"), ("1000", "1000 g")]
    )
    def test_an_amount_without_unit_is_offered_a_share_only_up_to_the_whole(
        self, written: str, offered: str
    ) -> None:
        assert said(amount, written) == (f"is '{written}', without a unit", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("8 % of the wax", "8 % of wax"),
            ("8 percent of total weight", "8 % of total"),
            ("8 % of the batch", "8 % of total"),
            ("8 % of oil", "8 % of wax, or 8 % of total"),
            ("8 % of wax and fragrance", "8 % of wax, or 8 % of total"),
            ("85 grams", "85 g"),
            ("5 tbsp", ""),
            ("2 cups", ""),
            ("8 g per kg of wax", ""),
        ],
    )
    def test_an_amount_in_other_words_is_never_offered_as_another_amount(
        self, written: str, offered: str
    ) -> None:
        unit = written.partition(" ")[2]

        assert said(amount, written) == (f"is '{written}'; '{unit}' is not a unit of an amount", offered)

    @pytest.mark.parametrize(("written", "offered"), [("2 lb 3 oz", "35 oz, or 992.2 g"), ("5-6 g", "")])
    def test_an_amount_of_several_numbers_is_added_up_or_told(self, written: str, offered: str) -> None:
        assert said(amount, written) == (f"is '{written}'; expected one number with one unit", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("22", "22 % of wax, or 22 % of total"),
            ("22 % of the wax", "22 % of wax"),
            ("none", ""),
            ("22 to 25 %", ""),
        ],
    )
    def test_a_share_in_other_words_keeps_its_number(self, written: str, offered: str) -> None:
        assert said(share_from_text, written) == (f"is '{written}'; expected a share", offered)

    def test_a_unit_nobody_knows_is_named(self) -> None:
        with pytest.raises(PydanticCustomError, match="'pinch' is not a unit of an amount"):
            amount("1 pinch")


class TestWords:
    def test_counts_and_yes_or_no_are_read(self) -> None:
        assert (whole_number("6"), yes_or_no("Yes"), yes_or_no("no")) == (6, True, False)

    @pytest.mark.parametrize("written", ["0", "06", "2.5", "-3", "six", "10000"])
    def test_a_count_is_a_whole_number_from_1_to_9999(self, written: str) -> None:
        with pytest.raises(PydanticCustomError, match="expected a whole number"):
            whole_number(written)

    def test_anything_but_yes_or_no_is_a_fault(self) -> None:
        with pytest.raises(PydanticCustomError, match="is 'maybe'; expected yes or no"):
            yes_or_no("maybe")

    def test_a_text_is_taken_without_the_space_around_it(self) -> None:
        assert text_from_entry("  cork ") == "cork"

    @pytest.mark.parametrize(
        ("written", "what"), [("  ", "is empty"), (["cork"], "has keys of its own; expected a text")]
    )
    def test_an_empty_text_and_a_list_are_faults(self, written: object, what: str) -> None:
        with pytest.raises(PydanticCustomError, match=what):
            text_from_entry(written)

    def test_a_text_of_one_form_refuses_others_with_an_example(self) -> None:
        read = matching(r"[a-z]+", "a small word", "it names a file", str.lower)

        assert read(" cork ") == "cork"
        with pytest.raises(PydanticCustomError, match="is 'Cork 2'; expected a small word"):
            read("Cork 2")

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("six", "6"),
            ("2.0", "2"),
            ("6 pcs", "6"),
            ("2.5", ""),
            ("first", ""),
        ],
    )
    def test_a_count_in_another_form_keeps_its_number(self, written: str, offered: str) -> None:
        assert said(whole_number, written) == (f"is '{written}'; expected a whole number", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("66727a", '"#66727a"'),
            ("#abc", '"#aabbcc"'),
            ("red", ""),
        ],
    )
    def test_a_colour_keeps_its_digits(self, written: str, offered: str) -> None:
        assert said(shade, written) == (f"is '{written}'; expected a colour", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [("Net Loft", "net-loft"), ("!!", "")],
    )
    def test_an_id_is_offered_in_small_letters(self, written: str, offered: str) -> None:
        assert said(id_of, written) == (f"is '{written}'; expected an id", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("England", "GB"),
            ("UK", "GB"),
            ("ie", "IE"),
            ("Deutschland", "DE"),
            ("Utopia", ""),
        ],
    )
    def test_a_country_is_two_letters(self, written: str, offered: str) -> None:
        assert country("GB") == "GB"
        assert said(country, written) == (f"is '{written}'; expected a country's two letters", offered)

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("01/11/2026", "2026-11-01, or 2026-01-11"),
            ("25/12/26", "2026-12-25"),
            ("1st of November 2026", "2026-11-01"),
            ("Nov 1, 2026", "2026-11-01"),
            ("20261101", "2026-11-01"),
            ("soon", ""),
        ],
    )
    def test_a_date_in_another_form_is_offered_as_the_days_it_may_be(
        self, written: str, offered: str
    ) -> None:
        assert said(calendar_date, written) == (f"is '{written}'; expected a date", offered)

    def test_the_shops_day_is_a_date_or_today(self) -> None:
        assert day_or_today("2026-11-01") == date(2026, 11, 1)
        assert day_or_today("today") is None
        assert said(day_or_today, "tomorrow") == (
            "is 'tomorrow'; expected today or a date",
            "today, or a fixed day as year-month-day",
        )

    def test_a_date_is_read_as_year_month_day(self) -> None:
        assert calendar_date("2026-11-01") == date(2026, 11, 1)

    @pytest.mark.parametrize("written", ["2026-02-30", "2026-13-01"])
    def test_a_day_that_no_calendar_has_is_told_as_that(self, written: str) -> None:
        assert said(calendar_date, written) == (f"is '{written}', a date that does not exist", "")

    @pytest.mark.parametrize("written", ["01/02/2026", "2026-W44-7", "20261101"])
    def test_no_other_form_of_date_is_read(self, written: str) -> None:
        with pytest.raises(PydanticCustomError, match="expected a date"):
            calendar_date(written)


class TestPrices:
    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("£18.00", "18.00 GBP"),
            ("$18", "18 USD, or 18 CAD, or 18 AUD, or 18 NZD"),
            ("18 euros", "18 EUR"),
            ("GBP 24", "24 GBP"),
            ("24.00 each", "24.00"),
            ("cheap", ""),
            ("-5", ""),
            ("10p", "0.10 GBP"),
            ("99 ct", "0.99 EUR, or 0.99 USD, or 0.99 CAD, or 0.99 AUD, or 0.99 NZD"),
            ("1 h", ""),
            ("18-20", ""),
        ],
    )
    def test_a_price_keeps_its_number_and_its_currency(self, written: str, offered: str) -> None:
        assert said(money_from_text, written) == (f"is '{written}'; expected a price", offered)

    def test_a_comma_of_thousands_is_left_out_of_a_price(self) -> None:
        assert said(money_from_text, "£1,250.00") == ("'£1,250.00' is written with a comma", "1250.00 GBP")

    def test_a_currency_nobody_knows_is_not_replaced_by_another(self) -> None:
        assert said(money_from_text, "24 XXX") == (
            "is '24 XXX'; 'XXX' is not a supported currency",
            "24 and one of GBP, EUR, USD, CAD, AUD ...",
        )

    @pytest.mark.parametrize(
        ("written", "offered"),
        [
            ("4.65", "4.65 per kg, or 4.65 per lb"),
            ("£4.10/kg", "4.10 GBP per kg"),
            ("4.10 a kg", "4.10 per kg"),
            ("31.00 GBP/500 g", "31.00 GBP per 500 g"),
            ("31 per litre", ""),
        ],
    )
    def test_a_price_by_weight_keeps_its_number_and_its_weight(self, written: str, offered: str) -> None:
        assert said(price_per_mass, written) == (f"is '{written}'; expected a price by weight", offered)

    def test_a_price_with_a_sign_keeps_the_weight_behind_it(self) -> None:
        assert said(price_per_mass, "£4.10 per kg") == (
            "is '£4.10 per kg'; expected a price",
            "4.10 GBP per kg",
        )


READERS: tuple[Callable[[object], object], ...] = (
    *(measure.exact for measure, _ in MEASURES),
    celsius,
    percent_from_text,
    density_at,
    flash_point,
    brimful_from_text,
    duration_h,
    bare_hours,
    number_from_text,
    share_from_text,
    amount,
    whole_number,
    yes_or_no,
    calendar_date,
    day_or_today,
    country,
    shade,
    id_of,
    core,
    money_from_text,
    price_per_mass,
)
UNIT_TEXTS = st.sampled_from(
    [unit for _, unit, _ in UNITS] + ["%", "% of wax", "C", "°F", "fl oz", "tsp", ""]
)
NEARLY = st.builds(
    "{}{}{}".format,
    st.one_of(st.floats().map(str), st.integers().map(str), st.text(max_size=4)),
    st.sampled_from(["", " ", "\n", " of water at ", " at "]),
    UNIT_TEXTS,
)


def outcome(reader: Callable[[object], object], written: str) -> frozenset[str]:
    """What a reader makes of a text: a value, or the parts of its fault."""
    try:
        reader(written)
    except PydanticCustomError as fault:
        return frozenset(fault.context or ())
    return frozenset({"value"})


class TestAnyText:
    @settings(max_examples=200, deadline=None)
    @given(st.sampled_from(READERS), st.one_of(st.text(max_size=40), NEARLY))
    @example(brimful_from_text, "389 g of water at 99999 F")
    @example(number_from_text, "9" * 5000)
    @example(calendar_date, "2026-13-45")
    def test_any_text_is_a_value_or_a_fault_that_says_what_why_and_what_to_write(
        self, reader: Callable[[object], object], written: str
    ) -> None:
        result = outcome(reader, written)

        assert result in (frozenset({"value"}), frozenset({"what", "why", "fix"}))


@pytest.mark.parametrize("text", ["0001-01-01", "1899-12-31"])
def test_a_day_before_any_candle_of_today_is_a_slip(text: str) -> None:
    with pytest.raises(PydanticCustomError, match="expected a date from the year 1900 on"):
        calendar_date(text)


@pytest.mark.parametrize("text", ["1900-01-01", "9999-12-31"])
def test_the_first_and_the_last_day_are_read(text: str) -> None:
    assert calendar_date(text).isoformat() == text


def test_no_number_is_looked_for_in_a_text_of_ten_thousand_digits() -> None:
    assert LENGTH.meant("9 mm 1 mm") == "10 mm"
    assert LENGTH.meant("9" * 190 + " mm 1 mm") is None
    assert LENGTH.meant("9 mm 1 mm" + " " * 9_990) is None
