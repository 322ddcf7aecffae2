"""Issued sheets: what each revision says, when and why it was issued, and the seals that reveal an edit."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Final

from generator.model.burn_safety import Sheet, sheet_from
from generator.model.canonical import Plain, canonical, fingerprint_of, parsed

_LANGUAGE: Final = re.compile(r'"language":"([^"]*)"')

SHORT: Final = 12
"""The digits of a fingerprint that are shown; the ledger keeps all of them."""


@dataclass(frozen=True, kw_only=True)
class Issued:
    """One revision of one sheet, as issued.

    ``said`` and ``recorded`` are the canonical texts of what the sheet says and of the private record it came from;
    a build that needs neither does not parse them. ``seal`` covers the whole revision.
    """

    revision: int
    on: date
    reason: str
    said: str
    fingerprint: str
    recorded: str
    seal: str

    @cached_property
    def value(self) -> Sheet:
        """What the sheet says."""
        return sheet_from(self.said)

    @property
    def language(self) -> str | None:
        """The language it was issued in, read from the text without parsing all of it."""
        found = _LANGUAGE.search(self.said)
        return found[1] if found else None

    @cached_property
    def record(self) -> Mapping[str, Plain]:
        """The private record the sheet came from."""
        return parsed(self.recorded)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """Every issued revision of one stock code's sheet, oldest first; there is at least one.

    ``source`` is the digest of the file it was read from; empty if there was none.
    """

    stock_code: str
    revisions: tuple[Issued, ...]
    source: str = ""

    @property
    def present(self) -> Issued:
        """The revision in force."""
        return self.revisions[-1]


def seal_of(issued: Issued, before: str) -> str:
    """The seal of a revision: of its content and the previous revision's seal (``""`` for the first)."""
    # The long texts go in as digests, because writing them out again costs most of the time of reading a ledger.
    held = [
        issued.on.isoformat(),
        issued.reason,
        fingerprint_of(issued.said),
        fingerprint_of(issued.recorded),
    ]
    return fingerprint_of(canonical([before, str(issued.revision), *held]))


def short_fingerprint(fingerprint: str) -> str:
    """A fingerprint as papers and messages show it."""
    return fingerprint[:SHORT]


def sheet_address(stock_code: str, revision: int) -> str:
    """The permanent address of a revision, from the site's root."""
    return f"safety/{stock_code}-r{revision}.html"


def paper_address(stock_code: str, revision: int, paper: str) -> str:
    """The permanent address of a revision's PDF for one paper size, from the site's root."""
    return f"safety/{stock_code}-r{revision}-{paper}.pdf"
