"""The book of trade links: which link each buyer has, and the seals that reveal a changed row."""

import hmac
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from generator.model.canonical import canonical
from generator.model.secret import Mark
from generator.model.trade import LinkVersion

ENDED: Final = "ended"
"""In a row in place of a link: from then on the buyer has none."""

_SEAL_DIGITS: Final = 32
"""128 bits of HMAC-SHA-256 in hexadecimal: short enough for a row. (CHOICE)"""


def link_name(row: LinkVersion) -> str:
    """What the keys of a row's link are derived from, besides the secret; for older rows, buyer and version."""
    return row.link or f"{row.buyer}/{row.version}"


def links_in_force(rows: Iterable[LinkVersion]) -> Mapping[str, LinkVersion]:
    """The last row of each buyer whose link has not ended."""
    last = {row.buyer: row for row in rows}
    return {buyer: row for buyer, row in last.items() if row.link != ENDED}


def seal_of_link(key: bytes, row: LinkVersion, before: str) -> str:
    """The seal of a row: of its content and the previous row's seal (``""`` for the first)."""
    said = [before, row.buyer, str(row.version), row.since.isoformat(), row.name or "", row.link or ""]
    return hmac.digest(key, canonical(["trade link row", *said]).encode(), "sha256").hex()[:_SEAL_DIGITS]


def seals_of(key: bytes, rows: Iterable[LinkVersion]) -> tuple[str, ...]:
    """The seal that each row should have, given the seal written before it; an older row counts as written."""
    seals: list[str] = []
    before = ""
    for row in rows:
        seals.append(seal_of_link(key, row, before))
        before = row.seal or seals[-1]
    return tuple(seals)


def mark_of(key: bytes, rows: Sequence[LinkVersion]) -> Mark:
    """What the secret's file remembers of these rows."""
    return Mark(rows=len(rows), seal=(rows[-1].seal or seals_of(key, rows)[-1]) if rows else "")
