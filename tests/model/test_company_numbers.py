"""UFIs made and read: published pairs both ways, and every country's numbers at random there and back."""

from random import Random

import pytest

from generator.model.company_numbers import (
    COMPANY_BITS,
    COMPANY_KEY,
    COUNTRIES,
    Company,
    company_of,
)
from generator.model.ufi import MOST_FORMULATIONS, UFI_ALPHABET, UfiParts, parts_of_ufi, ufi, ufi_of
from tests.model.ufi_values import GOOD

EACH = 25
"""Random numbers for each form of a country."""

SIGNS = {"#": "0123456789", "@": "ABCDEFGHIJKLMNOPQRSTUVWXYZ"}
SIGNS["%"], SIGNS["&"] = SIGNS["#"] + SIGNS["@"], SIGNS["@"] + "+*"


def _random_number(country: str, places: str, dice: Random) -> str:
    digits = "".join(dice.choice(SIGNS[place]) if place in SIGNS else place for place in places)
    # Belgian numbers begin with 0 or 1, and a company key has no more bits than a UFI has for it.
    first = dice.choice("01") if country in ("BE", COMPANY_KEY) else digits[0]
    return f"{country}{first}{digits[1:]}"


def _random_parts(dice: Random) -> UfiParts:
    country = dice.choice(list(COUNTRIES))
    form = dice.choice(COUNTRIES[country].forms)
    return UfiParts(
        company_of(_random_number(country, form.places, dice)), dice.randint(0, MOST_FORMULATIONS)
    )


@pytest.mark.parametrize(("vat", "formulation", "printed"), GOOD)
def test_a_published_pair_is_made_and_read(vat: str, formulation: int, printed: str) -> None:
    company = company_of(vat)

    assert ufi_of(UfiParts(company, formulation)) == printed
    assert parts_of_ufi(printed) == UfiParts(company, formulation)
    assert vat in company.numbers


def test_numbers_of_every_country_come_back() -> None:
    dice = Random(1272)  # noqa: S311  (no secret)
    for country, row in COUNTRIES.items():
        for form in row.forms:
            for _ in range(EACH):
                number = _random_number(country, form.places, dice)
                parts = UfiParts(company_of(number), dice.randint(0, MOST_FORMULATIONS))
                made = ufi_of(parts)

                assert ufi(made) == made
                assert parts_of_ufi(made) == parts
                assert parts.company.country == country
                if country == COMPANY_KEY:
                    assert parts.company.numbers == (str(int(number)),)
                else:
                    assert number in parts.company.numbers
                    assert {company_of(one) for one in parts.company.numbers} == {parts.company}


def test_only_numbers_that_share_a_value_are_listed_together() -> None:
    assert company_of("IE9876543A").numbers == ("IE9876543A", "IE9876543AA")
    assert company_of("BG0987654321").numbers == ("BG987654321", "BG0987654321")
    assert company_of("LT000123456789").numbers == ("LT123456789", "LT000123456789")
    assert company_of("RO98").numbers[0] == "RO98"
    assert len(company_of("RO98").numbers) == 9
    assert company_of("GB000123456789").numbers == ("GB123456789", "GB000123456789")
    assert company_of("DE112358132").numbers == ("DE112358132",)


def test_any_one_wrong_character_is_found() -> None:
    dice = Random(2008)  # noqa: S311  (no secret)
    for _ in range(12):
        letters = ufi_of(_random_parts(dice)).replace("-", "")
        for at in range(16):
            for other in UFI_ALPHABET.replace(letters[at], ""):
                with pytest.raises(Exception, match="check character"):
                    ufi(letters[:at] + other + letters[at + 1 :])


def test_the_lowest_and_the_highest_numbers_fit() -> None:
    for company in (Company(COMPANY_KEY, (1 << COMPANY_BITS) - 1), Company("DE", 0)):
        for formulation in (0, MOST_FORMULATIONS):
            parts = UfiParts(company, formulation)
            assert parts_of_ufi(ufi(ufi_of(parts))) == parts
    with pytest.raises(ValueError, match="268435455"):
        ufi_of(UfiParts(Company("DE", 0), MOST_FORMULATIONS + 1))


@pytest.mark.parametrize(
    ("written", "what"),
    [
        ("DE12345678", "no VAT number of DE"),
        ("BE2987654321", "no VAT number of BE"),
        ("US123456789", "US, a country whose numbers make no UFI"),
        ("9999999999999", "nor a company key"),
        ("", "nor a company key"),
        ("Sea & Sand", "SE"),
    ],
)
def test_what_is_no_number_of_a_company_is_refused(written: str, what: str) -> None:
    with pytest.raises(ValueError, match=what):
        company_of(written)


def test_spaces_dots_dashes_and_other_letters_of_a_country_do_not_matter() -> None:
    assert company_of("nl 999.999.999-b77") == company_of("NL999999999B77")
    assert company_of("EL567438921") == company_of("GR567438921")
    assert company_of("XI987654321") == company_of("XN987654321") == company_of("GB987654321")
    assert len(COUNTRIES) == 33
