"""Hazard classes in the spellings of safety data sheets, and what is said of those that cannot be."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter
from pydantic_core import PydanticCustomError

from generator.model.hazard_classes import CODES, UNKNOWN, HazardClass, HazardClasses, hazard_class

SPELLINGS = {
    "Skin Sens. 1B H317": ("Skin Sens. 1B", "H317"),
    "Skin Sens. 1B": ("Skin Sens. 1B", "H317"),
    "skin sens 1b": ("Skin Sens. 1B", "H317"),
    "Skin Sens. 1 B (H317)": ("Skin Sens. 1B", "H317"),
    "Skin Sensitisation, Category 1B": ("Skin Sens. 1B", "H317"),
    "skin sensitizer 1A; h317": ("Skin Sens. 1A", "H317"),
    "H317": ("Skin Sens. 1", "H317"),
    "H317 Skin Sens. 1": ("Skin Sens. 1", "H317"),
    "Skin Sens. 1: H317": ("Skin Sens. 1", "H317"),
    "Repr. 2 (H361d)": ("Repr. 2", "H361d"),
    "Repr. 2": ("Repr. 2", "H361"),
    "Repr. 1B H360Fd": ("Repr. 1B", "H360Fd"),
    "H360FD": ("Repr. 1B", "H360FD"),
    "H350": ("Carc. 1B", "H350"),
    "H314": ("Skin Corr. 1", "H314"),
    "Aquatic Chronic 2; H411": ("Aquatic Chronic 2", "H411"),
    "Acute Tox. 4 * H302": ("Acute Tox. 4", "H302"),
    "Acute Tox. 4 (oral)": ("Acute Tox. 4", "H302"),
    "Acute Tox. 4 (Dermal), H312": ("Acute Tox. 4", "H312"),
    "Acute Tox. 3 inhalation": ("Acute Tox. 3", "H331"),
    "H302": ("Acute Tox. 4", "H302"),
    "STOT SE 3; H336": ("STOT SE 3", "H336"),
    "STOT RE 2 H373 (liver)": ("STOT RE 2", "H373"),
    "Serious eye damage 1": ("Eye Dam. 1", "H318"),
    "Eye Irrit. 2A": ("Eye Irrit. 2", "H319"),
    "Flam. Liq. 3 - H226": ("Flam. Liq. 3", "H226"),
    "Lact. H362": ("Lact.", "H362"),
    "vPvB": ("vPvB", "EUH441"),
    "EUH440": ("PBT", "EUH440"),
    "EUH066": ("EUH066", "EUH066"),
}


@pytest.mark.parametrize(("written", "expected"), SPELLINGS.items())
def test_a_class_is_read_in_the_spellings_of_sheets(written: str, expected: tuple[str, str]) -> None:
    assert hazard_class(written) == HazardClass(*expected)


WITHOUT_IT = "delete it, or write [] if it is the only one"
FAULTS = {
    "Skn Sens. 1": ("is 'Skn Sens. 1'; expected a hazard class", "Skin Sens. 1"),
    "H999": ("is 'H999'; expected a hazard class", ""),
    "": ("is ''; expected a hazard class", ""),
    "Skin Sens. 1B H315": (
        "is 'Skin Sens. 1B H315'; Skin Sens. 1B is H317, and H315 is another class",
        "Skin Sens. 1B H317, or Skin Irrit. 2 H315",
    ),
    "Acute Tox. 4": (
        "is 'Acute Tox. 4', without its statement",
        "Acute Tox. 4 H302, or Acute Tox. 4 H312, or Acute Tox. 4 H332",
    ),
    "STOT SE 3": ("is 'STOT SE 3', without its statement", "STOT SE 3 H335, or STOT SE 3 H336"),
    "H330": (
        "is 'H330', which may be Acute Tox. 1 or Acute Tox. 2",
        "Acute Tox. 1 H330, or Acute Tox. 2 H330",
    ),
    "Acute Tox. 4 H302+H312": (
        "is 'Acute Tox. 4 H302+H312', with 2 statements",
        "each class separately, with its own statement",
    ),
    "Aquatic Acute 2": ("is 'Aquatic Acute 2', a category that EU and GB law do not use", WITHOUT_IT),
    "H401": ("is 'H401', a category that EU and GB law do not use", WITHOUT_IT),
    "Skin Corr. 1B/1C": ("is 'Skin Corr. 1B/1C'; expected a hazard class", ""),
    "Eye Irrt. 3": ("is 'Eye Irrt. 3'; expected a hazard class", ""),
    "Acute Tox. 2 H302": (
        "is 'Acute Tox. 2 H302'; Acute Tox. 2 is H300 or H310 or H330, and H302 is another class",
        "Acute Tox. 2 H300, or Acute Tox. 2 H310, or Acute Tox. 2 H330, or Acute Tox. 4 H302",
    ),
}


@pytest.mark.parametrize(("written", "what_and_write"), FAULTS.items())
def test_a_class_that_cannot_be_read_is_told_with_what_to_write(
    written: str, what_and_write: tuple[str, str]
) -> None:
    with pytest.raises(PydanticCustomError) as fault:
        hazard_class(written)

    assert fault.value.context is not None
    assert (fault.value.context["what"], fault.value.context["fix"]) == what_and_write


def test_every_class_reads_back_as_it_is_printed() -> None:
    printed = [HazardClass(name, code) for name, codes in CODES.items() for code in codes]

    assert [hazard_class(str(outcome)) for outcome in printed] == printed


def _outcome(text: str) -> frozenset[str]:
    try:
        read = hazard_class(text)
    except PydanticCustomError as fault:
        return frozenset(fault.context or ())
    return frozenset({read.name})


@settings(max_examples=50)
@given(
    st.text(max_size=30) | st.from_regex(r"(Skin|Acute|STOT)?[ .SensTox]{0,9}[1-4]?[AB]? ?(E?U?H[0-9]{3})?")
)
def test_any_text_is_a_class_or_a_fault(text: str) -> None:
    outcome = _outcome(text)

    assert outcome <= set(CODES) or outcome == {"what", "why", "fix"}


def test_a_statement_may_stand_after_its_class_as_an_item_of_its_own() -> None:
    items = ["Acute Tox. 4", "H302", "Skin Sens. 1B H317", "H411"]

    read = TypeAdapter(HazardClasses).validate_python(items)

    assert [str(outcome) for outcome in read] == [
        "Acute Tox. 4 H302",
        "Acute Tox. 4 H302",
        "Skin Sens. 1B H317",
        "Aquatic Chronic 2 H411",
    ]


def test_a_class_is_of_a_kind() -> None:
    assert hazard_class("Aquatic Chronic 2").kind == "Aquatic Chronic"


def test_classes_that_are_no_list_are_left_to_the_reader_of_entries() -> None:
    with pytest.raises(ValueError, match="valid tuple"):
        TypeAdapter(HazardClasses).validate_python("Skin Sens. 1B")


def test_no_class_and_an_unknown_one_are_said_and_differ() -> None:
    read = TypeAdapter(HazardClasses).validate_python

    assert (read([]), read(["[]"]), read(["unknown"])) == ((), (), (UNKNOWN,))
