"""The rules a page gives its browser: nothing runs, is fetched or is sent except what is named here."""

import re
from base64 import b64encode
from collections.abc import Iterable
from hashlib import sha256
from html import unescape
from typing import Final

_STYLE: Final = re.compile(rb"<style(?:\s[^>]*)?>(.*?)</style>", re.DOTALL | re.IGNORECASE)
_SCRIPT: Final = re.compile(rb"<script>(.*?)</script>", re.DOTALL | re.IGNORECASE)
"""A script without a type; one with a type is data, or does not run."""


def policy_of(*pages: bytes) -> str:
    """A content security policy that allows only the styles and scripts in these pages.

    More than one page, because a page opened inside another stays under the other's policy.
    """
    styles = " ".join(dict.fromkeys(each for page in pages for each in _hashes(_STYLE, page)))
    scripts = " ".join(dict.fromkeys(each for page in pages for each in _hashes(_SCRIPT, page)))
    return (
        f"default-src 'none'; img-src data:; style-src {styles or _NONE}; script-src {scripts or _NONE}; "
        "base-uri 'none'; form-action 'none'"
    )


def policy_of_site(pages: Iterable[bytes]) -> str:
    """A content security policy for all files of a site, as its host sends it.

    A page that opens another names the scripts of both in its own policy; a host's policy must allow those too.
    """
    scripts: set[str] = set()
    for page in pages:
        scripts.update(_hashes(_SCRIPT, page))
        scripts.update(hash_ for own in _OWN.findall(page) for hash_ in _scripts_named(own))
    return (
        "default-src 'self'; img-src 'self' data:; style-src 'self' 'unsafe-inline'; "
        f"script-src {' '.join((_SELF, *sorted(scripts)))}; "
        "object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'self'"
    )


_NONE: Final = "'none'"
_SELF: Final = "'self'"
_OWN: Final = re.compile(rb"<meta[^>]*content-security-policy[^>]*>", re.IGNORECASE)


def _scripts_named(own: bytes) -> list[str]:
    """The hashes of scripts in a page's own policy."""
    _, _, scripts = unescape(own.decode()).partition("script-src ")
    return re.findall(r"'sha256-[^']+'", scripts.partition(";")[0])


def _hashes(wanted: re.Pattern[bytes], page: bytes) -> list[str]:
    return [f"'sha256-{b64encode(sha256(found).digest()).decode()}'" for found in wanted.findall(page)]
