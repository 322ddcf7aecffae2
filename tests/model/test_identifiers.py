"""CAS and EC numbers and UFIs: check digits held against numbers in use, and slips told with the right digit."""

import pytest
from pydantic_core import PydanticCustomError

from generator.model.identifiers import UFI_ALPHABET, cas_number, ec_number, ufi

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
    with pytest.raises(PydanticCustomError, match="one of its digits is a slip"):
        cas_number(written)


FAULTS = {
    "a CAS number": (
        cas_number,
        "78-70-5",
        "is '78-70-5'; its last digit would be 6, so one of its digits is a slip",
        "78-70-6, if the slip is in the last digit",
    ),
    "an EC number": (
        ec_number,
        "201-134-5",
        "is '201-134-5'; its last digit would be 4, so one of its digits is a slip",
        "201-134-4, if the slip is in the last digit",
    ),
    "a CAS number of another form": (cas_number, "78706", "is '78706'; a CAS number was expected", "78-70-6"),
    "an EC number of another form": (
        ec_number,
        "78-70-6",
        "is '78-70-6'; an EC number was expected",
        "201-134-4",
    ),
    "an EC number that would need a ten": (
        ec_number,
        "200-200-0",
        "is '200-200-0', a number that was never given out",
        "the EC number as on the sheet",
    ),
    "a UFI of another form": (
        ufi,
        "E1CK-WAX0-JARS",
        "is 'E1CK-WAX0-JARS'; a UFI of 16 characters was expected",
        "E1CK-WAX0-JARS-TUDY, without B, I, L, O or Z",
    ),
    "a UFI with a slip": (
        ufi,
        "E1CK-WAX0-JARS-TUDX",
        "is 'E1CK-WAX0-JARS-TUDX'; its first character would be X, so one of its characters is a slip",
        "the UFI as the poison-centre portal gave it",
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_names_the_right_digit(name: str) -> None:
    read, written, what, write = FAULTS[name]

    with pytest.raises(PydanticCustomError) as fault:
        read(written)

    assert fault.value.context is not None
    assert (fault.value.context["what"], fault.value.context["write"]) == (what, write)


RECALLED = ["N1QV-R02N-J00M-WQD5", "E600-30P1-S00Y-5079", "C23S-PQ2V-AMH9-VVSG"]
"""UFIs recalled from public pages and the developers' manual (MEMORY); chance would prove one in 31."""


@pytest.mark.parametrize("written", RECALLED)
def test_recalled_identifiers_are_proven(written: str) -> None:
    assert ufi(written) == written


@pytest.mark.parametrize("written", ["UFI: e1ck-wax0-jars-tudy", "E1CK WAX0 JARS TUDY", "E1CKWAX0JARSTUDY"])
def test_a_ufi_is_kept_in_capitals_and_four_blocks(written: str) -> None:
    assert ufi(written) == "E1CK-WAX0-JARS-TUDY"


@pytest.mark.parametrize("place", range(16))
def test_any_single_slip_in_a_ufi_is_noticed(place: int) -> None:
    right = "E1CKWAX0JARSTUDY"
    other = UFI_ALPHABET[UFI_ALPHABET.index(right[place]) - 1]

    with pytest.raises(PydanticCustomError, match="is a slip"):
        ufi(right[:place] + other + right[place + 1 :])
