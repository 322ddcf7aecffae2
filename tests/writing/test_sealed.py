"""Sealed pages: what a link's key opens, what nothing else does, and what the ciphertext tells."""

import gzip
import hmac
import random
from base64 import b32decode
from hashlib import sha256

import pytest
from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.memory import digest
from generator.writing.sealed import STEP_BYTES, Link, base32, encrypted_page, link_of

SECRET = bytes(range(32))
LINK = link_of(SECRET, "quay-stores/1")
TAG_BYTES = 16
NONCE_BYTES = 12


def opened(link: Link, data: bytes) -> bytes:
    """What the browser does, in other words."""
    nonce, text = data[:NONCE_BYTES], data[NONCE_BYTES:]
    plain = AESGCM(link.key).decrypt(nonce, text, link.path.encode())
    length = int.from_bytes(plain[:4], "big")
    return gzip.decompress(plain[4 : 4 + length])


@given(page=st.binary(max_size=20_000))
@settings(max_examples=30)
def test_what_is_sealed_opens_to_the_same_bytes(page: bytes) -> None:
    assert opened(LINK, encrypted_page(LINK, page)) == page


def test_the_same_page_gives_the_same_bytes() -> None:
    assert encrypted_page(LINK, b"prices") == encrypted_page(link_of(SECRET, "quay-stores/1"), b"prices")


def test_a_change_of_one_letter_gives_another_nonce_and_another_ciphertext() -> None:
    before, after = encrypted_page(LINK, b"price 9.00"), encrypted_page(LINK, b"price 9.05")

    assert before[:NONCE_BYTES] != after[:NONCE_BYTES]
    alike = sum(one == other for one, other in zip(before, after, strict=True))
    assert alike < len(before) / 50


@pytest.mark.parametrize("spot", [0, NONCE_BYTES, 2000, -1], ids=["nonce", "first byte", "inside", "tag"])
def test_one_flipped_bit_is_refused(spot: int) -> None:
    changed = bytearray(encrypted_page(LINK, b"prices"))
    changed[spot] ^= 1

    with pytest.raises(InvalidTag):
        opened(LINK, bytes(changed))


@pytest.mark.parametrize(
    "other",
    [
        link_of(SECRET, "quay-stores/2"),
        link_of(SECRET, "lamp-room/1"),
        link_of(bytes(32), "quay-stores/1"),
        Link(path=f"{LINK.path}x", key=LINK.key, nonce_key=LINK.nonce_key),
        Link(path=LINK.path, key=link_of(SECRET, "quay-stores/2").key, nonce_key=LINK.nonce_key),
    ],
    ids=["another version", "another buyer", "another shop", "another path", "another key"],
)
def test_nothing_but_the_links_own_key_and_path_opens_it(other: Link) -> None:
    with pytest.raises(InvalidTag):
        opened(other, encrypted_page(LINK, b"prices"))


def test_the_length_tells_no_more_than_a_step_of_four_kib() -> None:
    noise = random.Random(1)  # noqa: S311  # nothing secret, only bytes that do not compress
    pages = [noise.randbytes(length) for length in (0, 1, 3000, 4000, 4050, 4096, 9000, 20_000)]

    lengths = [len(encrypted_page(LINK, page)) - NONCE_BYTES - TAG_BYTES for page in pages]

    assert {length % 4096 for length in lengths} == {0}
    assert lengths[:4] == [4096] * 4
    assert STEP_BYTES == 4096


def test_addresses_and_keys_of_buyers_and_versions_have_nothing_in_common() -> None:
    links = [link_of(SECRET, f"buyer-{number}/{version}") for number in range(50) for version in (1, 2)]

    parts = [part for link in links for part in (link.path, link.written_key, link.nonce_key.hex())]

    assert len(set(parts)) == 3 * len(links)
    assert len({part[2:8] for part in parts}) > 2.9 * len(links)


def test_buyers_and_versions_that_read_alike_side_by_side_are_told_apart() -> None:
    assert link_of(SECRET, "a-1/1").key != link_of(SECRET, "a-/11").key


def test_the_key_is_made_by_the_derivation_of_rfc_5869() -> None:
    """RFC 5869, sections 2.2 and 2.3 (MEMORY): extract under a salt of zeros, then one block of expansion."""
    info = bytes.fromhex(digest("trade link 1", "key", "quay-stores", "1"))

    extracted = hmac.digest(bytes(32), SECRET, sha256)
    expanded = hmac.digest(extracted, info + b"\x01", sha256)

    assert LINK.key == expanded


@pytest.mark.parametrize(
    ("data", "text"),
    [(b"f", "my"), (b"fo", "mzxq"), (b"foo", "mzxw6"), (b"foob", "mzxw6yq"), (b"fooba", "mzxw6ytb"),
     (b"foobar", "mzxw6ytboi")],
)  # fmt: skip
def test_bytes_are_written_in_base_32(data: bytes, text: str) -> None:
    """The test vectors of RFC 4648, section 10 (MEMORY), in small letters and without padding."""
    assert base32(data) == text


def test_a_key_is_52_letters_that_no_mail_program_cuts_at() -> None:
    key = LINK.written_key

    assert len(key) == 52
    assert key.isalnum()
    assert b32decode(f"{key.upper()}====") == LINK.key


def test_a_link_that_is_printed_in_a_trace_shows_no_key() -> None:
    assert LINK.written_key not in repr(LINK)
    assert str(LINK.key) not in repr(LINK)
    assert str(LINK.nonce_key) not in repr(LINK)
