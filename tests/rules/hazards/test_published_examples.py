"""Worked examples that others published: inputs and outcome as they print them.

Where the UN counts categories that EU and GB law did not take over, both results stand here, kept apart.
"""

from decimal import Decimal
from fractions import Fraction

import pytest

from generator.model.sheet_values import Ate, Dose, MFactors
from generator.rules.hazards.acute import acute_toxicity, acute_toxicity_estimate
from generator.rules.hazards.aquatic import aquatic_acute
from generator.rules.hazards.classify import classify
from generator.rules.hazards.label import hazard_statements, pictograms, signal_word
from generator.rules.hazards.ruleset import RuleSet
from tests.references import Printed
from tests.rules.hazards.candles import EU, GB, candle, classified, holding, names, swallowed

UN_2008 = "UN ST/SG/AC.10/C.4/2008/23, Annex 2 (training examples), FOUND"
UN_2012 = "UN ST/SG/AC.10/C.4/2012/25 (training example 4-1a), FOUND"
ECHA = "ECHA Helpdesk, 'Mixture classification - exercises', 5 March 2012, example 1, FOUND"
CZECH = "Czech guidance article on corrosion and irritation, 26 Nov 2014, FOUND"
DETERGENTS = "European detergent industry's classification network, explanation page, FOUND"
ANNEX_VI = "CLP Annex VI Table 3, consolidation of 1 July 2026, FOUND"

UN_ESTIMATES = {
    "3-1a, with the lower end of a range": (((16, 1600), (4, 200), (80, 3450)), Printed("1880", UN_2008)),
    "3-1c, one ingredient counts": (((4, 1737),), Printed("43425", UN_2008)),
    "3-1d, by mouth": (((26, 2737), (23, 4500), (40, 400)), Printed("873", UN_2008)),
}
"""Shares in percent and doses in mg/kg as the UN counts them, its category 5 included."""


@pytest.mark.parametrize(("parts", "printed"), UN_ESTIMATES.values(), ids=UN_ESTIMATES)
def test_the_formula_gives_the_estimates_that_the_un_prints(
    parts: tuple[tuple[int, int], ...], printed: Printed
) -> None:
    estimate = acute_toxicity_estimate((Fraction(share), Fraction(dose)) for share, dose in parts)

    assert estimate is not None
    assert printed.agrees_with(Decimal(estimate.numerator) / Decimal(estimate.denominator))


UN_3_1A = (holding("16", ate=swallowed("1600")), holding("80", ate=swallowed("3450")))


def test_the_un_s_first_example_stays_unclassified_without_its_category_5() -> None:
    """UN 3-1a classifies it as Acute Tox. 4 at 1880 mg/kg; without LD50 3450 it is 3333 mg/kg (DERIVED)."""
    result = names(*UN_3_1A, holding("4", ate=swallowed("200")))

    assert result == ()


def test_the_un_s_first_example_reaches_the_eu_limit_with_the_converted_estimate() -> None:
    """Category 3 without a dose counts 100 mg/kg, and the estimate is 2000 mg/kg exactly (DERIVED)."""
    result = names(*UN_3_1A, holding("4", "Acute Tox. 3 H301"))

    assert result == ("Acute Tox. 4",)


@pytest.mark.parametrize("rules", [EU, GB], ids=["EU", "GB"])
def test_the_un_s_third_example_is_not_classified(rules: RuleSet) -> None:
    """UN 3-1c: estimate 43425 mg/kg; doses only known to be above 2000 or 5000 count as known (UN_2008)."""
    parts = (
        holding("4", "Acute Tox. 4 H302", ate=swallowed("1737")),
        holding("5", ate=swallowed(">5000")),
        holding("5", ate=swallowed("5400")),
        holding("86", ate=swallowed(">2000")),
    )

    result = classify(candle(*parts), rules)

    assert result.status == "none"


def test_the_un_s_fourth_example_is_acute_4_by_mouth_in_both_systems() -> None:
    """UN 3-1d: 873 mg/kg with category 5, 1000 mg/kg without (DERIVED)."""
    result = classified(
        holding("26", ate=swallowed("2737")),
        holding("23", ate=swallowed("4500")),
        holding("11", ate=swallowed(">5000")),
        holding("40", ate=swallowed("400")),
    )

    assert [str(outcome) for outcome in result.classes] == ["Acute Tox. 4 H302"]
    assert "an estimate of 1000 mg/kg" in result.reasons[1].text


