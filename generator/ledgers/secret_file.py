"""The file of the shop's secret: the secret, and how many rows the book of trade links has."""

from base64 import b32encode
from typing import Final

from generator.model.secret import Mark, ShopSecret

SECRET_BYTES: Final = 32
NO_ROWS: Final = Mark(rows=0, seal="")
_HEAD: Final = """\
# The secret of this shop: the keys of all its trade links are made from it, and anyone who has it can open every sheet.
# Keep a copy in a safe place, because no link opens without it; give it to no one, and keep it out of version control.
"""
_BELOW: Final = """\
# How many rows trade/links.csv has, and the seal of the last one: so an older or changed list is noticed.
"""


def secret_file(secret: ShopSecret) -> bytes:
    """The secret and its mark, with comments that explain them."""
    key = b32encode(secret.key).decode().rstrip("=").lower()
    mark = "" if secret.mark is None else f"{_BELOW}{secret.mark.rows} {secret.mark.seal}".rstrip() + "\n"
    return f"{_HEAD}{key}\n{mark}".encode()
