"""Every limit of the law at the figure itself and just below it: the figure counts, nothing is rounded.

DERIVED from the limits of CLP Annex I, whose tables and marks stand in the rule sets; the isoeugenol and HHCB
cases from their rows in CLP Annex VI Table 3 (FOUND).
"""

from dataclasses import replace
from decimal import Decimal

import pytest

from generator.model.hazard_classes import HazardClass
from generator.model.materials import Fragrance
from generator.model.sheet_values import MFactors
from generator.rules.hazards.classify import classify
from generator.rules.hazards.mixture import mixture
from tests.rules.entries import SOY
from tests.rules.hazards.candles import (
    EU,
    GB,
    TODAY,
    candle,
    classified,
    holding,
    names,
    of_fragrance,
    oil,
    swallowed,
    wax,
)

Case = tuple[str, str, tuple[str, ...]]

ALONE: dict[str, Case] = {
    "skin sensitiser 1B below": ("Skin Sens. 1B", "0.9999", ()),
    "skin sensitiser 1B at": ("Skin Sens. 1B", "1.0", ("Skin Sens. 1B",)),
    "skin sensitiser 1 below": ("Skin Sens. 1", "0.9999", ()),
    "skin sensitiser 1 at": ("Skin Sens. 1", "1", ("Skin Sens. 1",)),
    "skin sensitiser 1A below": ("Skin Sens. 1A", "0.0999", ()),
    "skin sensitiser 1A at": ("Skin Sens. 1A", "0.1", ("Skin Sens. 1A",)),
    "airways sensitiser 1 below": ("Resp. Sens. 1", "0.99", ()),
    "airways sensitiser 1 at": ("Resp. Sens. 1", "1", ("Resp. Sens. 1",)),
    "airways sensitiser 1A at": ("Resp. Sens. 1A", "0.1", ("Resp. Sens. 1A",)),
    "skin irritant below": ("Skin Irrit. 2", "9.99", ()),
    "skin irritant at": ("Skin Irrit. 2", "10", ("Skin Irrit. 2",)),
    "corrosive below relevance": ("Skin Corr. 1", "0.99", ()),
    "corrosive at relevance": ("Skin Corr. 1", "1.0", ("Skin Irrit. 2", "Eye Irrit. 2")),
    "corrosive below": ("Skin Corr. 1", "4.99", ("Skin Irrit. 2", "Eye Dam. 1")),
    "corrosive at": ("Skin Corr. 1", "5", ("Skin Corr. 1", "Eye Dam. 1")),
    "eye irritant below": ("Eye Irrit. 2", "9.99", ()),
    "eye irritant at": ("Eye Irrit. 2", "10", ("Eye Irrit. 2",)),
    "eye damage below relevance": ("Eye Dam. 1", "0.99", ()),
    "eye damage at relevance": ("Eye Dam. 1", "1", ("Eye Irrit. 2",)),
    "eye damage below": ("Eye Dam. 1", "2.99", ("Eye Irrit. 2",)),
    "eye damage at": ("Eye Dam. 1", "3", ("Eye Dam. 1",)),
    "acute 4 without a dose, below": ("Acute Tox. 4 H302", "24.99", ()),
    "acute 4 without a dose, at": ("Acute Tox. 4 H302", "25", ("Acute Tox. 4",)),
    "acute 4 on the skin, below": ("Acute Tox. 4 H312", "54.99", ()),
    "acute 4 on the skin, at": ("Acute Tox. 4 H312", "55", ("Acute Tox. 4",)),
    "acute 4 by air, as dust, below": ("Acute Tox. 4 H332", "29.99", ()),
    "acute 4 by air, as dust, at": ("Acute Tox. 4 H332", "30", ("Acute Tox. 4",)),
    "acute 1 reaches acute 3": ("Acute Tox. 1 H300", "0.2", ("Acute Tox. 3",)),
    "genes 1B below": ("Muta. 1B", "0.0999", ()),
    "genes 1B at": ("Muta. 1B", "0.1", ("Muta. 1B",)),
    "genes 2 at": ("Muta. 2", "1.0", ("Muta. 2",)),
    "cancer 1B at": ("Carc. 1B", "0.1", ("Carc. 1B",)),
    "cancer 2 below": ("Carc. 2", "0.99", ()),
    "cancer 2 at": ("Carc. 2", "1.0", ("Carc. 2",)),
    "reproduction 1B below": ("Repr. 1B", "0.29", ()),
    "reproduction 1B at": ("Repr. 1B", "0.3", ("Repr. 1B",)),
    "reproduction 2 below": ("Repr. 2", "2.99", ()),
    "reproduction 2 at": ("Repr. 2", "3.0", ("Repr. 2",)),
    "nursing below": ("Lact.", "0.29", ()),
    "nursing at": ("Lact.", "0.3", ("Lact.",)),
    "organs RE 1 below relevance": ("STOT RE 1", "0.99", ()),
    "organs RE 1 below": ("STOT RE 1", "9.9", ("STOT RE 2",)),
    "organs RE 1 at": ("STOT RE 1", "10", ("STOT RE 1",)),
    "organs RE 2 below": ("STOT RE 2", "9.9", ()),
    "organs RE 2 at": ("STOT RE 2", "10", ("STOT RE 2",)),
    "organs SE 1 below": ("STOT SE 1", "9.99", ("STOT SE 2",)),
    "organs SE 1 at": ("STOT SE 1", "10", ("STOT SE 1",)),
    "airways irritant below": ("STOT SE 3 H335", "19.9", ()),
    "airways irritant at": ("STOT SE 3 H335", "20", ("STOT SE 3",)),
    "drowsiness at": ("STOT SE 3 H336", "20", ("STOT SE 3",)),
    "aspiration in a solid": ("Asp. Tox. 1", "50", ()),
    "water acute 1 below": ("Aquatic Acute 1", "24.99", ()),
    "water acute 1 at": ("Aquatic Acute 1", "25", ("Aquatic Acute 1",)),
    "HHCB at a load of 0.8 %": ("Aquatic Chronic 1", "0.24", ()),
    "HHCB at a load of 0.9 %": ("Aquatic Chronic 1", "0.27", ("Aquatic Chronic 3",)),
    "HHCB at a load of 8 %": ("Aquatic Chronic 1", "2.4", ("Aquatic Chronic 3",)),
    "HHCB at a load of 8.4 %": ("Aquatic Chronic 1", "2.52", ("Aquatic Chronic 2",)),
    "water chronic 1 at": ("Aquatic Chronic 1", "25", ("Aquatic Chronic 1",)),
    "water chronic 2 below": ("Aquatic Chronic 2", "2.49", ()),
    "water chronic 2 at chronic 3": ("Aquatic Chronic 2", "2.5", ("Aquatic Chronic 3",)),
    "water chronic 2 at": ("Aquatic Chronic 2", "25", ("Aquatic Chronic 2",)),
    "water chronic 3 at": ("Aquatic Chronic 3", "25", ("Aquatic Chronic 3",)),
    "water chronic 4 below": ("Aquatic Chronic 4", "24.99", ()),
    "water chronic 4 at": ("Aquatic Chronic 4", "25", ("Aquatic Chronic 4",)),
    "hormones 1 below": ("ED HH 1", "0.0999", ()),
    "hormones 1 at": ("ED HH 1", "0.1", ("ED HH 1",)),
    "hormones 2 at": ("ED HH 2", "1", ("ED HH 2",)),
    "hormones of animals 2 below": ("ED ENV 2", "0.99", ()),
    "what stays in nature at": ("PBT", "0.1", ("PBT",)),
    "what stays in water at": ("vPvM", "0.1", ("vPvM",)),
}


