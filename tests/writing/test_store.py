"""The memo: what it remembers, what it forgets, and that damage costs nothing but the work."""

from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.writing.store import Counts, Store, StoreShelf, digest

SLATE = digest("slate")
SAMPHIRE = digest("samphire")

Opened = Callable[[Store], StoreShelf]
both_kinds = pytest.mark.parametrize(
    "opened",
    [
        pytest.param(lambda store: store.shelf("pages"), id="packed"),
        pytest.param(lambda store: store.large("pictures"), id="a file each"),
    ],
)


def not_to_be_made() -> bytes:
    pytest.fail("the value was made again")


def saved(folder: Path, opened: Opened, **values: bytes) -> None:
    store = Store(folder)
    for name, value in values.items():
        opened(store).put(digest(name), value)
    store.save()


@both_kinds
def test_a_value_of_an_earlier_run_is_not_made_again(tmp_path: Path, opened: Opened) -> None:
    saved(tmp_path, opened, slate=b"wet and grey")

    value = opened(Store(tmp_path)).remember(SLATE, not_to_be_made)

    assert value == b"wet and grey"


@both_kinds
def test_a_held_value_is_known_by_digest_and_size_and_fetched_when_asked(
    tmp_path: Path, opened: Opened
) -> None:
    saved(tmp_path, opened, slate=b"grey")

    value = opened(Store(tmp_path)).lazy(SLATE, not_to_be_made)

    assert (value.sha256, value.size, value.fetch()) == (sha256(b"grey").hexdigest(), 4, b"grey")


@both_kinds
def test_a_held_value_that_nobody_fetched_is_kept(tmp_path: Path, opened: Opened) -> None:
    saved(tmp_path, opened, slate=b"grey", samphire=b"green")

    run = Store(tmp_path)
    opened(run).lazy(SLATE, not_to_be_made)
    run.save()

    assert opened(Store(tmp_path)).get(SLATE) == b"grey"


def test_a_held_value_that_is_damaged_when_it_is_fetched_is_made_again_and_kept(tmp_path: Path) -> None:
    saved(tmp_path, lambda store: store.shelf("pages"), slate=b"grey", samphire=b"green")
    pack = tmp_path / "pages.pack"
    pack.write_bytes(pack.read_bytes().replace(b"grey", b"gray"))

    run = Store(tmp_path)
    fetched = run.shelf("pages").lazy(SLATE, lambda: b"grey").fetch()
    run.save()

    assert (fetched, Store(tmp_path).shelf("pages").get(SLATE)) == (b"grey", b"grey")


@both_kinds
def test_a_value_made_in_this_run_is_not_made_twice(tmp_path: Path, opened: Opened) -> None:
    shelf = opened(Store(tmp_path))

    shelf.remember(SLATE, lambda: b"")

    assert shelf.remember(SLATE, not_to_be_made) == b""


@both_kinds
def test_nothing_is_written_before_the_store_is_saved(tmp_path: Path, opened: Opened) -> None:
    opened(Store(tmp_path / "output" / ".store")).put(SLATE, b"grey")

    assert list(tmp_path.iterdir()) == []


@both_kinds
def test_a_value_not_asked_for_in_a_run_is_dropped_when_it_is_saved(tmp_path: Path, opened: Opened) -> None:
    saved(tmp_path, opened, slate=b"grey", samphire=b"green")

    run = Store(tmp_path)
    opened(run).get(SLATE)
    run.save()

    later = opened(Store(tmp_path))
    assert (later.get(SLATE), later.get(SAMPHIRE)) == (b"grey", None)


@both_kinds
def test_hits_and_misses_count_distinct_values(tmp_path: Path, opened: Opened) -> None:
    saved(tmp_path, opened, slate=b"grey")
    shelf = opened(Store(tmp_path))

    for key in (SLATE, SLATE, SAMPHIRE, SAMPHIRE):
        shelf.remember(key, lambda: b"made")

    assert shelf.counts == Counts(hits=1, misses=1)


@both_kinds
def test_a_key_that_is_no_hex_digest_is_refused(tmp_path: Path, opened: Opened) -> None:
    shelf = opened(Store(tmp_path))

    with pytest.raises(ValueError, match=r"'\.\./slate' is not a hex digest"):
        shelf.get("../slate")


