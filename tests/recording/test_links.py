"""The book of trade links grows by a row, and the shop's secret is written so that it can be read again."""

from datetime import date
from pathlib import Path

from generator.model.trade import LinkVersion
from generator.reading.shop_secret import HIDDEN_FILE, read_secret
from generator.recording.links import with_link
from generator.recording.shop_secret import secret_file

FIRST = LinkVersion(buyer="quay-stores", version=1, since=date(2026, 11, 1))
SECOND = LinkVersion(buyer="quay-stores", version=2, since=date(2026, 12, 1))


def test_the_first_link_begins_the_book() -> None:
    assert with_link(b"", FIRST) == b"buyer,version,since\nquay-stores,1,2026-11-01\n"


def test_what_stands_in_the_book_stays_with_its_separator_line_ends_and_columns() -> None:
    book = "\ufeffsince;buyer;sent by;version\r\n2026-11-01;quay-stores;post;1".encode()

    assert with_link(book, SECOND) == book + b"\r\n2026-12-01;quay-stores;;2\r\n"


def test_the_secret_that_is_written_is_the_one_that_is_read(tmp_path: Path) -> None:
    secret = bytes(range(32))
    (tmp_path / HIDDEN_FILE).write_bytes(secret_file(secret))
    (tmp_path / HIDDEN_FILE).chmod(0o600)

    assert read_secret(tmp_path, "content", 0) == secret
