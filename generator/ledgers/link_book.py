"""New rows for the book of trade links, each with its seal."""

from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Final

from generator.ledgers.book_rows import with_columns, with_row
from generator.model.trade import LinkVersion
from generator.model.trade_links import seal_of_link, seals_of

COLUMNS: Final = tuple(field.name for field in fields(LinkVersion))


def sealed_behind(
    key: bytes, rows: Sequence[LinkVersion], more: Sequence[LinkVersion]
) -> tuple[LinkVersion, ...]:
    """All rows, the new ones closed behind those that are there."""
    sealed = list(rows)
    before = "" if not rows else rows[-1].seal or seals_of(key, rows)[-1]
    for row in more:
        before = seal_of_link(key, row, before)
        sealed.append(replace(row, seal=before))
    return tuple(sealed)


def with_link(book: bytes, link: LinkVersion) -> bytes:
    """The book and a row below it."""
    cells = {
        "buyer": link.buyer,
        "version": str(link.version),
        "since": link.since.isoformat(),
        "name": link.name or "",
        "link": link.link or "",
        "seal": link.seal or "",
    }
    return with_row(with_columns(book, COLUMNS), COLUMNS, cells)
