"""Unique formula identifiers: made from a company and a running number, read backwards, and proven."""

import re
from dataclasses import dataclass
from typing import Annotated, Final

from pydantic_core import PydanticCustomError

from generator.model.company_numbers import COMPANY_BITS, Company, bits_of, company_in
from generator.model.quantities import as_text, wrong

UFI_ALPHABET: Final = "0123456789ACDEFGHJKMNPQRSTUVWXY"
"""The 31 characters of a UFI: no B, I, L, O and Z, which read like 8, 1, 1, 0 and 2."""

_ORDER: Final = (6, 5, 4, 8, 3, 9, 10, 11, 2, 1, 12, 7, 13, 14, 15)
"""Which digit of the payload, counted from 1, is at each place after the check character."""

_PAYLOAD_BITS: Final = 74
_GROUP_BITS: Final = 4
FORMULATION_BITS: Final = 28
MOST_FORMULATIONS: Final = 2**FORMULATION_BITS - 1
"""The highest number of a formulation, 268,435,455 (COMPUTED from its bits)."""

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
    return _in_blocks(letters)


def ufi_or_fault(written: str) -> tuple[str | None, str]:
    """A UFI as `ufi` writes it, else None; and what is wrong with it.

    >>> ufi_or_fault("C23S-PQ2V-AMH9-VVRG")
    (None, "is 'C23S-PQ2V-AMH9-VVRG'; its check character does not fit, so one of its characters is mistyped")
    """
    try:
        return ufi(written), ""
    except PydanticCustomError as fault:
        return None, str((fault.context or {})["what"])


def _payload(digits: list[int]) -> int:
    """The number encoded by the fifteen characters after the check character."""
    in_order = dict(zip(_ORDER, digits, strict=True))
    number = 0
    for place in sorted(in_order):
        number = number * len(UFI_ALPHABET) + in_order[place]
    return number


@dataclass(frozen=True, slots=True)
class UfiParts:
    """What a UFI says when it is read backwards: whose it is, and its running number there, 0 to 268,435,455."""

    company: Company
    formulation: int


def ufi_of(parts: UfiParts) -> str:
    """The UFI of a company's formulation. Raises ValueError for a number that none can hold.

    >>> ufi_of(UfiParts(Company("AT", 12345678), 178956970))
    'C23S-PQ2V-AMH9-VVRF'
    """
    if not 0 <= parts.formulation <= MOST_FORMULATIONS:
        raise ValueError(
            f"a formulation's number is 0 to {MOST_FORMULATIONS}, and this is {parts.formulation}"
        )
    group, of_company = bits_of(parts.company)
    rest = ((parts.formulation << _GROUP_BITS | group) << COMPANY_BITS | of_company) << 1
    in_order: list[int] = []
    for _ in _ORDER:
        rest, digit = divmod(rest, len(UFI_ALPHABET))
        in_order.insert(0, digit)
    digits = [in_order[place - 1] for place in _ORDER]
    check = -sum(place * digit for place, digit in enumerate(digits, start=2)) % len(UFI_ALPHABET)
    return _in_blocks("".join(UFI_ALPHABET[digit] for digit in (check, *digits)))


def parts_of_ufi(ufi: str) -> UfiParts:
    """The company and the number in a UFI that `ufi` let pass.

    >>> parts_of_ufi("C23S-PQ2V-AMH9-VVRF")
    UfiParts(company=Company(country='AT', value=12345678), formulation=178956970)
    """
    payload = _payload([UFI_ALPHABET.index(letter) for letter in ufi.replace("-", "")[1:]])
    company = _company_of(payload)
    if company is None:
        raise ValueError(f"'{ufi}' is no UFI")
    return UfiParts(company, payload >> (1 + COMPANY_BITS + _GROUP_BITS))


def _company_of(payload: int) -> Company | None:
    """Payload, most significant bit first: formulation 28, country group 4, country and company 41, version 1."""
    group = payload >> (COMPANY_BITS + 1) & ~(-1 << _GROUP_BITS)
    return company_in(group, payload >> 1 & ~(-1 << COMPANY_BITS))


def _refuse_impossible(text: str, payload: int) -> None:
    if payload >> _PAYLOAD_BITS or _company_of(payload) is None:
        raise _refused(text, "no country issues such a number")
    if payload & 1:
        raise _refused(text, "its version does not exist")


def _in_blocks(letters: str) -> str:
    return "-".join(letters[at : at + 4] for at in range(0, 16, 4))


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
