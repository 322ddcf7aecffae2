"""UFIs: published test values both ways, every single slip noticed, and no number that cannot have been given out."""

import pytest
from pydantic_core import PydanticCustomError

from generator.model.ufi import UFI_ALPHABET, ufi
from tests.model.ufi_values import BAD, GOOD

SLIP = "its check character does not fit, so one of its characters is mistyped"
WHAT = {
    "GMTT-2SQN-6FD-6TV1": "a UFI has 16 characters, but this has 15",
    "GMTT-2SQN-6FDD-6TVI": "no UFI contains I",
    "FMTT-2SQN-6FDD-6TV1": SLIP,
    "733S-4QNF-4MHA-DTUU": "no country issues such a number",
    "123S-0Q2K-NMHH-WCJQ": "no country issues such a number",
    "U23S-PQ2V-AMH9-VVRG": "its version does not exist",
}


def _told(written: str) -> tuple[str, str]:
    with pytest.raises(PydanticCustomError) as fault:
        ufi(written)
    context = fault.value.context or {}
    return context["what"], context["fix"]


@pytest.mark.parametrize("written", [pair[-1] for pair in GOOD])
def test_a_published_identifier_is_read(written: str) -> None:
    assert ufi(written) == written


@pytest.mark.parametrize("written", [pair[0] for pair in BAD])
def test_an_identifier_that_cannot_exist_is_refused_with_its_reason(written: str) -> None:
    assert _told(written)[0] == f"is '{written}'; {WHAT[written]}"


def test_a_word_with_a_fitting_check_character_is_no_identifier() -> None:
    assert _told("E1CK-WAX0-JARS-TUDY")[0].endswith("no country issues such a number")


@pytest.mark.parametrize("written", [*WHAT, "X", "XXXX-XXXX-XXXX-XXXX", "....-....-....-...."])
def test_what_to_write_in_place_of_a_wrong_identifier_is_none(written: str) -> None:
    fix = _told(written)[1]

    assert fix == "the sixteen characters from the poison-centre notification, as ....-....-....-...."
    _told(fix)


@pytest.mark.parametrize("written", ["UFI: c23s-pq2v-amh9-vvrf", "C23S PQ2V AMH9 VVRF", "C23SPQ2VAMH9VVRF"])
def test_a_ufi_is_kept_in_capitals_and_four_blocks(written: str) -> None:
    assert ufi(written) == "C23S-PQ2V-AMH9-VVRF"


@pytest.mark.parametrize("place", range(16))
def test_any_single_slip_in_a_ufi_is_noticed(place: int) -> None:
    right = "C23SPQ2VAMH9VVRF"
    other = UFI_ALPHABET[UFI_ALPHABET.index(right[place]) - 1]

    assert _told(right[:place] + other + right[place + 1 :])[0].endswith(SLIP)
