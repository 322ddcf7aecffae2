"""How to reach a maker: web address, e-mail addresses, telephone numbers."""

import re
from typing import Annotated, Final

from generator.model.quantities import as_text, wrong
from generator.model.words import printable_text

_NAME: Final = r"[A-Za-z0-9](?:[A-Za-z0-9-]{0,61}[A-Za-z0-9])?"
_PORT: Final = (
    r"(?::(?:[1-9][0-9]{0,3}|[1-5][0-9]{4}|6[0-4][0-9]{3}|65[0-4][0-9]{2}|655[0-2][0-9]|6553[0-5]))?"
)
_FOLDERS: Final = r"(?:/(?!\.{1,2}(?:/|$)|[^/]*\.html?/?$)(?:[A-Za-z0-9._~-]|%[0-9A-Fa-f]{2})+)*"
_WEB: Final = rf"https?://{_NAME}(?:\.{_NAME})*{_PORT}{_FOLDERS}/?"
"""RFC 3986 (MEMORY) without user, query and fragment, because paths are appended to make absolute addresses.

A last part such as ``index.html`` is not a folder: a path appended to it would lead nowhere.
"""

_MEANT: Final = re.compile(
    rf"(?:(?P<scheme>[A-Za-z]*):?//?)?(?P<place>{_NAME}(?:\.{_NAME})+{_PORT}{_FOLDERS})/?(?:(?<=/)index\.html?)?"
)
_ENDS_IN_LETTERS: Final = re.compile(r"(?:[^./:]+\.)+[A-Za-z][^./:]*(?:[:/]|$)")
"""No host name ends in digits only (RFC 1123, 2.1, MEMORY): a number is not mistaken for one."""

_SLIPS: Final = re.compile(r"(?i)[htps]*")

_BOX: Final = r"[\w~!$'*+-]+(?:\.[\w~!$'*+-]+)*"
_DOMAIN: Final = r"[^\W_](?:[\w-]*[^\W_])?(?:\.[^\W_](?:[\w-]*[^\W_])?)+"
_EMAIL: Final = rf"{_BOX}@{_DOMAIN}"
"""A valid e-mail address of the HTML standard without the characters that RFC 6068 encodes in a link (MEMORY).

Letters of all languages are allowed, as in RFC 6531; a host has a dot, because outside mail
cannot reach one without.
"""


_PHONE: Final = r"\+?\(?[0-9](?:[\s()./-]{0,3}[0-9])*"
_EXTENSION: Final = r"(?i)[\s,]*(?:ext\.?|x)\s*[0-9]{1,6}$"
_FEWEST_DIGITS: Final = 7
_MOST_DIGITS: Final = 15
_PHONE_WHY: Final = "labels and sheets print it for anyone who has an accident with a candle"


def web(written: object) -> str:
    """The address of a site, over https or http."""
    text = printable_text(written)
    if re.fullmatch(_WEB, text):
        return text
    raise wrong(
        f"is '{_without_password(text)}'; expected https://, a host and perhaps folders",
        "every QR code, permanent link and shared link uses it",
        _web_meant(text) or "",
    )


def email(written: object) -> str:
    """One e-mail address."""
    text = printable_text(written)
    if re.fullmatch(_EMAIL, text):
        return text
    found = re.fullmatch(rf"(?i:mailto:)?({_EMAIL})|[^<>]*<({_EMAIL})>", text)
    raise wrong(
        f"is '{text}'; expected one e-mail address",
        "links and orders are sent to it",
        (found[1] or found[2]) if found else "",
    )


def phone(written: object) -> str:
    """A telephone number, international with ``+`` or as dialled at home, optionally with an extension.

    E.164 (MEMORY): a country's code and a number, 15 digits at most. The minimum of 7 digits is a CHOICE.
    """
    text = printable_text(written)
    dialled = re.sub(_EXTENSION, "", text)
    digits = re.sub(r"\D", "", dialled)
    if "(0)" in dialled and dialled.startswith("+"):
        raise wrong(
            f"is '{text}'; the 0 in brackets is not dialled after a country code",
            _PHONE_WHY,
            " ".join(text.replace("(0)", " ").split()),
        )
    if re.fullmatch(_PHONE, dialled) and _FEWEST_DIGITS <= len(digits) <= _MOST_DIGITS:
        return text
    raise wrong(f"is '{text}'; expected a telephone number of up to {_MOST_DIGITS} digits", _PHONE_WHY)


def is_international(number: str) -> bool:
    """Whether a number reaches its owner from any country."""
    return number.startswith("+")


def _web_meant(text: str) -> str | None:
    """The maker's own host and folders in the right form, where only the scheme is wrong or a page is named."""
    meant = _MEANT.fullmatch(text)
    if (
        meant is None
        or not _SLIPS.fullmatch(meant["scheme"] or "")
        or not _ENDS_IN_LETTERS.match(meant["place"])
    ):
        return None
    scheme = "http" if (meant["scheme"] or "").lower() == "http" else "https"
    return f"{scheme}://{meant['place']}"


def _without_password(text: str) -> str:
    return re.sub(r"[^/]*@", "...@", text)


Web = Annotated[
    str,
    *as_text(
        web,
        rf"^{_WEB}$",
        "https://quillfern.example",
        "https:// and the name of your site, from your web host",
    ),
]
Email = Annotated[
    str,
    *as_text(
        email,
        r"^[^@\s?&#%]+@[^@\s]+\.[^@\s]+$",
        "hello@quillfern.example",
        "one address only: a name, @, and a host with a dot",
    ),
]
Phone = Annotated[
    str,
    *as_text(
        phone,
        r"^\+?[0-9(][0-9\s()./-]*([ ,]*(ext\.?|x) *[0-9]+)?$",
        "+44 1632 960188",
        "+... (country code and number)",
    ),
]
