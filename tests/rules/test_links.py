"""The book of trade links: whatever is done to its rows by hand is told, and so is every older copy of it."""

from dataclasses import replace
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from generator.ledgers.books import sealed_behind
from generator.model.secret import Mark, ShopSecret
from generator.model.trade import LinkVersion
from generator.model.trade_links import ENDED, link_name, links_in_force, mark_of, seals_of
from generator.problems import is_error
from generator.rules.entries.link_checks import book_faults

KEY = bytes(range(32))
Book = tuple[LinkVersion, ...]


def older_row(buyer: str, version: int = 1) -> LinkVersion:
    """As it was written before there were seals."""
    return LinkVersion(buyer=buyer, version=version, since=date(2026, 11, 1))


def book_of(older: int, given_out: int, key: bytes = KEY) -> Book:
    """Rows of older and of newer links, each new one sealed."""
    rows = tuple(older_row(f"old-{number}") for number in range(older))
    more = [
        replace(
            older_row(f"new-{number % 3}", 1 + number // 3), name=f"Shop {number % 3}", link=f"{number:032x}"
        )
        for number in range(given_out)
    ]
    return sealed_behind(key, rows, more)


BOOKS = st.builds(book_of, st.integers(0, 3), st.integers(0, 6))


def marked(book: Book, key: bytes = KEY) -> ShopSecret:
    return ShopSecret(key=key, mark=mark_of(key, book))


def is_told(book: Book, secret: ShopSecret) -> bool:
    return any(is_error(fault) for fault in book_faults(book, secret))


@given(book=BOOKS)
def test_a_book_as_it_was_written_is_sound(book: Book) -> None:
    assert list(book_faults(book, marked(book))) == []


@given(book=BOOKS, data=st.data())
def test_a_secret_that_was_copied_earlier_accuses_nobody(book: Book, data: st.DataObject) -> None:
    older = sum(row.seal is None for row in book)  # All of these were there when the first mark was made.
    earlier = book[: data.draw(st.integers(older, len(book)))]

    assert list(book_faults(book, marked(earlier))) == []


@given(book=BOOKS, data=st.data())
def test_every_older_copy_of_the_book_is_told(book: Book, data: st.DataObject) -> None:
    fewer = data.draw(st.integers(0, len(book)))

    assert is_told(book[:fewer], marked(book)) == (fewer < len(book))


@given(book=BOOKS.filter(bool), data=st.data())
def test_a_row_that_is_dropped_doubled_or_swapped_is_told(book: Book, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(book) - 1))
    dropped = (*book[:at], *book[at + 1 :])
    doubled = (*book[: at + 1], *book[at:])
    swapped = (*book[:at], *reversed(book[at : at + 2]), *book[at + 2 :])

    secret = marked(book)

    assert is_told(dropped, secret)
    assert is_told(doubled, secret)
    assert is_told(swapped, secret) == (swapped != book)


@given(book=BOOKS.filter(bool), data=st.data())
def test_a_cell_that_is_changed_is_told(book: Book, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(book) - 1))
    changes = [{"buyer": "another"}, {"version": 9}, {"since": date(2027, 1, 1)}]
    if book[at].seal:
        changes += [
            {"name": "Another"},
            {"link": "0b" * 16},
            {"link": ENDED},
            {"seal": "0c" * 16},
            {"seal": None, "name": None, "link": None},
        ]
    changed = replace(book[at], **data.draw(st.sampled_from(changes)))  # type: ignore[arg-type]

    assert is_told((*book[:at], changed, *book[at + 1 :]), marked(book))


@given(book=BOOKS)
def test_a_row_that_is_added_by_hand_is_told(book: Book) -> None:
    assert is_told((*book, older_row("quay-stores")), marked(book))


@given(book=st.builds(book_of, st.integers(0, 2), st.integers(1, 4)))
def test_another_shops_secret_is_told_once(book: Book) -> None:
    faults = list(book_faults(book, ShopSecret(key=bytes(32), mark=Mark(rows=0, seal=""))))

    assert [fault.what for fault in faults] == ["no row was written with the shop's secret that is here"]


def test_one_changed_row_alone_is_not_taken_for_another_shops_secret() -> None:
    book = book_of(0, 1)
    changed = (replace(book[0], version=2),)

    assert ["changed" in fault.what for fault in book_faults(changed, marked(book))] == [True]


def test_a_book_that_went_another_way_from_a_row_on_is_told() -> None:
    """Two computers gave a link out at the same time, and the rows of one were kept."""
    here = book_of(0, 3)
    there = sealed_behind(KEY, here[:2], [replace(here[2], link="0b" * 16, seal=None)])

    faults = list(book_faults(there, marked(here)))

    assert [fault.what for fault in faults] == ["a different row was written here with the shop's secret"]
    assert faults[0].path == ("trade/links.csv", 2)


def test_a_version_that_goes_back_is_told_in_a_book_without_seals() -> None:
    rows = (older_row("quay-stores", 2), older_row("quay-stores", 1))

    faults = [fault for fault in book_faults(rows, ShopSecret(key=KEY, mark=None)) if is_error(fault)]

    assert [(fault.path, fault.what) for fault in faults] == [
        (("trade/links.csv", 1, "version"), "version 1 of 'quay-stores' comes after version 2")
    ]


def test_the_last_row_counts_and_an_ended_link_is_in_force_no_more() -> None:
    rows = (older_row("a"), older_row("b"), older_row("a", 2), replace(older_row("b"), link=ENDED))

    assert {id_: link_name(row) for id_, row in links_in_force(rows).items()} == {"a": "a/2"}


def test_a_seal_depends_on_the_secret_and_on_every_row_before() -> None:
    book = book_of(1, 2)
    other_start = (older_row("another"), *book[1:])

    assert seals_of(KEY, book)[1:] == tuple(row.seal for row in book[1:])
    assert seals_of(bytes(32), book)[1] != book[1].seal
    assert seals_of(KEY, other_start)[1] != book[1].seal
