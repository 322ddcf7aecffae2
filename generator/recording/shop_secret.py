"""The file of the shop's secret, as it is written once."""

from base64 import b32encode
from typing import Final

SECRET_BYTES: Final = 32
_HEAD: Final = """\
# The secret of this shop: the keys of all its trade links are made from it, and whoever has it can open every sheet.
# Keep a copy in a safe place, since no link opens without it; give it to nobody and keep it out of version control.
"""


def secret_file(secret: bytes) -> bytes:
    """The secret with words on what it is."""
    return f"{_HEAD}{b32encode(secret).decode().rstrip('=').lower()}\n".encode()
