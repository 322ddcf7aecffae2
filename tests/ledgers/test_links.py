"""The book of trade links grows by a row, and the shop's secret is written so that it can be read again."""

from datetime import date
from pathlib import Path

import pytest

from generator.ledgers.books import LINK_COLUMNS, with_columns, with_link
from generator.ledgers.secret_file import secret_file
from generator.model.secret import Mark, ShopSecret
from generator.model.trade import LinkVersion
from generator.reading.shop_secret import HIDDEN_FILE, read_secret

FIRST = LinkVersion(
    buyer="quay-stores", version=1, since=date(2026, 11, 1), name="Quay, Stores", link="a1", seal="b2"
)
SECOND = LinkVersion(
    buyer="quay-stores", version=2, since=date(2026, 12, 1), name="Quay Stores", link="ended", seal="c3"
)


def test_the_first_link_begins_the_book() -> None:
    assert with_link(b"", FIRST) == (
        b'buyer,version,since,name,link,seal\nquay-stores,1,2026-11-01,"Quay, Stores",a1,b2\n'
    )


def test_what_stands_in_the_book_stays_with_its_separator_line_ends_and_columns() -> None:
    head, row = "\ufeffsince;buyer;sent by;version", "\r\n2026-11-01;quay-stores;post;1"

    longer = with_link(f"{head}{row}".encode(), SECOND)

    assert longer.decode() == (
        f"{head};name;link;seal{row}\r\n2026-12-01;quay-stores;;2;Quay Stores;ended;c3\r\n"
    )


@pytest.mark.parametrize(
    ("head", "longer"),
    [
        ("buyer,version,since,,", "buyer,version,since,name,link,seal"),
        ("\n\nbuyer\tversion\tsince\tseal", "\n\nbuyer\tversion\tsince\tseal\tname\tlink"),
        ('"buyer","version","since"', '"buyer","version","since",name,link,seal'),
        ("buyer,version,since,name,link,seal", "buyer,version,since,name,link,seal"),
        ("buyer,version,since,,,,,,", "buyer,version,since,name,link,seal,,,"),
        ('buyer,"sent\nby",version,since', 'buyer,"sent\nby",version,since,name,link,seal'),
    ],
    ids=[
        "separators of a spreadsheet",
        "blank lines and tabs",
        "quotes",
        "all there",
        "more separators",
        "two lines",
    ],
)
def test_a_book_without_a_column_gets_it_at_the_end_of_its_first_line(head: str, longer: str) -> None:
    assert with_columns(f"{head}\nquay-stores".encode(), LINK_COLUMNS).decode() == f"{longer}\nquay-stores"


@pytest.mark.parametrize("mark", [None, Mark(rows=0, seal=""), Mark(rows=12, seal="0a" * 16)])
def test_the_secret_that_is_written_is_the_one_that_is_read(tmp_path: Path, mark: Mark | None) -> None:
    secret = ShopSecret(key=bytes(range(32)), mark=mark)
    (tmp_path / HIDDEN_FILE).write_bytes(secret_file(secret))
    (tmp_path / HIDDEN_FILE).chmod(0o600)

    assert read_secret(tmp_path, "content", 0) == secret