@pytest.mark.parametrize(("hazard", "percent", "expected"), ALONE.values(), ids=ALONE)
def test_a_limit_counts_from_its_own_figure(hazard: str, percent: str, expected: tuple[str, ...]) -> None:
    assert names(holding(percent, hazard)) == expected


NAMING: dict[str, Case] = {
    "1B below": ("Skin Sens. 1B", "0.0999", ()),
    "1B at": ("Skin Sens. 1B", "0.1", ("EUH208",)),
    "1 at": ("Skin Sens. 1", "0.1", ("EUH208",)),
    "1A below": ("Skin Sens. 1A", "0.00999", ()),
    "1A at": ("Skin Sens. 1A", "0.01", ("EUH208",)),
    "airways at": ("Resp. Sens. 1", "0.1", ("EUH208",)),
}


@pytest.mark.parametrize(("hazard", "percent", "expected"), NAMING.values(), ids=NAMING)
def test_a_sensitiser_is_named_from_a_tenth_of_the_class_limit(
    hazard: str, percent: str, expected: tuple[str, ...]
) -> None:
    result = classified(holding(percent, hazard))

    assert tuple(finding.outcome.code for finding in result.named) == expected
    assert result.classes == ()


ISOEUGENOL = {"0.00099": (0, ()), "0.001": (1, ()), "0.00999": (1, ()), "0.01": (1, ("Skin Sens. 1A",))}


