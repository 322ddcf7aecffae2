"""Buyers' VAT numbers, compared with the form that the country publishes."""

import re
from collections.abc import Iterator
from typing import Final

from generator.model.shop import Shop
from generator.problems import Fault, warning

_ELSEWHERE: Final = {"GB": "gb", "CH": "ch", "NO": "no"}
"""Countries outside the Union whose numbers begin with their own letters, by those."""


def tax_number_faults(shop: Shop) -> Iterator[Fault]:
    """A number with a country's letters but not in its form; numbers without letters are of many sorts."""
    for id_, buyer in shop.buyers.items():
        if buyer.tax_number is not None and not is_plausible(buyer.tax_number):
            yield warning(
                path=("trade/buyers.yaml", id_, "tax_number"),
                what=(
                    f"tax_number '{buyer.tax_number}' is not a VAT number of the country in its "
                    "first two letters"
                ),
                why="an invoice without tax depends on it, and the tax office checks it",
                fix="tax_number: as printed on the buyer's own papers",
                check="tax-number",
            )


def is_plausible(number: str) -> bool:
    """Whether a number has the digits, and the check digits, of the country whose letters it begins with."""
    letters = re.match(r"\s*([A-Za-z]{2})[A-Za-z]?[\s.-]*[A-Za-z]?[0-9]", number)
    if letters is None:
        return True
    from stdnum.eu import vat  # noqa: PLC0415  (it takes 50 ms to load, and most shops have no such number)
    from stdnum.util import get_cc_module  # noqa: PLC0415  (as above)

    country = letters[1].upper()
    if country in _ELSEWHERE:
        module = get_cc_module(_ELSEWHERE[country], "vat")
        return module is None or bool(module.is_valid(number))
    return country.lower() not in {*vat.MEMBER_STATES, "el"} or bool(vat.is_valid(number))
