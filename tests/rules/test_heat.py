"""Heat of the flames, held against published and computed values."""

import pytest
from chemicals.combustion import combustion_data
from chemicals.reaction import Hfs

from generator.rules.burning.fuel import flame_heat


@pytest.mark.parametrize(
    ("rate", "paraffin_w", "soy_w"),
    [
        (4.4, 53.14, 45.77),
        (5.1819, 62.58, 53.91),
        (6.3, 76.09, 65.54),
        (7.3, 88.16, 75.94),
        (8.0, 96.62, 83.22),
    ],
)
def test_heat_is_that_of_the_reference_table(rate: float, paraffin_w: float, soy_w: float) -> None:
    """physics.md B3 (COMPUTED), at 43.478 and 37.45 MJ/kg."""
    assert flame_heat(rate, 43.478).value == pytest.approx(paraffin_w, abs=5e-3)
    assert flame_heat(rate, 37.45).value == pytest.approx(soy_w, abs=5e-3)


def test_a_laboratory_taper_gives_the_reported_heat() -> None:
    """physics.md G 34: 0.105 g/min at 43.8 MJ/kg, 76.65 W; 77 W reported (MEMORY for the inputs)."""
    heat_w = flame_heat(60 * 0.105, 43.8).value

    assert heat_w == pytest.approx(76.65, abs=5e-3)
    assert heat_w == pytest.approx(77, abs=0.5)


def test_the_mean_rate_of_the_worked_example_gives_the_printed_heat() -> None:
    """physics.md G 39 (COMPUTED)."""
    assert flame_heat(5.1819, 37.45).value == pytest.approx(53.906, abs=5e-4)


def test_a_standard_sperm_candle_gives_about_80_w() -> None:
    """physics.md B3: 120 grains/h at 37 kJ/g, "about 80 W" (FOUND)."""
    assert flame_heat(7.7758692, 37.0).value == pytest.approx(80, abs=0.5)


@pytest.mark.parametrize(
    ("cas", "formula", "printed_mj_per_kg"),
    [
        pytest.param("57-11-4", {"C": 18, "H": 36, "O": 2}, 36.86578, id="stearic acid, 31"),
        pytest.param("57-10-3", {"C": 16, "H": 32, "O": 2}, 36.16314, id="palmitic acid, 32"),
        pytest.param("544-85-4", {"C": 32, "H": 66}, 43.47787, id="paraffin n-C32, 33"),
    ],
)
def test_at_3_6_grams_an_hour_a_wax_gives_as_many_watts_as_its_heating_value(
    cas: str, formula: dict[str, int], printed_mj_per_kg: float
) -> None:
    """physics.md G 31 to 33, lower heating values from CRC enthalpies of formation (COMPUTED with ``chemicals``)."""
    burnt = combustion_data(formula=formula, Hf=Hfs(cas))
    lhv_mj_per_kg = -burnt.LHV / burnt.MW / 1000

    assert flame_heat(3.6, lhv_mj_per_kg).value == pytest.approx(printed_mj_per_kg, abs=5e-6)