def test_a_pack_that_has_not_changed_is_not_written_again(tmp_path: Path) -> None:
    saved(tmp_path, lambda store: store.shelf("pages"), slate=b"grey")
    before = (tmp_path / "pages.pack").stat()

    run = Store(tmp_path)
    run.shelf("pages").remember(SLATE, not_to_be_made)
    run.save()

    # A replaced file has another inode, however fast the clock.
    after = (tmp_path / "pages.pack").stat()
    assert (after.st_ino, after.st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_a_shelf_that_a_run_did_not_open_stays_as_it_was(tmp_path: Path) -> None:
    saved(tmp_path, lambda store: store.shelf("pages"), slate=b"grey")

    saved(tmp_path, lambda store: store.shelf("facts"), samphire=b"green")

    assert Store(tmp_path).shelf("pages").get(SLATE) == b"grey"


def test_the_counts_of_a_run_stand_by_the_name_of_the_shelf(tmp_path: Path) -> None:
    run = Store(tmp_path)

    run.shelf("pages").put(SLATE, b"grey")
    run.large("pictures").get(SLATE)

    nothing, one_made = Counts(hits=0, misses=0), Counts(hits=0, misses=1)
    assert run.counts() == {"pages": one_made, "pictures": nothing}


def test_a_truncated_pack_counts_as_empty_wherever_it_is_cut(tmp_path: Path) -> None:
    saved(tmp_path, lambda store: store.shelf("pages"), slate=b"grey", samphire=b"green")
    whole = (tmp_path / "pages.pack").read_bytes()

    for length in range(len(whole)):
        (tmp_path / "pages.pack").write_bytes(whole[:length])

        assert Store(tmp_path).shelf("pages").get(SLATE) is None


@both_kinds
def test_a_flipped_bit_anywhere_costs_the_value_and_nothing_else(tmp_path: Path, opened: Opened) -> None:
    saved(tmp_path, opened, slate=b"grey")
    (file,) = (path for path in tmp_path.rglob("*") if path.is_file() and path.name != "index")
    whole = file.read_bytes()

    for spot in range(len(whole)):
        file.write_bytes(whole[:spot] + bytes([whole[spot] ^ 4]) + whole[spot + 1 :])

        assert opened(Store(tmp_path)).get(SLATE) is None


@both_kinds
def test_a_damaged_store_is_rebuilt_by_the_next_save(tmp_path: Path, opened: Opened) -> None:
    saved(tmp_path, opened, slate=b"grey")
    for file in tmp_path.rglob("*"):
        if file.is_file():
            file.write_bytes(b"rubbish")

    saved(tmp_path, opened, slate=b"grey")

    assert opened(Store(tmp_path)).get(SLATE) == b"grey"


def test_a_save_sweeps_what_a_killed_save_left(tmp_path: Path) -> None:
    (tmp_path / "pictures").mkdir()
    (tmp_path / ".wickwright-0a1b2c3d.part").write_bytes(b"half a pack")
    (tmp_path / "pictures" / ".wickwright-0a1b2c3d.part").write_bytes(b"half a picture")

    saved(tmp_path, lambda store: store.large("pictures"), slate=b"grey")

    assert {path.name for path in tmp_path.rglob("*") if path.is_file()} == {SLATE, "index"}


def test_a_value_in_a_file_of_its_own_is_known_without_a_look_at_the_file(tmp_path: Path) -> None:
    saved(tmp_path, lambda store: store.large("papers"), slate=b"grey")
    (tmp_path / "papers" / SLATE).unlink()

    known = Store(tmp_path).large("papers").known(SLATE, lambda: b"grey")

    assert known is not None
    assert (known.sha256, known.size, known.fetch()) == (sha256(b"grey").hexdigest(), 4, b"grey")


@pytest.mark.parametrize("index", [b"", b"rubbish"])
def test_files_of_which_no_index_tells_are_looked_at(tmp_path: Path, index: bytes) -> None:
    saved(tmp_path, lambda store: store.large("papers"), slate=b"grey")
    (tmp_path / "papers" / "index").write_bytes(index)

    run = Store(tmp_path)
    known = run.large("papers").known(SLATE, not_to_be_made)
    run.save()

    assert known is not None
    assert known.fetch() == b"grey"
    assert len((tmp_path / "papers" / "index").read_bytes()) > len(index)


@both_kinds
def test_a_value_that_no_run_left_is_not_known(tmp_path: Path, opened: Opened) -> None:
    saved(tmp_path, opened, slate=b"grey")

    assert opened(Store(tmp_path)).known(SAMPHIRE, not_to_be_made) is None


def test_three_hundred_values_of_all_lengths_come_back_as_they_were(tmp_path: Path) -> None:
    values = {f"value {n}": bytes([n % 256]) * (n * n) for n in range(300)}

    saved(tmp_path, lambda store: store.shelf("pages"), **values)

    shelf = Store(tmp_path).shelf("pages")
    assert values == {name: shelf.get(digest(name)) for name in values}


def test_the_same_values_put_in_another_order_make_the_same_pack(tmp_path: Path) -> None:
    saved(tmp_path / "one", lambda store: store.shelf("pages"), slate=b"grey", samphire=b"green")
    saved(tmp_path / "two", lambda store: store.shelf("pages"), samphire=b"green", slate=b"grey")

    assert (tmp_path / "one/pages.pack").read_bytes() == (tmp_path / "two/pages.pack").read_bytes()


@given(st.lists(st.binary() | st.text(), max_size=4), st.lists(st.binary() | st.text(), max_size=4))
@settings(max_examples=50)
def test_two_lists_of_parts_have_one_digest_only_when_they_are_equal(
    one: list[bytes | str], other: list[bytes | str]
) -> None:
    assert (digest(*one) == digest(*other)) == (one == other)


def test_a_digest_tells_apart_what_joins_to_the_same_text() -> None:
    ways = [("ab", "c"), ("a", "bc"), ("abc",), ("abc", ""), (b"abc",)]

    assert len({digest(*parts) for parts in ways}) == len(ways)