@pytest.mark.parametrize(("percent", "expected"), ISOEUGENOL.items())
def test_isoeugenol_counts_by_its_own_limit_and_is_named_from_a_tenth_of_it(
    percent: str, expected: tuple[int, tuple[str, ...]]
) -> None:
    isoeugenol = holding(percent, "Skin Sens. 1A", limits=("Skin Sens. 1A: 0.01 %",))

    result = classified(isoeugenol)

    assert (len(result.named), tuple(outcome.name for outcome in result.classes)) == expected


def test_sensitisers_are_never_added_up() -> None:
    result = classified(
        holding("0.6", "Skin Sens. 1B", name="linalool"), holding("0.6", "Skin Sens. 1B", name="limonene")
    )

    assert result.classes == ()
    assert {finding.counted[0].name for finding in result.named} == {"linalool", "limonene"}


MIXED = {
    "a 1A among 1Bs": (("Skin Sens. 1B", "Skin Sens. 1A"), "Skin Sens. 1A"),
    "a 1 among 1Bs": (("Skin Sens. 1B", "Skin Sens. 1"), "Skin Sens. 1"),
    "only 1Bs": (("Skin Sens. 1B", "Skin Sens. 1B"), "Skin Sens. 1B"),
}


@pytest.mark.parametrize(("hazards", "expected"), MIXED.values(), ids=MIXED)
def test_the_subcategory_is_that_of_the_severest_sensitiser(hazards: tuple[str, str], expected: str) -> None:
    parts = (holding("1", hazard, name=f"substance {n}") for n, hazard in enumerate(hazards))

    assert names(*parts) == (expected,)


def test_ten_times_the_corrosive_and_the_irritant_add_up() -> None:
    assert names(holding("5", "Skin Irrit. 2"), holding("0.5", "Skin Corr. 1")) == ()
    assert "Skin Irrit. 2" in names(holding("1", "Skin Irrit. 2"), holding("1", "Skin Corr. 1"))


def test_a_sum_that_only_the_irrelevant_would_carry_is_left_to_judgement() -> None:
    """10 x 0.5 % + 5 % is 10 %, and 0.5 % lies below the 1 % from which eye damage counts."""
    result = classified(holding("0.5", "Eye Dam. 1"), holding("5", "Eye Irrit. 2"))

    assert result.status == "none"
    assert [reason.text for reason in result.reasons] == [
        "Eye Irrit. 2 H319: would be reached with Eye Dam. 1 at 0.5 0.5 %, below the share that counts"
    ]


SUBCATEGORIES = {
    "1A alone": (("Skin Corr. 1A 5",), "Skin Corr. 1A"),
    "1A and 1B": (("Skin Corr. 1A 2", "Skin Corr. 1B 3"), "Skin Corr. 1B"),
    "1B and 1C": (("Skin Corr. 1B 2", "Skin Corr. 1C 3"), "Skin Corr. 1C"),
    "one without a subcategory": (("Skin Corr. 1B 2", "Skin Corr. 1 3"), "Skin Corr. 1"),
}


@pytest.mark.parametrize(("parts", "expected"), SUBCATEGORIES.values(), ids=SUBCATEGORIES)
def test_corrosives_add_up_by_subcategory(parts: tuple[str, ...], expected: str) -> None:
    held = (holding(percent, hazard) for hazard, _, percent in (part.rpartition(" ") for part in parts))

    assert expected in names(*held)


