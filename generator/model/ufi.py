"""Unique formula identifiers: what a number says when it is read backwards, and which numbers cannot exist."""

import re
from typing import Annotated, Final

from pydantic_core import PydanticCustomError

from generator.model.quantities import as_text, wrong

UFI_ALPHABET: Final = "0123456789ACDEFGHJKMNPQRSTUVWXY"
"""The 31 characters of a UFI: no B, I, L, O and Z, which read like 8, 1, 1, 0 and 2."""

_ORDER: Final = (6, 5, 4, 8, 3, 9, 10, 11, 2, 1, 12, 7, 13, 14, 15)
"""Which digit of the payload, counted from 1, is at each place after the check character."""

_PAYLOAD_BITS: Final = 74
_COMPANY_BITS: Final = 41
_GROUP_BITS: Final = 4
_COUNTRIES: Final = {
    0: (0, {0}),
    1: (0, {0}),
    2: (0, {0}),
    3: (1, {0, 1}),
    4: (4, set(range(4))),
    5: (7, {*range(23), 50}),
}
"""Each country group that is given out: the bits of its country's code, and the codes. Group 0 is a company key."""

_WHY: Final = "in an emergency, a poison centre finds the recipe by it"
_FORM: Final = "the sixteen characters from the poison-centre notification, as ....-....-....-...."


def ufi(written: object) -> str:
    """A unique formula identifier, in capitals and four blocks of four, that can have been given out.

    Its weighted sum must be a multiple of 31, its country must be one that has numbers, and its version bit is 0.
    Source: ECHA, UFI Developers Manual v1.4, 2.1.1 to 2.1.4 and the errors VAL001 to VAL005 (FOUND-2nd: the tables of
    three public implementations agree; 54 pairs of one, MEASURED). Group 5, code 50 is Switzerland's (FOUND-2nd, one).

    >>> ufi("UFI: c23s-pq2v-amh9-vvrf")
    'C23S-PQ2V-AMH9-VVRF'
    """
    text = str(written).strip()
    letters = re.sub(r"[\s-]", "", re.sub(r"^UFI\s*:?\s*", "", text.upper()))
    if len(letters) != 16:
        raise _refused(text, f"a UFI has 16 characters, but this has {len(letters)}")
    strange = "".join(dict.fromkeys(letter for letter in letters if letter not in UFI_ALPHABET))
    if strange:
        raise _refused(text, f"no UFI contains {' or '.join(strange)}")
    values = [UFI_ALPHABET.index(letter) for letter in letters]
    if sum(place * value for place, value in enumerate(values, start=1)) % len(UFI_ALPHABET):
        raise _refused(text, "its check character does not fit, so one of its characters is mistyped")
    _refuse_impossible(text, _payload(values[1:]))
    return "-".join(letters[at : at + 4] for at in range(0, 16, 4))


def _payload(digits: list[int]) -> int:
    """The number encoded by the fifteen characters after the check character."""
    in_order = dict(zip(_ORDER, digits, strict=True))
    number = 0
    for place in sorted(in_order):
        number = number * len(UFI_ALPHABET) + in_order[place]
    return number


def _refuse_impossible(text: str, payload: int) -> None:
    """Payload, most significant bit first: formulation 28, country group 4, country and company 41, version 1."""
    of_company, version = payload >> 1 & ~(-1 << _COMPANY_BITS), payload & 1
    group = payload >> (_COMPANY_BITS + 1) & ~(-1 << _GROUP_BITS)
    bits, codes = _COUNTRIES.get(group, (0, frozenset[int]()))
    if payload >> _PAYLOAD_BITS or of_company >> (_COMPANY_BITS - bits) not in codes:
        raise _refused(text, "no country issues such a number")
    if version:
        raise _refused(text, "its version does not exist")


def _refused(text: str, what: str) -> PydanticCustomError:
    return wrong(f"is '{text}'; {what}", _WHY, _FORM)


Ufi = Annotated[
    str,
    *as_text(
        ufi,
        rf"^(UFI:? *)?([{UFI_ALPHABET}]{{4}}-){{3}}[{UFI_ALPHABET}]{{4}}$",
        "the UFI of the notification",
        "....-....-....-....",
    ),
]
