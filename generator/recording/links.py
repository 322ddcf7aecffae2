"""A new row for the book of trade links."""

from typing import Final

from generator.model.trade import LinkVersion
from generator.recording.books import with_row

_COLUMNS: Final = ("buyer", "version", "since")


def with_link(book: bytes, link: LinkVersion) -> bytes:
    """The book and a row below it."""
    cells = {"buyer": link.buyer, "version": str(link.version), "since": link.since.isoformat()}
    return with_row(book, _COLUMNS, cells)