def test_what_harms_skin_and_eyes_counts_once() -> None:
    assert names(holding("2", "Skin Corr. 1B", "Eye Dam. 1")) == ("Skin Irrit. 2", "Eye Irrit. 2")


M10 = {"0.24": "Aquatic Chronic 3", "0.25": "Aquatic Chronic 2", "2.5": "Aquatic Chronic 1"}


@pytest.mark.parametrize(("percent", "expected"), M10.items())
def test_a_factor_of_ten_makes_a_share_count_ten_times(percent: str, expected: str) -> None:
    toxic = holding(percent, "Aquatic Chronic 1", m=MFactors(chronic=10))

    assert names(toxic) == (expected,)


def test_the_acute_factor_does_not_count_towards_chronic_hazards() -> None:
    toxic = holding("2.5", "Aquatic Acute 1", "Aquatic Chronic 1", m=MFactors(acute=10, chronic=1))

    assert names(toxic) == ("Aquatic Acute 1", "Aquatic Chronic 2")


def test_classes_for_water_life_add_up_weighted() -> None:
    parts = (holding("0.2", "Aquatic Chronic 1"), holding("1", "Aquatic Chronic 2"))

    assert names(*parts) == ("Aquatic Chronic 3",)


def test_a_harmonised_dose_in_a_usual_candle_is_far_from_any_class() -> None:
    """Benzyl alcohol, 1200 mg/kg (Annex VI 603-057-00-5, FOUND), at 1.2 %: 100000 mg/kg."""
    result = classified(holding("1.2", "Acute Tox. 4 H302", ate=swallowed("1200")))

    assert result.status == "none"
    assert "an estimate of 100000 mg/kg" in result.next_limits[0].text


UNDISCLOSED = {
    "ten percent are let pass": ("10", ()),
    "more than ten take part": ("11", ("Acute Tox. 4",)),
}


@pytest.mark.parametrize(("undisclosed", "expected"), UNDISCLOSED.values(), ids=UNDISCLOSED)
def test_much_unknown_makes_the_estimate_stricter(undisclosed: str, expected: tuple[str, ...]) -> None:
    """(100 - unknown) / ATE = sum(C / ATE): 24 % of category 4 is 2083 mg/kg, and 1854 mg/kg with 11 % unknown."""
    blind = of_fragrance(
        Fragrance(
            id="oil",
            name="Oil",
            composition=(holding("24", "Acute Tox. 4 H302"),),
            undisclosed_percent=Decimal(undisclosed),
            sheet_dated=TODAY,
        )
    )

    result = classify(mixture((blind,)), EU)

    assert tuple(outcome.name for outcome in result.classes) == expected


def test_a_liquid_wax_with_much_that_could_be_breathed_in_is_refused() -> None:
    soft = replace(wax("90"), material=replace(SOY, melts_at_c=40.0))

    result = classify(mixture((soft, oil(holding("100", "Asp. Tox. 1"), grams="10"))), EU)

    assert (result.status, result.classes) == ("refused", (HazardClass("Asp. Tox. 1", "H304"),))


BASES = {
    "8 % of the total": ("92", "8", ("Skin Sens. 1B",)),
    "8 parts on 100 parts of wax": ("100", "8", ()),
}


@pytest.mark.parametrize(("wax_g", "oil_g", "expected"), BASES.values(), ids=BASES)
def test_the_basis_of_the_load_alone_decides_the_label(
    wax_g: str, oil_g: str, expected: tuple[str, ...]
) -> None:
    """12.5 % of the oil is 1.000 % of the candle, or 0.926 %."""
    linalool = oil(holding("12.5", "Skin Sens. 1B", name="linalool"), grams=oil_g)

    result = classify(mixture((wax(wax_g), linalool)), EU)

    assert tuple(outcome.name for outcome in result.classes) == expected


def test_great_britain_has_none_of_the_new_classes() -> None:
    assert classify(candle(holding("5", "ED HH 1")), GB).status == "none"


def test_a_specific_limit_rules_also_for_a_single_class() -> None:
    assert names(holding("0.5", "Carc. 2", limits=("Carc. 2: 0.5 %",))) == ("Carc. 2",)
    assert names(holding("5", "Eye Dam. 1", limits=("Eye Dam. 1: 10 %", "Eye Irrit. 2: 6 - 10 %"))) == ()
