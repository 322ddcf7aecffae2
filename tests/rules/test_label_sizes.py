"""The least letters and signs of labels, at the ends of each band."""

from datetime import date

import pytest

from generator.model.quantities import MM_PER_INCH
from generator.rules.labels.label_sizes import (
    CautionType,
    caution_type,
    quantity_figures_mm,
    small_letters_mm,
)

SQUARE_INCH_MM2 = MM_PER_INCH**2


@pytest.mark.parametrize(
    ("area_in2", "signal", "statement", "other"),
    [
        (2.0, 3 / 64, 3 / 64, 1 / 32), (2.01, 1 / 16, 3 / 64, 3 / 64), (5.0, 1 / 16, 3 / 64, 3 / 64),
        (5.01, 3 / 32, 1 / 16, 1 / 16), (10.0, 3 / 32, 1 / 16, 1 / 16), (10.01, 7 / 64, 3 / 32, 1 / 16),
        (15.01, 1 / 8, 3 / 32, 5 / 64), (30.01, 5 / 32, 7 / 64, 3 / 32),
    ],
)  # fmt: skip
def test_cautions_grow_with_the_label(area_in2: float, signal: float, statement: float, other: float) -> None:
    """16 CFR 1500.121 table 1, in inches (MEMORY: standards.md F4)."""
    found = caution_type(area_in2 * SQUARE_INCH_MM2, "US")

    inches = (signal, statement, other)
    assert found == CautionType(
        **dict(
            zip(("signal_mm", "statement_mm", "other_mm"), (one * MM_PER_INCH for one in inches), strict=True)
        )
    )


@pytest.mark.parametrize("market", ["GB", "EU"])
@pytest.mark.parametrize("area_in2", [1, 5, 5.01, 40])
def test_outside_the_us_a_larger_label_asks_for_no_larger_letters(market: str, area_in2: float) -> None:
    found = caution_type(area_in2 * SQUARE_INCH_MM2, market)

    assert found == CautionType(signal_mm=1.6, statement_mm=1.2, other_mm=1.2)


@pytest.mark.parametrize(
    ("nominal_g", "height_mm"), [(50, 2), (50.1, 3), (180, 3), (200, 3), (250, 4), (1000, 4), (1001, 6)]
)
def test_figures_of_a_quantity_grow_with_it(nominal_g: float, height_mm: float) -> None:
    """Dir. 76/211/EEC annex I 3.1; 180 g and 250 g are the check values V33 (MEMORY)."""
    assert quantity_figures_mm(nominal_g) == height_mm


@pytest.mark.parametrize(
    ("market", "capacity_ml", "day", "height_mm"),
    [
        ("EU", 220.0, date(2028, 1, 1), 1.2),
        ("EU", 220.0, date(2027, 12, 31), None),
        ("EU", 501.0, date(2028, 1, 1), 1.4),
        ("EU", 3001.0, date(2028, 1, 1), 1.8),
        ("GB", 220.0, date(2028, 1, 1), None),
        ("US", 220.0, date(2028, 1, 1), None),
    ],
)
def test_the_letters_of_a_hazard_label_have_a_least_height_from_the_day_the_rule_is_in_force(
    market: str, capacity_ml: float, day: date, height_mm: float | None
) -> None:
    """Reg. (EU) 2024/2865 with 2025/2439 (FOUND-2nd: standards.md C4, C5, check value V44)."""
    assert small_letters_mm(market, capacity_ml, day) == height_mm
