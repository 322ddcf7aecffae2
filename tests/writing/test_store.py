"""The memory of a shop: what it knows again, what it forgets, and that damage costs nothing but the work."""

from contextlib import closing
from functools import partial
from pathlib import Path
from typing import Any, NoReturn

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.memory import Counts, Remembered, digest
from generator.writing.store import AS_IT_IS, Store


def not_to_be_made() -> NoReturn:
    pytest.fail("the value was made again")


def saved(folder: Path, /, *, shelf: str = "facts", **values: bytes) -> None:
    """A run that asks for these values and no others."""
    folder.mkdir(parents=True, exist_ok=True)
    store = Store(folder, saves=True)
    for key, value in values.items():
        store.shelf(shelf, AS_IT_IS).remember((key,), partial(bytes, value))
    store.end_run()
    store.save()


def known(folder: Path, *names: str) -> dict[str, bytes]:
    """What a later run knows of these values."""
    shelf, found = Store(folder).shelf("facts", AS_IT_IS), {}
    for name in names:
        value = shelf.remember((name,), lambda: b"made again")
        if value != b"made again":
            found[name] = value
    return found


def test_a_value_of_an_earlier_run_is_not_made_again(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"wet and grey")

    assert known(tmp_path, "slate", "samphire") == {"slate": b"wet and grey"}


def test_a_value_made_in_this_run_is_not_made_twice() -> None:
    shelf = Remembered[str]()

    shelf.remember(("slate",), lambda: "")

    assert shelf.remember(("slate",), not_to_be_made) == ""


def test_an_object_counts_as_the_same_only_while_it_is_the_very_same() -> None:
    shelf = Remembered[int]()
    one, equal = [1], [1]

    shelf.remember((one, "text"), lambda: 1)

    assert shelf.remember((one, "te" + "xt"), not_to_be_made) == 1
    assert shelf.remember((equal, "text"), lambda: 2) == 2


def test_an_object_that_is_gone_cannot_be_taken_for_another_at_its_place() -> None:
    shelf = Remembered[int]()

    values = [shelf.remember(([number],), partial(int, number)) for number in range(1000)]

    assert values == [*range(1000)]


def test_what_one_run_did_not_ask_for_the_next_does_not_know() -> None:
    shelf = Remembered[str]()
    for name in ("slate", "samphire"):
        shelf.remember((name,), lambda: "first")
    shelf.end_run()
    shelf.remember(("slate",), not_to_be_made)
    shelf.end_run()

    assert shelf.remember(("slate",), not_to_be_made) == "first"
    assert shelf.remember(("samphire",), lambda: "again") == "again"


def test_what_is_kept_counts_as_asked_for() -> None:
    shelf = Remembered[str]()
    shelf.remember(("slate",), lambda: "first")
    shelf.end_run()

    shelf.keep()

    assert shelf.counts == Counts(hits=1, misses=0)
    shelf.end_run()
    assert shelf.remember(("slate",), not_to_be_made) == "first"


def test_hits_and_misses_of_a_run_count_distinct_values() -> None:
    shelf = Remembered[str]()
    shelf.remember(("slate",), lambda: "made")
    shelf.end_run()

    for key in ("slate", "slate", "samphire", "samphire"):
        shelf.remember((key,), lambda: "made")

    assert shelf.counts == Counts(hits=1, misses=1)


def test_a_value_that_is_damaged_is_made_again_and_kept(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"grey", samphire=b"green")
    pack = tmp_path / "facts.pack"
    pack.write_bytes(pack.read_bytes().replace(b"grey", b"gray"))
    assert known(tmp_path, "slate", "samphire") == {"samphire": b"green"}

    saved(tmp_path, slate=b"grey", samphire=b"green")

    assert known(tmp_path, "slate", "samphire") == {"slate": b"grey", "samphire": b"green"}


def test_a_store_that_does_not_save_leaves_the_disk_alone(tmp_path: Path) -> None:
    store = Store(tmp_path / "output" / ".store")
    store.shelf("facts", AS_IT_IS).remember(("slate",), lambda: b"grey")
    store.end_run()

    assert list(tmp_path.iterdir()) == []


def test_nothing_stays_of_a_run_that_never_saved(tmp_path: Path) -> None:
    with closing(Store(tmp_path, saves=True)) as store:
        store.shelf("facts", AS_IT_IS).remember(("slate",), lambda: b"grey")

    assert list(tmp_path.iterdir()) == []


