"""What the label shows: symbols by precedence, one signal word, statements, names, relief, sizes."""

from dataclasses import replace
from fractions import Fraction

import pytest

from generator.model.burn_safety import HazardLabel
from generator.model.materials import Constituent
from generator.rules.hazards.label import (
    hazard_statements,
    identifier_due,
    label,
    label_size,
    may_leave_off,
    pictograms,
    signal_word,
)
from generator.rules.hazards.precautions import precautions
from generator.rules.hazards.ruleset import RuleSet
from tests.rules.hazards.candles import EU, GB, classified, holding

JAR_ML, VOTIVE_ML = 270.0, 120.0

ALLERGEN = holding("1.2", "Skin Sens. 1B", name="Linalool")
SECOND = holding("0.2", "Skin Sens. 1B", name="citral")
TRACE = holding("0.05", "Skin Sens. 1B", name="Geraniol")
IRRITANT = holding("10", "Skin Irrit. 2", name="Ester")
WATER_2 = holding("25", "Aquatic Chronic 2", name="Musk")
WATER_3 = holding("25", "Aquatic Chronic 3", name="Wood")


def labelled(*constituents: Constituent, rules: RuleSet = EU) -> HazardLabel:
    return label(classified(*constituents, rules=rules), rules)


def spared(*constituents: Constituent, contents_ml: float = VOTIVE_ML) -> tuple[str, ...]:
    return may_leave_off(labelled(*constituents), classified(*constituents).classes, contents_ml)


PRECEDENCE = {
    "the skull takes the exclamation mark's place": ({"H301", "H315", "H317"}, ("GHS06",)),
    "corrosion takes it for skin and eyes": ({"H315", "H319", "H318"}, ("GHS05",)),
    "and leaves it for allergies": ({"H315", "H317", "H318"}, ("GHS05", "GHS07")),
    "and leaves it for what harms if swallowed": ({"H302", "H318"}, ("GHS05", "GHS07")),
    "and leaves it for irritated airways": ({"H335", "H314"}, ("GHS05", "GHS07")),
    "allergy of the airways takes it for skin and eyes": ({"H334", "H317", "H319"}, ("GHS08",)),
    "and leaves it for what harms if swallowed too": ({"H334", "H317", "H302"}, ("GHS07", "GHS08")),
    "other health hazards leave it": ({"H351", "H317"}, ("GHS07", "GHS08")),
    "water life has its own": ({"H317", "H411"}, ("GHS07", "GHS09")),
    "nursing has none": ({"H362"}, ()),
    "the new classes have none": ({"EUH380", "EUH440"}, ()),
}


@pytest.mark.parametrize(("codes", "expected"), PRECEDENCE.values(), ids=PRECEDENCE)
def test_symbols_follow_the_precedence_of_the_law(codes: set[str], expected: tuple[str, ...]) -> None:
    """CLP Art. 26 (FOUND)."""
    assert pictograms(codes) == expected


def test_danger_and_warning_never_stand_together() -> None:
    assert signal_word({"H317", "H318"}) == "Danger"
    assert signal_word({"H317", "EUH431"}) == "Warning"
    assert signal_word({"H411"}) is None


def test_corrosion_says_eye_damage_too() -> None:
    assert hazard_statements(("H314", "H318", "H302")) == ("H302", "H314")


def test_acute_and_chronic_4_are_both_printed() -> None:
    assert hazard_statements(("H400", "H413")) == ("H400", "H413")


def test_an_allergen_makes_the_usual_candle_label() -> None:
    printed = labelled(ALLERGEN)

    assert (printed.pictograms, printed.signal_word, printed.h, printed.euh) == (
        ("GHS07",),
        "Warning",
        ("H317",),
        (),
    )
    assert printed.p == ("P101", "P102", "P103", "P302+P352", "P333+P313", "P501")


def test_a_classified_candle_names_every_further_sensitiser_and_prints_no_euh208() -> None:
    """CLP Annex II 2.8, second paragraph (FOUND); by the alphabet, since an order by shares would tell them."""
    printed = labelled(ALLERGEN, SECOND, TRACE)

    assert printed.named_substances == ("citral", "Linalool")
    assert printed.euh == ()


def test_an_unclassified_candle_names_its_sensitisers_with_euh208_alone() -> None:
    printed = labelled(SECOND, TRACE)

    assert (printed.euh, printed.named_substances) == (("EUH208",), ("citral",))
    assert (printed.h, printed.p, printed.pictograms, printed.signal_word) == ((), (), (), None)


def test_a_candle_classified_for_water_life_alone_still_prints_euh208() -> None:
    printed = labelled(SECOND, WATER_3)

    assert (printed.h, printed.euh) == (("H412",), ("EUH208",))


def test_a_harmless_candle_needs_no_label() -> None:
    assert labelled(holding("5")).codes == ()


@pytest.mark.parametrize("hazard", ["Carc. 1B", "Resp. Sens. 1"])
def test_a_refused_candle_has_no_label(hazard: str) -> None:
    assert labelled(holding("5", hazard)) == HazardLabel(status="refused")


def test_irritants_and_what_harms_water_are_not_named() -> None:
    assert labelled(IRRITANT, WATER_2).named_substances == ()


def test_what_damages_eyes_is_named() -> None:
    assert labelled(holding("3", "Eye Dam. 1", name="Geraniol")).named_substances == ("Geraniol",)


