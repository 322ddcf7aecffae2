"""Shares, limits, factors and doses of section 3: exact, with their ends, and in the units they need."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter
from pydantic_core import PydanticCustomError

from generator.model.hazard_classes import HazardClass
from generator.model.materials import Fragrance
from generator.model.sheet_values import (
    Ate,
    Dose,
    ShareRange,
    SpecificLimit,
    exact_percent,
    m_factor,
    share_range,
    specific_limit,
)

SHARES = {
    "5-10 %": ("5", "10"),
    "5 – 10%": ("5", "10"),
    "5 % - 10 %": ("5", "10"),
    "10 to 20 %": ("10", "20"),
    ">= 5 - < 10 %": ("5", "10"),
    "≥1 - ≤2.5%": ("1", "2.5"),
    "1 <= x < 5 %": ("1", "5"),
    "< 1 %": ("0", "1"),
    "<=1%": ("0", "1"),
    "≤ 0.1 %": ("0", "0.1"),
    "2.5 %": ("2.5", "2.5"),
}


@pytest.mark.parametrize(("written", "ends"), SHARES.items())
def test_a_share_is_read_with_both_its_ends(written: str, ends: tuple[str, str]) -> None:
    assert share_range(written) == ShareRange(Decimal(ends[0]), Decimal(ends[1]))


LIMITS = {
    "Skin Sens. 1A: 0.01 %": ("Skin Sens. 1A", "H317", "0.01", None),
    "Skin Sens. 1A: >= 0.01 %": ("Skin Sens. 1A", "H317", "0.01", None),
    "Skin Sens. 1A; H317: C ≥ 0.01 %": ("Skin Sens. 1A", "H317", "0.01", None),
    "Skin Irrit. 2: 1 - 3 %": ("Skin Irrit. 2", "H315", "1", "3"),
    "Eye Irrit. 2; H319: 1 % <= C < 3 %": ("Eye Irrit. 2", "H319", "1", "3"),
}


@pytest.mark.parametrize(("written", "expected"), LIMITS.items())
def test_a_specific_limit_names_its_class_and_its_band(
    written: str, expected: tuple[str, str, str, str | None]
) -> None:
    name, code, low, high = expected

    limit = specific_limit(written)

    assert limit == SpecificLimit(
        HazardClass(name, code), Decimal(low), None if high is None else Decimal(high)
    )


@pytest.mark.parametrize(("written", "expected"), {"1": 1, "M=10": 10, "M = 100": 100}.items())
def test_an_m_factor_is_a_power_of_ten(written: str, expected: int) -> None:
    assert m_factor(written) == expected


DOSES = {
    "oral": ("500 mg/kg bw", Dose(Decimal(500))),
    "dermal": ("> 2000 mg/kg", Dose(Decimal(2000), above=True)),
    "gas": ("4500 ppmV", Dose(Decimal(4500))),
    "vapour": ("3 mg/l", Dose(Decimal(3))),
    "dust": ("200 - 2000 mg/m3", Dose(Decimal("0.2"))),
}


@pytest.mark.parametrize(("route", "written_and_dose"), DOSES.items())
def test_a_dose_is_read_in_its_unit_and_a_range_with_its_lower_end(
    route: str, written_and_dose: tuple[str, Dose]
) -> None:
    written, dose = written_and_dose

    ate = TypeAdapter(Ate).validate_python({route: written})

    doses = (ate.oral_mg_per_kg, ate.dermal_mg_per_kg, ate.gas_ppm, ate.vapour_mg_per_l, ate.dust_mg_per_l)
    assert [each for each in doses if each is not None] == [dose]


def _oral(written: object) -> object:
    return TypeAdapter(Ate).validate_python({"oral": written})


FAULTS: dict[str, tuple[Callable[[object], object], str, str]] = {
    "> 5 %": (share_range, "is '> 5 %', without an upper end", "5-... %"),
    "10-5 %": (share_range, "is '10-5 %'; 10 % is more than 5 %", "5-10 %"),
    "5-10": (share_range, "is '5-10', without a unit", "5-10 %"),
    "2,5-5 %": (share_range, "is '2,5-5 %', written with a comma", "2.5-5 %"),
    "120 %": (share_range, "is '120 %'; 120 % is more than the whole oil", ""),
    **{
        written: (share_range, f"is '{written}'; expected a percentage", offered)
        for written, offered in {
            "5% w/w": "5 %",
            "5 % max": "<= 5 %",
            "up to 5 %": "<= 5 %",
            "10 ppm": "0.001 %",
            "< 250 ppm": "<= 0.025 %",
            "about 5-10 %": "5-10 %",
            "unknown": "",
        }.items()
    },
    "trace": (share_range, "is 'trace'; expected a percentage", ""),
    ">= 0.01 %": (
        specific_limit,
        "is '>= 0.01 %'; expected a class and its limit",
        "",
    ),
    "Skin Irrit. 2: < 3 %": (
        specific_limit,
        "is 'Skin Irrit. 2: < 3 %'; it gives an upper end, but no lower end",
        "Skin Irrit. 2: ...-3 %",
    ),
    "Skin Sens. 1A: C ≥ 0,01 %": (
        specific_limit,
        "is 'Skin Sens. 1A: C ≥ 0,01 %', written with a comma",
        "Skin Sens. 1A: C ≥ 0.01 %",
    ),
    "5": (m_factor, "is '5'; expected an M-factor of 1, 10, 100 ...", ""),
    "2": (exact_percent, "is '2', without a unit", "2 %"),
    "little": (exact_percent, "is 'little'; expected a percentage", ""),
    "101 %": (exact_percent, "is '101 %', which is more than the whole", ""),
}


@pytest.mark.parametrize("written", FAULTS)
def test_what_cannot_be_read_is_told_with_what_to_write(written: str) -> None:
    read, what, fix = FAULTS[written]

    with pytest.raises(PydanticCustomError) as fault:
        read(written)

    assert fault.value.context is not None
    assert (fault.value.context["what"], fault.value.context["fix"]) == (what, fix)


DOSE_FAULTS = {
    "500": "is '500', without a unit",
    "500 mg/l": "is '500 mg/l'; 'mg/l' is not a unit of this dose",
    "harmful": "is 'harmful'; expected a dose",
}


@pytest.mark.parametrize(("written", "what"), DOSE_FAULTS.items())
def test_a_dose_in_no_unit_or_another_is_a_fault(written: str, what: str) -> None:
    with pytest.raises(ValueError, match=what):
        _oral(written)


def _outcome(read: Callable[[object], object], text: str) -> frozenset[str]:
    try:
        read(text)
    except PydanticCustomError as fault:
        return frozenset(fault.context or ())
    return frozenset({"value"})


@pytest.mark.parametrize("read", [share_range, specific_limit, m_factor, exact_percent])
@settings(max_examples=30)
@given(text=st.text(max_size=30) | st.from_regex(r"[<>=]{0,2} ?[0-9.]{1,5} ?-? ?[0-9.]{0,4} ?%?"))
def test_any_text_is_a_value_or_a_fault(read: Callable[[object], object], text: str) -> None:
    outcome = _outcome(read, text)

    assert outcome in ({"value"}, {"what", "why", "fix"})


def test_a_fragrance_is_read_with_all_that_its_sheet_says() -> None:
    line = {"substance": "Linalool", "cas": "78-70-6", "share": "5-10 %", "hazards": ["Skin Sens. 1B"]}
    own = {"at": "10 % of total", "classes": ["Skin Sens. 1 H317"]}
    entry = {"id": "a", "name": "A", "composition": [line], "undisclosed": "2 %", "own_classification": own}

    read = TypeAdapter(Fragrance).validate_python(entry)

    assert isinstance(read.composition, tuple)
    assert read.composition[0].hazards == (HazardClass("Skin Sens. 1B", "H317"),)
    assert (read.undisclosed_percent, read.own_classification is not None) == (Decimal(2), True)
