"""The rules a page gives its browser: nothing runs, nothing is fetched and nothing is sent but what is named here."""

import re
from base64 import b64encode
from hashlib import sha256
from typing import Final

_STYLE: Final = re.compile(rb"<style(?:\s[^>]*)?>(.*?)</style>", re.DOTALL | re.IGNORECASE)
_SCRIPT: Final = re.compile(rb"<script>(.*?)</script>", re.DOTALL | re.IGNORECASE)
"""A script without a type; one with a type is data, or is not run."""


def policy_of(*pages: bytes) -> str:
    """A content security policy under which only the styles and scripts that stand in these pages work.

    More than one page, because a page that is opened inside another stays under the other's policy.
    """
    styles = " ".join(dict.fromkeys(each for page in pages for each in _hashes(_STYLE, page)))
    scripts = " ".join(dict.fromkeys(each for page in pages for each in _hashes(_SCRIPT, page)))
    return (
        f"default-src 'none'; img-src data:; style-src {styles or _NONE}; script-src {scripts or _NONE}; "
        "base-uri 'none'; form-action 'none'"
    )


_NONE: Final = "'none'"


def _hashes(wanted: re.Pattern[bytes], page: bytes) -> list[str]:
    return [f"'sha256-{b64encode(sha256(found).digest()).decode()}'" for found in wanted.findall(page)]
