"""Countries as two letters, and the names under which people write them."""

from collections.abc import Iterable
from typing import Annotated, Final

from generator.model.quantities import as_text, wrong
from generator.model.words import text_from_entry

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


_ISO_3166: Final = frozenset({
    "AD", "AE", "AF", "AG", "AI", "AL", "AM", "AO", "AQ", "AR", "AS", "AT", "AU", "AW", "AX", "AZ", "BA", "BB",
    "BD", "BE", "BF", "BG", "BH", "BI", "BJ", "BL", "BM", "BN", "BO", "BQ", "BR", "BS", "BT", "BV", "BW", "BY",
    "BZ", "CA", "CC", "CD", "CF", "CG", "CH", "CI", "CK", "CL", "CM", "CN", "CO", "CR", "CU", "CV", "CW", "CX",
    "CY", "CZ", "DE", "DJ", "DK", "DM", "DO", "DZ", "EC", "EE", "EG", "EH", "ER", "ES", "ET", "FI", "FJ", "FK",
    "FM", "FO", "FR", "GA", "GB", "GD", "GE", "GF", "GG", "GH", "GI", "GL", "GM", "GN", "GP", "GQ", "GR", "GS",
    "GT", "GU", "GW", "GY", "HK", "HM", "HN", "HR", "HT", "HU", "ID", "IE", "IL", "IM", "IN", "IO", "IQ", "IR",
    "IS", "IT", "JE", "JM", "JO", "JP", "KE", "KG", "KH", "KI", "KM", "KN", "KP", "KR", "KW", "KY", "KZ", "LA",
    "LB", "LC", "LI", "LK", "LR", "LS", "LT", "LU", "LV", "LY", "MA", "MC", "MD", "ME", "MF", "MG", "MH", "MK",
    "ML", "MM", "MN", "MO", "MP", "MQ", "MR", "MS", "MT", "MU", "MV", "MW", "MX", "MY", "MZ", "NA", "NC", "NE",
    "NF", "NG", "NI", "NL", "NO", "NP", "NR", "NU", "NZ", "OM", "PA", "PE", "PF", "PG", "PH", "PK", "PL", "PM",
    "PN", "PR", "PS", "PT", "PW", "PY", "QA", "RE", "RO", "RS", "RU", "RW", "SA", "SB", "SC", "SD", "SE", "SG",
    "SH", "SI", "SJ", "SK", "SL", "SM", "SN", "SO", "SR", "SS", "ST", "SV", "SX", "SY", "SZ", "TC", "TD", "TF",
    "TG", "TH", "TJ", "TK", "TL", "TM", "TN", "TO", "TR", "TT", "TV", "TW", "TZ", "UA", "UG", "UM", "US", "UY",
    "UZ", "VA", "VC", "VE", "VG", "VI", "VN", "VU", "WF", "WS", "YE", "YT", "ZA", "ZM", "ZW",
})  # fmt: skip
"""Every code of ISO 3166-1, as the time zone database lists them (iso3166.tab of tzdata 2025, FOUND)."""

_KOSOVO: Final = "XK"
"""User-assigned in ISO 3166-1, and used for Kosovo by customs and carriers (MEMORY)."""


EU_COUNTRIES: Final = frozenset({
    "AT", "BE", "BG", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU", "IE", "IT", "LT", "LU", "LV",
    "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK",
})  # fmt: skip
"""Member states by ISO 3166-1 code (MEMORY; 27 since 2020)."""


def country(written: object) -> str:
    """The two capital letters of ISO 3166-1: ``GB``."""
    text = text_from_entry(written)
    if text in _ISO_3166 or text == _KOSOVO:
        return text
    two_letters = text.upper() if text.upper() in _ISO_3166 else None
    raise wrong(
        f"is '{text}'; expected a country's two letters",
        "it decides which markets need a contact of their own",
        _BY_NAME.get(text.lower()) or two_letters or "",
    )


Country = Annotated[str, *as_text(country, r"^[A-Z]{2}$", "GB", "its two capital letters in ISO 3166-1")]

EEA_COUNTRIES: Final = EU_COUNTRIES | {"IS", "LI", "NO"}
"""The European Economic Area, where CLP holds (FOUND-2nd)."""


def in_northern_ireland(country: str, address: Iterable[str]) -> bool:
    """Whether an address of two capital letters and its lines is there; its postcodes begin with BT (MEMORY)."""
    lines = " ".join(address).casefold()
    codes = (word.startswith("bt") and word[2:].isdigit() for word in lines.replace(",", " ").split())
    return country == "GB" and ("northern ireland" in lines or any(codes))
