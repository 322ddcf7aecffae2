"""The company inside a UFI: VAT numbers and company keys as one whole number, and the numbers that share it.

Source: ECHA, UFI Developers Manual v1.4, 2.1.1 (FOUND-2nd: the tables of three public implementations agree, and 54
pairs of one are in the tests; Switzerland's row FOUND-2nd in one of them, without a pair).
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

COMPANY_BITS: Final = 41
"""Country code and company value together."""

_DIGITS: Final = "0123456789"
_LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_SETS: Final = {"#": _DIGITS, "@": _LETTERS, "%": _DIGITS + _LETTERS, "&": f"{_LETTERS}+*"}
"""What stands at a place of a form: a digit, a letter, either of them, or one of Ireland's older second signs."""


@dataclass(frozen=True)
class _Form:
    """One way in which a country writes its numbers, without the country's two letters.

    ``places`` has a sign of `_SETS` for each place that counts; other signs are written there and count nothing. The
    value is that of the letters, in the order they are written or backwards, then that of the digits, above ``base``.
    """

    places: str
    base: int = 0
    backwards: bool = False
    below: int = 1 << COMPANY_BITS

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        return re.compile("".join(f"([{_SETS[p]}])" if p in _SETS else re.escape(p) for p in self.places))

    @cached_property
    def _signs(self) -> tuple[tuple[int, str], ...]:
        """The places that count, the least first, each with what may stand there; places count without fixed signs."""
        counted = [(at, _SETS[p]) for at, p in enumerate(p for p in self.places if p in _SETS)]
        digits = [each for each in counted if each[1] == _DIGITS]
        letters = [each for each in counted if each[1] != _DIGITS]
        return (*digits[::-1], *(letters if self.backwards else letters[::-1]))

    def value_of(self, number: str) -> int | None:
        """The whole number that a number without its country's letters stands for; None where it is of no such form."""
        match = self._pattern.fullmatch(number)
        if match is None:
            return None
        value = 0
        for at, signs in reversed(self._signs):
            value = value * len(signs) + signs.index(match[at + 1])
        return value + self.base if value + self.base < self.below else None

    def number_of(self, value: int) -> str | None:
        """The number of this form that has the value; None where there is none."""
        rest, found = value - self.base, dict[int, str]()
        if rest < 0 or value >= self.below:
            return None
        for at, signs in self._signs:
            rest, digit = divmod(rest, len(signs))
            found[at] = signs[digit]
        counted = (found[at] for at in sorted(found))
        return None if rest else "".join(next(counted) if p in _SETS else p for p in self.places)


def _digits(*lengths: int) -> tuple[_Form, ...]:
    return tuple(_Form("#" * length) for length in lengths)


@dataclass(frozen=True, kw_only=True)
class CountryRow:
    """A country's place in a UFI: its group, the bits and the value of its code in it, and how it writes numbers."""

    group: int
    bits: int
    code: int
    forms: tuple[_Form, ...]


COMPANY_KEY: Final = ""
"""Stands in a country's place where the number is a company key."""

