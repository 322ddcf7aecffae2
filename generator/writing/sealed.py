"""Pages that only the holder of a link can read: one key for each link, and a page encrypted with it.

The host has only ciphertext; the key is after the ``#`` of the link, which no browser sends to a host. The same
page encrypted for the same link gives the same bytes, so an unchanged page is not uploaded again.
"""

import gzip
import hmac
from base64 import b32encode
from dataclasses import dataclass, field
from functools import cache
from io import BytesIO
from typing import Final

from generator.memory import digest

_FOLDER: Final = "t"
STEP_BYTES: Final = 4096
"""Compressed pages are padded to a multiple of this, so that their length reveals little. (CHOICE)"""

_KEY_BYTES: Final = 32
_ADDRESS_BYTES: Final = 16
_NONCE_BYTES: Final = 12
"""The length that AES-GCM is meant for: NIST SP 800-38D, section 5.2.1.1. (MEMORY)"""

_LENGTH_BYTES: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """The path of one link's page, from the site's root, and the keys that seal and open it."""

    path: str
    key: bytes = field(repr=False)
    nonce_key: bytes = field(repr=False)

    @property
    def written_key(self) -> str:
        """The key as written after the ``#``: only letters and digits, since mail programs cut at other characters."""
        return base32(self.key)

    @property
    def memo_key(self) -> str:
        """A name for the link's keys that reveals nothing of them, for the store."""
        return digest("link", self.path, self.key, self.nonce_key)


@cache
def link_of(secret: bytes, name: str) -> Link:
    """The link of one name; neither its path nor its key reveals anything of another."""
    return Link(
        path=f"{_FOLDER}/{base32(_derived(secret, 'address', name)[:_ADDRESS_BYTES])}.html",
        key=_derived(secret, "key", name),
        nonce_key=_derived(secret, "nonce", name),
    )


def base32(data: bytes) -> str:
    """Bytes in the lower-case letters a to z and the digits 2 to 7: RFC 4648, section 6, without padding."""
    return b32encode(data).decode().rstrip("=").lower()


def encrypted_page(link: Link, page: bytes) -> bytes:
    """The nonce, then the page compressed, padded and encrypted, bound to its path."""
    # Imported here, because only shops that sell to the trade need it.
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM  # noqa: PLC0415

    plain = _filled_up(_compressed(page))
    path = link.path.encode()
    nonce = _nonce(link.nonce_key, path, plain)
    return nonce + AESGCM(link.key).encrypt(nonce, plain, path)


def _derived(secret: bytes, purpose: str, name: str) -> bytes:
    """A key for one purpose: HKDF of RFC 5869 with SHA-256."""
    from cryptography.hazmat.primitives.hashes import SHA256  # noqa: PLC0415
    from cryptography.hazmat.primitives.kdf.hkdf import HKDF  # noqa: PLC0415

    purpose_of_it = bytes.fromhex(digest("trade link 1", purpose, *name.split("/")))
    return HKDF(algorithm=SHA256(), length=_KEY_BYTES, salt=None, info=purpose_of_it).derive(secret)


def _compressed(page: bytes) -> bytes:
    """Without a time or a system name, so that it is the same everywhere."""
    packed = BytesIO()
    with gzip.GzipFile(filename="", mode="wb", fileobj=packed, mtime=0, compresslevel=6) as file:
        file.write(page)
    return packed.getvalue()


def _filled_up(packed: bytes) -> bytes:
    """The length, the data, and zeros up to the next step."""
    counted = len(packed).to_bytes(_LENGTH_BYTES, "big") + packed
    return counted + bytes(-len(counted) % STEP_BYTES)


def _nonce(nonce_key: bytes, path: bytes, plain: bytes) -> bytes:
    """Made from what it is for: the same page gets the same nonce, any other page another.

    A key thus seals no two pages with one nonce, except for a chance of 1 in 2^96 for each pair.
    """
    return hmac.digest(nonce_key, len(path).to_bytes(_LENGTH_BYTES, "big") + path + plain, "sha256")[
        :_NONCE_BYTES
    ]
