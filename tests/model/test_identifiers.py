"""CAS and EC numbers: check digits held against numbers in use, and slips told with the right digit."""

import pytest
from pydantic_core import PydanticCustomError

from generator.model.identifiers import cas_number, ec_number

IN_USE = {
    "5989-27-5": "227-813-5", "78-70-6": "201-134-4", "5392-40-5": "226-394-6", "106-24-1": "203-377-1",
    "97-54-1": "202-590-7", "1222-05-5": "214-946-9", "100-51-6": "202-859-9", "90-05-1": "201-964-7",
    "89-83-8": "201-944-8", "100-52-7": "202-860-4", "99-87-6": "202-796-7", "99-86-5": "202-795-1",
    "94-59-7": "202-345-4", "98-01-1": "202-627-7", "80-54-6": "201-289-8", "31906-04-4": "250-863-4",
    "1205-17-0": "214-881-6", "68039-49-6": "268-264-1",
}  # fmt: skip
"""CAS and EC numbers of substances in CLP Annex VI Table 3, consolidation of 1 July 2026 (FOUND)."""


@pytest.mark.parametrize(("cas", "ec"), IN_USE.items())
def test_numbers_in_use_are_proven(cas: str, ec: str) -> None:
    assert (cas_number(cas), ec_number(ec)) == (cas, ec)


@pytest.mark.parametrize("written", ["78-70-5", "78-07-6", "87-70-6"])
def test_a_slip_in_a_cas_number_is_noticed(written: str) -> None:
    with pytest.raises(PydanticCustomError, match="one of its digits is mistyped"):
        cas_number(written)


FROM_THE_SHEET = "the number as in section 3 of the safety data sheet"
FAULTS = {
    "a CAS number": (
        cas_number,
        "78-70-5",
        "is '78-70-5'; its last digit would have to be 6, so one of its digits is mistyped",
        FROM_THE_SHEET,
    ),
    "an EC number": (
        ec_number,
        "201-134-5",
        "is '201-134-5'; its last digit would have to be 4, so one of its digits is mistyped",
        FROM_THE_SHEET,
    ),
    "a CAS number of another form": (cas_number, "78706", "is '78706'; expected a CAS number", ""),
    "an EC number of another form": (
        ec_number,
        "78-70-6",
        "is '78-70-6'; expected an EC number",
        "",
    ),
    "an EC number that would need a ten": (
        ec_number,
        "200-200-0",
        "is '200-200-0', a number that was never assigned",
        "",
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_names_the_right_digit_and_offers_no_number(name: str) -> None:
    read, written, what, fix = FAULTS[name]

    with pytest.raises(PydanticCustomError) as fault:
        read(written)

    assert fault.value.context is not None
    assert (fault.value.context["what"], fault.value.context["fix"]) == (what, fix)