def test_a_value_not_asked_for_in_a_run_is_dropped_when_it_is_saved(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"grey", samphire=b"green")
    saved(tmp_path, slate=b"grey")

    assert known(tmp_path, "slate", "samphire") == {"slate": b"grey"}


def test_a_kept_value_is_made_from_texts_alone(tmp_path: Path) -> None:
    with pytest.raises(TypeError, match="only what is made from texts can be kept"):
        Store(tmp_path).shelf("facts", AS_IT_IS).remember(([],), lambda: b"")


def test_a_pack_that_has_not_changed_is_not_written_again(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"grey")
    before = (tmp_path / "facts.pack").stat()

    saved(tmp_path, slate=b"never asked")

    # A replaced file has another inode, however fast the clock.
    after = (tmp_path / "facts.pack").stat()
    assert (after.st_ino, after.st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_a_shelf_that_a_run_did_not_open_stays_as_it_was(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"grey")

    saved(tmp_path, shelf="loads", samphire=b"green")

    assert known(tmp_path, "slate") == {"slate": b"grey"}


def test_a_truncated_pack_counts_as_empty_wherever_it_is_cut(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"grey", samphire=b"green")
    whole = (tmp_path / "facts.pack").read_bytes()

    for length in range(len(whole)):
        (tmp_path / "facts.pack").write_bytes(whole[:length])

        assert known(tmp_path, "slate") == {}


def test_a_flipped_bit_anywhere_costs_the_value_and_nothing_else(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"grey")
    whole = (tmp_path / "facts.pack").read_bytes()

    for spot in range(len(whole)):
        spoilt = whole[:spot] + bytes([whole[spot] ^ 4]) + whole[spot + 1 :]
        (tmp_path / "facts.pack").write_bytes(spoilt)

        assert known(tmp_path, "slate") == {}


def test_a_pack_of_rubbish_is_replaced_by_the_next_save(tmp_path: Path) -> None:
    (tmp_path / "facts.pack").write_bytes(b"rubbish" * 100)

    saved(tmp_path, slate=b"grey")

    assert known(tmp_path, "slate") == {"slate": b"grey"}


def test_a_save_sweeps_what_a_killed_save_left(tmp_path: Path) -> None:
    (tmp_path / ".wickwright-0a1b2c3d.part").write_bytes(b"half a pack")

    saved(tmp_path, slate=b"grey")

    assert [path.name for path in tmp_path.iterdir()] == ["facts.pack"]


def test_three_hundred_values_of_all_lengths_come_back_as_they_were(tmp_path: Path) -> None:
    values: dict[str, Any] = {f"value {n}": bytes([n % 256]) * (n * n) for n in range(300)}

    saved(tmp_path, **values)

    assert known(tmp_path, *values) == values


@given(st.lists(st.binary() | st.text(), max_size=4), st.lists(st.binary() | st.text(), max_size=4))
@settings(max_examples=50)
def test_two_lists_of_parts_have_one_digest_only_when_they_are_equal(
    one: list[bytes | str], other: list[bytes | str]
) -> None:
    assert (digest(*one) == digest(*other)) == (one == other)


def test_a_digest_tells_apart_what_joins_to_the_same_text() -> None:
    ways: list[tuple[bytes | str, ...]] = [("ab", "c"), ("a", "bc"), ("abc",), ("abc", ""), (b"abc",)]

    assert len({digest(*parts) for parts in ways}) == len(ways)


def test_where_no_run_came_to_its_end_nothing_is_dropped(tmp_path: Path) -> None:
    saved(tmp_path, slate=b"grey", samphire=b"green")

    with closing(Store(tmp_path, saves=True)) as store:
        store.shelf("facts", AS_IT_IS).remember(("another",), lambda: b"")
        store.save()

    assert known(tmp_path, "slate", "samphire") == {"slate": b"grey", "samphire": b"green"}


def test_what_older_programs_kept_is_dropped_and_nothing_else_of_the_folder(tmp_path: Path) -> None:
    for name in ("pages.pack", "papers/0a1b", "cards/index", "last-build.json", "loads.pack"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(b"old")

    saved(tmp_path, slate=b"grey")

    assert {path.name for path in tmp_path.iterdir()} == {"facts.pack", "last-build.json", "loads.pack"}