ADVICE = {
    "an allergen that harms water life": (
        (ALLERGEN, WATER_3),
        ("P101", "P102", "P273", "P302+P352", "P333+P313", "P501"),
    ),
    "irritated skin": ((IRRITANT,), ("P101", "P102", "P264", "P302+P352", "P332+P313", "P501")),
    "an allergy says irritated skin too": (
        (ALLERGEN, IRRITANT),
        ("P101", "P102", "P264", "P302+P352", "P333+P313", "P501"),
    ),
    "water life": ((WATER_2,), ("P102", "P103", "P273", "P391", "P501")),
    "eye damage": (
        (holding("3", "Eye Dam. 1"),),
        ("P101", "P102", "P280", "P305+P351+P338", "P310", "P501"),
    ),
}


@pytest.mark.parametrize(("parts", "expected"), ADVICE.values(), ids=ADVICE)
def test_advice_is_picked_by_severity(parts: tuple[Constituent, ...], expected: tuple[str, ...]) -> None:
    assert set(labelled(*parts).p) == set(expected)


def test_there_are_never_more_than_six_and_disposal_is_always_among_them() -> None:
    eyes = holding("10", "Eye Irrit. 2", name="Acid")

    p = labelled(ALLERGEN, IRRITANT, eyes, WATER_2).p

    assert len(p) == 6
    assert "P501" in p


def test_no_advice_is_given_without_a_class() -> None:
    assert precautions(()) == ()


RELIEF = {
    "irritation and water life leave off both": (
        (IRRITANT, WATER_2),
        ("H315", "H411"),
        ("P101", "P102", "P264", "P302+P352", "P332+P313", "P501"),
    ),
    "an allergy leaves off nothing": ((ALLERGEN,), (), ()),
    "chronic 3 leaves off its advice": ((WATER_3,), (), ("P102", "P103", "P273", "P501")),
    "beside an allergy only the water's advice": ((ALLERGEN, WATER_3), (), ("P273",)),
}


@pytest.mark.parametrize(("parts", "h", "p"), RELIEF.values(), ids=RELIEF)
def test_small_packs_may_leave_off_what_the_law_lists(
    parts: tuple[Constituent, ...], h: tuple[str, ...], p: tuple[str, ...]
) -> None:
    """CLP Annex I 1.5.2.1 (FOUND in German); up to 125 ml, and the rest of the label stays."""
    assert set(spared(*parts)) == {*h, *p}
    assert spared(*parts, contents_ml=JAR_ML) == ()


def test_125_millilitres_are_still_small() -> None:
    assert spared(WATER_3, contents_ml=125.0)
    assert not spared(WATER_3, contents_ml=125.1)


def test_h410_stays_on_a_small_pack_where_chronic_3_is_behind_it() -> None:
    both = holding("25", "Aquatic Acute 1", "Aquatic Chronic 3")

    assert labelled(both).h == ("H410",)
    assert "H410" not in spared(both)


IDENTIFIER = {
    "an allergen in the EU": (ALLERGEN, EU, True),
    "an allergen in Great Britain": (ALLERGEN, GB, False),
    "water life alone": (WATER_3, EU, False),
    "a sensitiser that is only named": (SECOND, EU, False),
    "hormones": (holding("1", "ED HH 1"), EU, True),
    "hormones of animals": (holding("1", "ED ENV 1"), EU, False),
}


@pytest.mark.parametrize(("part", "rules", "expected"), IDENTIFIER.values(), ids=IDENTIFIER)
def test_a_formula_identifier_is_due_for_health_hazards_in_the_eu(
    part: Constituent, rules: RuleSet, expected: bool
) -> None:
    """CLP Art. 45 and Annex VIII (FOUND-2nd); none in Great Britain (GOV.UK guidance, FOUND)."""
    assert (rules.formula_identifier and identifier_due(labelled(part, rules=rules).codes)) is expected


SIZES = {220: (52, 74, 10, 16), 3000: (52, 74, 10, 16), 3500: (74, 105, 23, 23), 60_000: (105, 148, 32, 32)}


@pytest.mark.parametrize(("capacity_ml", "expected"), SIZES.items())
def test_the_label_grows_with_the_package(capacity_ml: float, expected: tuple[int, ...]) -> None:
    """CLP Annex I Table 1.3 (FOUND)."""
    size = label_size(capacity_ml)

    assert (size.width_mm, size.height_mm, size.pictogram_least_mm, size.pictogram_mm) == expected


def test_the_largest_packages_have_the_largest_label() -> None:
    assert label_size(600_000).width_mm == 148


@pytest.mark.parametrize("capacity_ml", [220, 3500, 60_000, 600_000])
def test_a_symbol_covers_a_fifteenth_of_the_least_label(capacity_ml: float) -> None:
    """CLP Annex I 1.2.1.3 (FOUND), to the millimetre that Table 1.3 prints."""
    size = label_size(capacity_ml)

    assert (size.pictogram_mm + 0.5) ** 2 >= size.width_mm * size.height_mm / 15


def test_one_percent_of_unknown_constituents_is_said() -> None:
    result = classified(ALLERGEN)

    assert label(replace(result, unknown_percent=Fraction(1)), EU).unknown == ("acute", "aquatic")
    assert labelled(ALLERGEN).unknown == ()