def test_the_un_s_fourth_example_has_nothing_to_add_up_on_the_skin() -> None:
    """UN 3-1d, dermal: doses of 6480, >6000 and >2000 mg/kg, and 11 % without any (UN_2008)."""
    doses = (("26", Dose(Decimal(6480))), ("23", Dose(Decimal(6000), above=True)))
    parts = [holding(percent, ate=Ate(dermal_mg_per_kg=dose)) for percent, dose in doses]

    _, on_the_skin, _ = acute_toxicity(candle(*parts, holding("11")), EU)

    assert on_the_skin == ()


def test_the_un_s_water_example_is_not_classified_as_acute() -> None:
    """UN 4-1a: 0.01 % acute 1 with M = 10 sums up to 0.1 % (UN_2012)."""
    toxic = holding("0.01", "Aquatic Acute 1", "Aquatic Chronic 1", m=MFactors(acute=10, chronic=10))

    (finding,) = aquatic_acute(
        candle(toxic, holding("1.0", "Aquatic Chronic 2"), holding("25", "Aquatic Chronic 4")), EU
    )

    assert finding.percent == Fraction(1, 10)
    assert not finding.met


def test_an_irritant_below_one_percent_does_not_count() -> None:
    """ECHA's first exercise: 0.8 % Skin Irrit. 2 among harmless ingredients."""
    assert names(holding("9.2"), holding("0.8", "Skin Irrit. 2"), holding("90")) == ()


def test_a_range_counts_with_its_upper_end() -> None:
    """The Czech article: 3-7 % of a corrosive is Skin Corr. 1, and its true 4 % would be Skin Irrit. 2."""
    assert "Skin Corr. 1" in names(holding("3-7", "Skin Corr. 1"))
    assert "Skin Irrit. 2" in names(holding("4", "Skin Corr. 1"))


def test_three_percent_of_a_surfactant_that_damages_eyes_damage_eyes() -> None:
    """The detergent network's page: Eye Dam. 1 from 3 %, with GHS05."""
    assert names(holding("3", "Eye Dam. 1")) == ("Eye Dam. 1",)
    assert pictograms({"H318"}) == ("GHS05",)


LABELS = {
    "605-022-00-X: acute 1 and chronic 2": ({"H400", "H411"}, ("H410",), ("GHS09",), "Warning"),
    "601-096-00-2: acute 1 and chronic 3": ({"H400", "H412"}, ("H410",), ("GHS09",), "Warning"),
    "604-005-00-4: acute 1 alone": ({"H400"}, ("H400",), ("GHS09",), "Warning"),
    "603-230-00-5: eye damage beside irritated skin": (
        {"H315", "H318", "H413"},
        ("H315", "H318", "H413"),
        ("GHS05",),
        "Danger",
    ),
    "603-216-00-9: eye damage beside an allergy": (
        {"H317", "H318"},
        ("H317", "H318"),
        ("GHS05", "GHS07"),
        "Danger",
    ),
    "603-226-00-3: chronic 3 alone": ({"H412"}, ("H412",), (), None),
    "603-220-00-0: chronic 4 alone": ({"H413"}, ("H413",), (), None),
}
"""Index number, classes, and the label elements that Annex VI prints for them (ANNEX_VI)."""


@pytest.mark.parametrize(("codes", "h", "symbols", "word"), LABELS.values(), ids=LABELS)
def test_labels_read_as_in_annex_vi(
    codes: set[str], h: tuple[str, ...], symbols: tuple[str, ...], word: str | None
) -> None:
    assert hazard_statements(codes) == h
    assert (pictograms(codes), signal_word(codes)) == (symbols, word)


PHENOL_LIMITS = ("Skin Corr. 1B: 3 %", "Skin Irrit. 2: 1 - 3 %", "Eye Irrit. 2: 1 - 3 %")


@pytest.mark.parametrize(
    ("percent", "expected"),
    [("3.0", ("Skin Corr. 1B", "Eye Dam. 1")), ("2.9", ("Skin Irrit. 2", "Eye Irrit. 2")), ("0.9", ())],
)
def test_specific_limits_take_the_place_of_the_general_ones(percent: str, expected: tuple[str, ...]) -> None:
    """Phenol, 604-001-00-2 (ANNEX_VI); that corrosion implies eye damage is not printed there (H314 says it)."""
    phenol = holding(percent, "Skin Corr. 1B", name="phenol", limits=PHENOL_LIMITS)

    assert names(phenol) == expected
