"""What the candle is made of: substances across oils, exact shares, one step of the scale."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from generator.model.materials import Fragrance
from generator.model.sheet_values import MFactors
from generator.rules.hazards.classify import classify
from generator.rules.hazards.mixture import mixture
from generator.rules.wax.portions import ingredients_of
from tests.rules.entries import COCONUT, DYE, SOY, formula
from tests.rules.hazards.candles import EU, holding, of_fragrance, oil, wax

LINALOOL, LINALOOL_EC = "78-70-6", "201-134-4"


def test_a_share_is_exact() -> None:
    candle = mixture((wax("3"), oil(holding("10"), grams="7")))

    assert candle.substances[0].percent == Fraction(7)


def test_the_same_substance_is_added_up_across_oils() -> None:
    first = replace(holding("10", name="Linalool"), cas=LINALOOL)
    second = replace(holding("20", name="linalool, synthetic"), cas=LINALOOL)

    candle = mixture((wax("80"), oil(first, grams="10"), oil(second, grams="10")))

    assert [(s.cas, s.percent) for s in candle.substances] == [(LINALOOL, Fraction(3))]


MATCHES = {
    "by EC number": ({"ec": LINALOOL_EC}, "another name"),
    "by name": ({}, "LINALOOL"),
}


@pytest.mark.parametrize(("numbers", "name"), MATCHES.values(), ids=MATCHES)
def test_a_line_without_a_cas_number_finds_its_substance(numbers: dict[str, str], name: str) -> None:
    full = replace(holding("1", name="Linalool"), cas=LINALOOL, ec=LINALOOL_EC)
    partial = replace(holding("2", name=name), ec=numbers.get("ec"))

    candle = mixture((oil(partial, full),))

    assert [s.percent for s in candle.substances] == [Fraction(3)]


def test_different_cas_numbers_are_different_substances() -> None:
    one = replace(holding("1", name="Linalool"), cas=LINALOOL)
    other = replace(holding("1", name="Linalool"), cas="126-91-0")

    assert len(mixture((oil(one, other),)).substances) == 2


def test_where_sheets_differ_the_stricter_counts() -> None:
    mild = replace(holding("10", "Aquatic Chronic 1", name="x", m=MFactors(chronic=1)), cas=LINALOOL)
    strict = replace(
        holding("10", "Aquatic Acute 1", "Aquatic Chronic 1", name="x", m=MFactors(chronic=100)), cas=LINALOOL
    )

    (substance,) = mixture((oil(mild), oil(strict))).substances

    assert substance.m_chronic == 100
    assert [hazard.name for hazard in substance.hazards] == ["Aquatic Acute 1", "Aquatic Chronic 1"]


def test_a_range_counts_with_its_upper_end() -> None:
    assert mixture((oil(holding("5-10")),)).substances[0].percent == 10


def test_one_step_of_the_scale_makes_the_oil_heavier_and_the_wax_lighter() -> None:
    candle = mixture((wax("920"), oil(holding("12"), grams="80")), Decimal(1))

    assert candle.substances[0].percent == Fraction("0.96")
    assert candle.substances[0].most_percent == Fraction(12 * 81, 919 + 81)


def test_an_oil_that_holds_less_than_the_candle_is_a_step_lighter() -> None:
    rich, poor = oil(holding("20", name="x"), grams="50"), oil(holding("1", name="x"), grams="50", id_="poor")

    (substance,) = mixture((rich, poor), Decimal(1)).substances

    assert substance.most_percent == Fraction(20 * 51 + 49, 100)


def test_what_one_step_could_reach_counts_as_reached_and_says_so() -> None:
    linalool = oil(holding("12.4", "Skin Sens. 1B", name="Linalool"), grams="80")

    result = classify(mixture((wax("920"), linalool), Decimal(1)), EU)

    assert result.reasons[0].text == (
        "Skin Sens. 1B H317: Linalool 0.992 % of the candle; the limit is 1 %; "
        "one step of the scale could make it 1.0044 %, so the limit counts as met"
    )


def test_undisclosed_shares_are_added_up_over_the_oils() -> None:
    blind = of_fragrance(
        Fragrance(id="blind", name="Blind", composition=(), undisclosed_percent=Decimal(50)), "8"
    )

    assert mixture((wax("92"), blind)).unknown_percent == 4


def test_a_batch_without_weight_is_refused() -> None:
    with pytest.raises(ValueError, match="without weight"):
        mixture((wax("0"),))


def test_a_formula_s_shares_of_the_total_stay_exact() -> None:
    """7/9 of a gram has no end in decimals; 8 % of the total must be 8 % all the same."""
    scent = Fragrance(id="scent", name="Scent", composition=(holding("12.5"),))

    candle = mixture(ingredients_of(formula({SOY: "7 g", COCONUT: "9.1 g"}, {scent: "8 % of total"})))

    assert candle.substances[0].percent == 1


def test_a_dye_without_a_sheet_is_taken_for_harmless_and_a_fragrance_is_not() -> None:
    scent = Fragrance(id="scent", name="Scent")

    candle = mixture(ingredients_of(formula({SOY: "100 g"}, {scent: "8 g"}, dyes={DYE: "6 drops"})))

    assert (candle.without_sheet, candle.taken_for_harmless) == (("scent",), ("slate",))


def test_a_wax_that_melts_at_40_degrees_makes_a_soft_candle() -> None:
    soft = replace(SOY, id="soft", melts_at_c=40.0)

    assert mixture(ingredients_of(formula({soft: "100 g"}))).liquid_at_40_c
    assert not mixture(ingredients_of(formula({replace(soft, melts_at_c=40.1): "100 g"}))).liquid_at_40_c


def test_a_substance_that_sheets_class_differently_counts_once_and_as_the_severer() -> None:
    severe = replace(holding("10", "Aquatic Chronic 1", name="x"), cas=LINALOOL)
    mild = replace(holding("15", "Aquatic Chronic 2", name="x"), cas=LINALOOL)

    (finding,) = classify(mixture((wax("80"), oil(severe, grams="10"), oil(mild, grams="10"))), EU).findings

    assert (finding.outcome.name, finding.percent) == ("Aquatic Chronic 2", Fraction(25))


def test_a_dose_that_one_step_could_reach_is_told_as_an_estimate() -> None:
    harmful = oil(holding("100", "Acute Tox. 4 H302", name="Oil"), grams="249")

    result = classify(mixture((wax("751"), harmful), Decimal(1)), EU)

    assert result.reasons[1].text == (
        "Acute Tox. 4 H302: an estimate of 2008.0321 mg/kg from Oil 24.9 %; the limit is 2000 mg/kg; "
        "one step of the scale could make it 2000 mg/kg, so the limit counts as met"
    )