_IN_GROUP_5: Final = (
    ("BG", _digits(9, 10)),
    ("CZ", _digits(8, 9, 10)),
    (
        "IE",
        (
            _Form("#&#####@"),
            _Form("#######@", base=1 << 33, backwards=True),
            _Form("#######@@", base=1 << 33, backwards=True),
        ),
    ),
    ("ES", (_Form("%#######%"),)),
    ("PL", _digits(10)),
    ("RO", _digits(2, 3, 4, 5, 6, 7, 8, 9, 10)),
    ("SK", _digits(10)),
    ("CY", (_Form("########@"),)),
    ("IS", (_Form("%%%%%%"),)),
    ("BE", (_Form("##########", below=2 * 10**9),)),
    *((country, _digits(9)) for country in ("DE", "EE", "GR", "NO", "PT")),
    ("AT", (_Form("U########"),)),
    *((country, _digits(8)) for country in ("DK", "FI", "HU", "LU", "MT", "SI")),
    ("LI", _digits(5)),
)
COUNTRIES: Final[Mapping[str, CountryRow]] = {
    COMPANY_KEY: CountryRow(group=0, bits=0, code=0, forms=_digits(*range(1, 14))),
    "FR": CountryRow(group=1, bits=0, code=0, forms=(_Form("%%#########"),)),
    "GB": CountryRow(
        group=2,
        bits=0,
        code=0,
        forms=(_Form("#########", base=1 << 40), _Form("############", base=1 << 40), _Form("@@###")),
    ),
    "LT": CountryRow(group=3, bits=1, code=0, forms=_digits(9, 12)),
    "SE": CountryRow(group=3, bits=1, code=1, forms=_digits(12)),
    "HR": CountryRow(group=4, bits=4, code=0, forms=_digits(11)),
    "IT": CountryRow(group=4, bits=4, code=1, forms=_digits(11)),
    "LV": CountryRow(group=4, bits=4, code=2, forms=_digits(11)),
    "NL": CountryRow(group=4, bits=4, code=3, forms=(_Form("#########B##"),)),
    **{
        country: CountryRow(group=5, bits=7, code=code, forms=forms)
        for code, (country, forms) in enumerate(_IN_GROUP_5)
    },
    "CH": CountryRow(group=5, bits=7, code=50, forms=(_Form("E#########"),)),
}
"""By the country's two letters."""

_ALSO: Final = {"EL": "GR", "XN": "GB", "XI": "GB"}
"""Other letters before a VAT number: Greece's own, and Northern Ireland's (XN FOUND-2nd, XI MEMORY)."""


@dataclass(frozen=True, slots=True)
class Company:
    """Whose UFI it is, as the UFI holds it: the country of the VAT number, nothing for a company key, and a value."""

    country: str
    value: int

    @property
    def numbers(self) -> tuple[str, ...]:
        """Every VAT number, with its country's letters, that has this value; or the company key.

        >>> company_of("IE9876543A").numbers
        ('IE9876543A', 'IE9876543AA')
        """
        if self.country == COMPANY_KEY:
            return (str(self.value),)
        written = (form.number_of(self.value) for form in COUNTRIES[self.country].forms)
        return tuple(f"{self.country}{number}" for number in written if number is not None)


_FORMS_OF_KEY: Final = (
    f"neither a VAT number with its country's letters nor a company key below {1 << COMPANY_BITS}"
)


def company_of(written: str) -> Company:
    """The company of a VAT number with its country's letters, or of a company key, which is digits alone.

    Raises ValueError, saying what is wrong with it.

    >>> company_of("ATU 1234 5678")
    Company(country='AT', value=12345678)
    """
    number = re.sub(r"[\s.-]", "", written.upper())
    letters = number[:2] if number[:2].isalpha() else COMPANY_KEY
    country = _ALSO.get(letters, letters)
    if country not in COUNTRIES:
        raise ValueError(f"'{written}' begins with {letters}, a country whose numbers make no UFI")
    values = (form.value_of(number.removeprefix(letters)) for form in COUNTRIES[country].forms)
    value = next((value for value in values if value is not None), None)
    if value is None:
        raise ValueError(f"'{written}' is {_FORMS_OF_KEY if not country else f'no VAT number of {country}'}")
    return Company(country, value)


def company_in(group: int, country_and_company: int) -> Company | None:
    """The company of those bits of a UFI; None where no country has them."""
    for country, row in COUNTRIES.items():
        free = COMPANY_BITS - row.bits
        if row.group == group and country_and_company >> free == (row.code if row.bits else 0):
            return Company(country, country_and_company & ~(-1 << free))
    return None


def bits_of(company: Company) -> tuple[int, int]:
    """The country's group, and its code and the company's value together, as a UFI holds them."""
    row = COUNTRIES[company.country]
    return row.group, row.code << (COMPANY_BITS - row.bits) | company.value
