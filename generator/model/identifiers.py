"""Numbers that name a substance or a mixture, each with a digit that proves it was copied rightly."""

import re
from typing import Annotated, Final

from pydantic import BeforeValidator

from generator.model.quantities import text_schema, wrong

_WHY: Final = "the same substance is added up by it across all oils of a candle"
_UFI_WHY: Final = "a poison centre finds the recipe by it in an emergency"

UFI_ALPHABET: Final = "0123456789ACDEFGHJKMNPQRSTUVWXY"
"""The 31 characters of a UFI: no B, I, L, O and Z, which read like 8, 1, 1, 0 and 2 (MEMORY, Annex VIII)."""


def cas_number(written: object) -> str:
    """A CAS number such as ``78-70-6``, its check digit proven.

    Check digit = sum of the other digits, each times its place counted from the right, mod 10
    (MEMORY, Chemical Abstracts Service; held against 42 numbers of substances in the tests).
    """
    text = str(written).strip()
    match = re.fullmatch(r"([1-9][0-9]{1,6})-([0-9]{2})-([0-9])", text)
    if match is None:
        raise wrong(f"is '{text}'; a CAS number was expected", _WHY, "78-70-6")
    digits = match[1] + match[2]
    right = sum(place * int(digit) for place, digit in enumerate(reversed(digits), start=1)) % 10
    return _proven(text, match[3], str(right))


def ec_number(written: object) -> str:
    """An EC number such as ``201-134-4``, its check digit proven.

    Check digit = sum of the first six digits, each times its place counted from the left, mod 11; numbers
    that would need a 10 were never given out (MEMORY, EC Inventory; held against 42 numbers in the tests).
    """
    text = str(written).strip()
    match = re.fullmatch(r"([0-9]{3})-([0-9]{3})-([0-9])", text)
    if match is None:
        raise wrong(f"is '{text}'; an EC number was expected", _WHY, "201-134-4")
    right = sum(place * int(digit) for place, digit in enumerate(match[1] + match[2], start=1)) % 11
    if right == 10:
        raise wrong(f"is '{text}', a number that was never given out", _WHY, "the EC number as on the sheet")
    return _proven(text, match[3], str(right))


def _proven(text: str, last: str, right: str) -> str:
    if last != right:
        raise wrong(
            f"is '{text}'; its last digit would be {right}, so one of its digits is a slip",
            _WHY,
            f"{text[:-1]}{right}, if the slip is in the last digit",
        )
    return text


def ufi(written: object) -> str:
    """A unique formula identifier, in capitals and four blocks of four, its check character proven.

    The sum of the 16 characters' places in the alphabet, each times its position from 1 to 16, is a multiple
    of 31 (MEMORY, CLP Annex VIII and its developers' manual; three UFIs recalled from public pages agree).
    """
    text = str(written).strip()
    bare = re.sub(r"^UFI\s*:?\s*", "", text.upper())
    letters = re.sub(r"[\s-]", "", bare)
    if not re.fullmatch(rf"[{UFI_ALPHABET}]{{16}}", letters):
        raise wrong(
            f"is '{text}'; a UFI of 16 characters was expected",
            _UFI_WHY,
            f"{_UFI_EXAMPLE}, without B, I, L, O or Z",
        )
    total = sum(place * UFI_ALPHABET.index(letter) for place, letter in enumerate(letters, start=1))
    if total % len(UFI_ALPHABET):
        rest = total - UFI_ALPHABET.index(letters[0])
        first = UFI_ALPHABET[-rest % len(UFI_ALPHABET)]
        raise wrong(
            f"is '{text}'; its first character would be {first}, so one of its characters is a slip",
            _UFI_WHY,
            "the UFI as the poison-centre portal gave it",
        )
    return "-".join(letters[at : at + 4] for at in range(0, 16, 4))


_UFI_EXAMPLE: Final = "E1CK-WAX0-JARS-TUDY"

CasNumber = Annotated[
    str, BeforeValidator(cas_number), text_schema(r"^[1-9][0-9]{1,6}-[0-9]{2}-[0-9]$", "78-70-6")
]
EcNumber = Annotated[str, BeforeValidator(ec_number), text_schema(r"^[0-9]{3}-[0-9]{3}-[0-9]$", "201-134-4")]
Ufi = Annotated[
    str,
    BeforeValidator(ufi),
    text_schema(rf"^(UFI:? *)?([{UFI_ALPHABET}]{{4}}-){{3}}[{UFI_ALPHABET}]{{4}}$", _UFI_EXAMPLE),
]
