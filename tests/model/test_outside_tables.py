"""Numbers and codes held against what others made of the same standards."""

import json
import re
import shutil
import subprocess
from pathlib import Path
from zoneinfo import TZPATH

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic_core import PydanticCustomError
from stdnum import casrn, ean
from stdnum.eu import ecnumber

from generator.model.addresses import is_international, phone
from generator.model.countries import EU_COUNTRIES, country
from generator.model.identifiers import cas_number, ec_number
from generator.model.money import CURRENCIES
from generator.rules.labels.barcode import barcode_faults
from generator.rules.trade.tax_numbers import is_plausible

ISO_3166 = next((file for at in TZPATH if (file := Path(at) / "iso3166.tab").is_file()), None)
NODE = shutil.which("node")
FORINT = {"HUF": 2}
"""ISO 4217 gives it 2 (MEMORY); the tables that come with Node go by its coins and say 0."""

DIGITS = st.integers(0, 9).map(str)


def takes(reader: object, written: str) -> bool:
    try:
        reader(written)  # type: ignore[operator]
    except PydanticCustomError:
        return False
    return True


@pytest.mark.skipif(ISO_3166 is None, reason="this system has no time zone database")
def test_countries_are_those_that_the_time_zone_database_lists() -> None:
    assert ISO_3166 is not None
    lines = ISO_3166.read_text(encoding="utf-8").splitlines()
    listed = {line[:2] for line in lines if not line.startswith("#")}
    letters = [chr(code) for code in range(ord("A"), ord("Z") + 1)]

    taken = {one + two for one in letters for two in letters if takes(country, one + two)}

    assert taken == listed | {"XK"}
    assert listed > EU_COUNTRIES


@pytest.mark.skipif(NODE is None, reason="the tables of ECMA-402 come with Node")
def test_currencies_have_the_decimals_of_iso_4217_as_ecma_402_takes_them() -> None:
    asked = "c => new Intl.NumberFormat('en', {style: 'currency', currency: c}).resolvedOptions().maximumFractionDigits"
    code = f"const c = {json.dumps(list(CURRENCIES))}; console.log(JSON.stringify(c.map({asked})))"

    told = subprocess.run([str(NODE), "-e", code], capture_output=True, text=True, check=True).stdout

    found = dict(zip(CURRENCIES, json.loads(told), strict=True))
    assert {**found, **FORINT} == CURRENCIES


@given(st.from_regex(r"[1-9][0-9]{1,6}-[0-9]{2}-[0-9]", fullmatch=True))
def test_cas_numbers_are_those_that_another_library_takes(number: str) -> None:
    assert takes(cas_number, number) == casrn.is_valid(number)


@given(st.from_regex(r"[0-9]{3}-[0-9]{3}-[0-9]", fullmatch=True))
def test_ec_numbers_are_those_that_another_library_takes(number: str) -> None:
    """A rest of 10, which was never given out, the library takes for a 1."""
    rest = sum(place * int(digit) for place, digit in enumerate(number[:7].replace("-", ""), start=1)) % 11

    assert takes(ec_number, number) == (ecnumber.is_valid(number) and rest != 10)


@given(st.sampled_from([8, 12, 13]).flatmap(lambda n: st.lists(DIGITS, min_size=n, max_size=n)).map("".join))
def test_barcodes_are_those_that_another_library_takes(number: str) -> None:
    assert (barcode_faults(number) == ()) == ean.is_valid(number)


@pytest.mark.parametrize(
    "number",
    [
        "+44 1632 960188", "+33 1 99 00 47 21", "+49 (30) 23125-555", "+1 555-0100-123", "+123456789012345",
        "+44 20 7946 0018 ext. 12",
    ],
)  # fmt: skip
def test_numbers_of_e_164_are_taken_those_kept_for_fiction_too(number: str) -> None:
    assert phone(number) == number
    assert is_international(number)


@pytest.mark.parametrize(
    "number", ["call me", "+1234567890123456", "+44", "hello@house.example", "++44 1632 960188", "12/24"]
)
def test_what_nobody_can_dial_is_refused(number: str) -> None:
    assert not takes(phone, number)


def test_the_zero_in_brackets_is_not_dialled_from_abroad() -> None:
    with pytest.raises(PydanticCustomError) as raised:
        phone("+44 (0)1632 960188")

    assert raised.value.context is not None
    assert raised.value.context["fix"] == "+44 1632 960188"


@given(st.from_regex(re.compile(r"\+[1-9][0-9 ]{5,16}[0-9]", re.ASCII), fullmatch=True))
def test_a_number_has_15_digits_at_most(number: str) -> None:
    digits = sum(sign.isdigit() for sign in number)

    assert takes(phone, number) == (7 <= digits <= 15 and "    " not in number)


@pytest.mark.parametrize(
    ("number", "plausible"),
    [
        ("DE 136,695 976", True), ("DE 136695978", False), ("ATU 57194903", True), ("ATU57194902", False),
        ("FR 61 954 506 077", True), ("EL 094259216", True), ("IE 6388047V", True), ("IE 0000000X", False),
        ("GB 980 7806 84", True), ("GB 802311781", False), ("CHE-107.787.577 IVA", True),
        ("12/345/67890", True), ("exempt", True),
    ],
)  # fmt: skip
def test_vat_numbers_follow_the_public_form_of_their_country(number: str, plausible: bool) -> None:
    """The numbers are those of the reference library's own documentation, with a digit changed where they are wrong."""
    assert is_plausible(number) is plausible
