"""Countries as two letters, and the names under which people write them."""

import re
from typing import Annotated, Final

from pydantic import BeforeValidator

from generator.model.about import Form
from generator.model.quantities import text_schema, wrong
from generator.model.words import plain_text

_BY_NAME: Final = {
    **dict.fromkeys(
        (
            "uk", "u.k.", "united kingdom", "the united kingdom", "great britain", "britain", "en", "england",
            "scotland", "wales", "northern ireland",
        ),
        "GB",
    ),
    **dict.fromkeys(("ireland", "eire", "republic of ireland"), "IE"),
    **dict.fromkeys(("usa", "u.s.a.", "u.s.", "united states", "united states of america", "america"), "US"),
    **dict.fromkeys(("germany", "deutschland"), "DE"),
    **dict.fromkeys(("netherlands", "the netherlands", "holland", "nederland"), "NL"),
    **dict.fromkeys(("spain", "españa"), "ES"),
    **dict.fromkeys(("italy", "italia"), "IT"),
    **dict.fromkeys(("poland", "polska"), "PL"),
    **dict.fromkeys(("sweden", "sverige"), "SE"),
    **dict.fromkeys(("denmark", "danmark"), "DK"),
    **dict.fromkeys(("norway", "norge"), "NO"),
    **dict.fromkeys(("austria", "österreich"), "AT"),
    **dict.fromkeys(("greece", "el"), "GR"),
    "france": "FR", "belgium": "BE", "portugal": "PT", "finland": "FI", "switzerland": "CH", "czechia": "CZ",
    "hungary": "HU", "romania": "RO", "iceland": "IS", "canada": "CA", "australia": "AU",
    "new zealand": "NZ", "japan": "JP",
}  # fmt: skip
"""Common names and the two letters that ISO 3166-1 gives them (MEMORY)."""


EU_COUNTRIES: Final = frozenset({
    "AT", "BE", "BG", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU", "IE", "IT", "LT", "LU", "LV",
    "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK",
})  # fmt: skip
"""Member states by ISO 3166-1 code (MEMORY; 27 since 2020)."""


def country(written: object) -> str:
    """Two capital letters as ISO 3166-1 gives them: ``GB``."""
    text = plain_text(written)
    if re.fullmatch("[A-Z]{2}", text) and text.lower() not in _BY_NAME:
        return text
    two_letters = text.upper() if re.fullmatch("[a-z]{2}", text) else None
    raise wrong(
        f"is '{text}'; a country's two letters were expected",
        "which markets need a contact of their own depends on it",
        _BY_NAME.get(text.lower()) or two_letters or "",
    )


Country = Annotated[
    str,
    BeforeValidator(country),
    text_schema(r"^[A-Z]{2}$", "GB"),
    Form("its two capital letters in ISO 3166-1"),
]
