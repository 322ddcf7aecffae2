"""What a classification says beside its classes: unknown, refused, why, and what comes next."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from generator.model.hazard_classes import HazardClass
from generator.model.materials import Fragrance
from generator.model.recorded import Role
from generator.rules.hazards.classify import classify
from generator.rules.hazards.mixture import mixture
from generator.rules.hazards.reasons import share_as_text
from generator.rules.hazards.ruleset import rule_set
from tests.rules.entries import ingredient
from tests.rules.hazards.candles import EU, classified, holding, of_fragrance, oil, wax

MYSTERY = of_fragrance(Fragrance(id="mystery", name="Mystery"), "8")


def test_a_fragrance_without_a_composition_makes_the_hazards_unknown_and_never_none() -> None:
    result = classify(mixture((wax("92"), MYSTERY)), EU)

    assert (result.status, result.classes, result.next_limits) == ("unknown", (), ())
    assert result.reasons[0].text == "mystery: no composition is recorded, so its hazards are unknown"


def test_a_fragrance_of_which_nothing_is_used_does_not_matter() -> None:
    nothing = replace(MYSTERY, exact_g=Fraction(0))

    assert classify(mixture((wax("92"), nothing)), EU).status == "none"


def test_a_sheet_too_old_to_classify_by_makes_the_hazards_unknown() -> None:
    stale = oil(holding("5"), dated=date(2021, 10, 31))

    result = classify(mixture((stale,)), EU)

    assert result.status == "unknown"
    assert result.reasons[0].text == (
        "oil: its safety data sheet is dated 2021-10-31; sheets from before 2021-11-01 are too old to classify by"
    )


def test_a_sheet_of_five_years_to_the_day_still_counts() -> None:
    old = oil(holding("5"), dated=date(2021, 11, 1))

    assert classify(mixture((old,)), EU).status == "none"


def test_an_undated_sheet_is_taken_for_current_and_that_is_said() -> None:
    undated = oil(holding("5"), dated=None)

    (reason,) = classify(mixture((undated,)), EU).reasons

    assert reason.text == "oil: its safety data sheet is undated and assumed current"


def test_a_dye_without_a_sheet_is_said_to_be_taken_for_harmless() -> None:
    dye = ingredient("slate", Role.DYE, "1")

    (reason,) = classify(mixture((wax("99"), dye)), EU).reasons

    assert reason.text == "slate: no composition is recorded, so it is assumed unclassified"


def test_a_missing_m_factor_counts_as_one_and_that_is_said() -> None:
    result = classified(holding("0.2", "Aquatic Chronic 1", name="HHCB"))

    assert [r.text for r in result.reasons] == ["HHCB: its sheet gives no M-factor, so 1 is assumed"]


REFUSED = {
    "Carc. 1B": "Carc. 1B H350: may not be sold to consumers at all",
    "Muta. 1A": "Muta. 1A H340: may not be sold to consumers at all",
    "Repr. 1B H360Fd": "Repr. 1B H360Fd: may not be sold to consumers at all",
    "Resp. Sens. 1": "Resp. Sens. 1 H334: a candle is breathed; ask a safety adviser before it is sold",
    "Carc. 2": "Carc. 2 H351: needs a mark for the blind or a child-proof lid; ask a safety adviser first",
    "STOT RE 1": "STOT RE 2 H373: needs a mark for the blind or a child-proof lid; ask a safety adviser first",
}


@pytest.mark.parametrize(("hazard", "text"), REFUSED.items())
def test_a_candle_that_must_not_simply_be_sold_is_refused_with_the_reason(hazard: str, text: str) -> None:
    result = classified(holding("5", hazard))

    assert result.status == "refused"
    assert result.reasons[0].text == text


def test_a_sum_is_explained_with_its_parts() -> None:
    result = classified(
        holding("0.8", "Aquatic Chronic 1", name="HHCB"), holding("1.5", "Aquatic Chronic 2", name="Ester")
    )

    assert result.reasons[0].text == (
        "Aquatic Chronic 3 H412: 100 × HHCB 0.8 % + 10 × Ester 1.5 % = 95 %; the limit is 25 %"
    )
    assert (result.reasons[0].source, result.reasons[0].mark) == ("CLP Annex I Table 4.1.2", "FOUND")


def test_a_specific_limit_is_named_as_the_sheet_s() -> None:
    result = classified(holding("0.01", "Skin Sens. 1A", limits=("Skin Sens. 1A: 0.01 %",)))

    assert result.reasons[0].source == "specific limit of the safety data sheet"


def test_the_next_limits_stand_in_the_order_in_which_they_would_be_reached() -> None:
    result = classified(
        holding("0.8", "Skin Sens. 1B", name="Linalool"), holding("0.05", "Skin Sens. 1B", name="Citral")
    )

    assert [(limit.outcome.code, share_as_text(limit.factor)) for limit in result.next_limits] == [
        ("H317", "1.25"),
        ("EUH208", "2"),
    ]


def test_a_severer_class_to_come_is_still_named_where_a_milder_one_is_reached() -> None:
    result = classified(holding("12", "Aquatic Chronic 2", name="Ester"))

    assert result.next_limits[0].text == "Aquatic Chronic 2 H411: Ester 12 % of the candle; the limit is 25 %"


def test_corrosion_takes_the_place_of_irritated_eyes() -> None:
    result = classified(holding("1", "Skin Corr. 1A", limits=("Skin Corr. 1A: 1 %",)))

    assert result.classes == (HazardClass("Skin Corr. 1A", "H314"), HazardClass("Eye Dam. 1", "H318"))


def test_a_number_is_cut_off_so_that_it_never_reads_as_a_limit_it_does_not_reach() -> None:
    almost = classified(holding("0.99999", "Skin Sens. 1B", name="Linalool"))

    assert (
        almost.next_limits[0].text == "Skin Sens. 1B H317: Linalool 0.9999 % of the candle; the limit is 1 %"
    )


def test_a_leap_day_has_a_last_day_for_sheets() -> None:
    rules = rule_set("EU", date(2028, 2, 29))

    assert rules is not None
    assert rules.oldest_sheet == date(2023, 2, 28)
