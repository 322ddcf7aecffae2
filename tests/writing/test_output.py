"""Laying out: only what differs, only what is ours, in an order that keeps every reachable page whole."""

import json
import os
import sys
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.writing.at_work import AtWork, in_two_processes, on_two_threads, one_by_one
from generator.writing.output import Laid, Layout, NotOurs, PlannedFile, ready_file
from generator.writing.paths import AlikeButForCase, OutsideTheFolder, in_writing_order
from generator.writing.whole_files import replace_file
from tests.writing.laying import lay_out

needs_links = pytest.mark.skipif(sys.platform == "win32", reason="making a link needs special rights there")
LEFT_OVER = ".wickwright-0a1b2c3d.part"


def found(folder: Path) -> dict[str, bytes]:
    """The files in a folder but for the manifest."""
    paths = (path for path in folder.rglob("*") if path.is_file() and path.name != ".manifest.json")
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}


def written_by_hand(folder: Path, **files: bytes) -> None:
    for path, data in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)


def listed(folder: Path) -> list[str]:
    return list(json.loads((folder / ".manifest.json").read_text(encoding="utf-8")))


def test_new_changed_same_and_unwanted_files_are_told_apart(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": b"a", "site/b.html": b"b", "site/c.html": b"c"})

    laid = lay_out(tmp_path, {"site/b.html": b"b", "site/c.html": b"C", "site/d.html": b"d"})

    expected = Laid(
        written=("site/d.html",), changed=("site/c.html",), removed=("site/a.html",), same=("site/b.html",)
    )
    assert expected == laid
    assert found(tmp_path) == {"site/b.html": b"b", "site/c.html": b"C", "site/d.html": b"d"}


def test_the_manifest_lists_each_file_with_its_digest_its_size_and_when_it_was_altered(
    tmp_path: Path,
) -> None:
    lay_out(tmp_path, {"site/b.html": b"two", "site/a.html": b""})

    pages = [(tmp_path / path).stat() for path in ("site/a.html", "site/b.html")]
    times = [[page.st_mtime_ns, page.st_ctime_ns] for page in pages]
    expected = (
        f'{{"site/a.html": {{"key": null, "seen_ns": {times[0]}, "sha256": "{sha256(b"").hexdigest()}", '
        f'"size": 0}}, "site/b.html": {{"key": null, "seen_ns": {times[1]}, '
        f'"sha256": "{sha256(b"two").hexdigest()}", "size": 3}}}}\n'
    )
    assert expected == (tmp_path / ".manifest.json").read_text(encoding="utf-8")


def in_an_hour(folder: Path) -> None:
    """Let the manifest be an hour younger than the files it lists."""
    found = (folder / ".manifest.json").stat()
    later = found.st_mtime_ns + 3600 * 10**9
    os.utime(folder / ".manifest.json", ns=(later, later))


def not_to_be_made() -> bytes:
    pytest.fail("the file was made again")


def page_from(key: str | None, text: str = "a") -> PlannedFile:
    return PlannedFile(path="site/a.html", key=key, make=text.encode)


def test_a_file_that_was_made_from_the_same_is_not_made_again(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": page_from("k")})

    wanted = replace(page_from("k"), make=not_to_be_made)

    assert lay_out(tmp_path, {"site/a.html": wanted}).same == ("site/a.html",)


@pytest.mark.parametrize("key", ["another", None])
def test_a_file_that_was_made_from_something_else_is_made_again(tmp_path: Path, key: str | None) -> None:
    lay_out(tmp_path, {"site/a.html": page_from("k")})

    assert lay_out(tmp_path, {"site/a.html": page_from(key, "b")}).changed == ("site/a.html",)
    assert found(tmp_path) == {"site/a.html": b"b"}


def test_a_file_that_comes_out_the_same_is_known_by_its_new_key(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": page_from("k")})
    lay_out(tmp_path, {"site/a.html": page_from("another")})

    wanted = replace(page_from("another"), make=not_to_be_made)

    assert lay_out(tmp_path, {"site/a.html": wanted}).same == ("site/a.html",)


@pytest.mark.parametrize("spoilt", [b"A", None], ids=["altered by hand", "deleted"])
def test_a_file_that_is_not_as_it_was_written_is_made_again(tmp_path: Path, spoilt: bytes | None) -> None:
    lay_out(tmp_path, {"site/a.html": page_from("k")})
    (tmp_path / "site/a.html").unlink()
    if spoilt is not None:
        written_by_hand(tmp_path, **{"site/a.html": spoilt})

    lay_out(tmp_path, {"site/a.html": page_from("k")})

    assert found(tmp_path) == {"site/a.html": b"a"}


def test_what_a_run_that_failed_had_made_is_gone_and_the_old_stays(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": b"a", "site/b.html": b"b"})
    before = found(tmp_path), listed(tmp_path)

    with Layout(tmp_path) as layout:
        layout.add([ready_file("site/a.html", b"new"), ready_file("site/c.html", b"c")])
        waiting = [*tmp_path.glob(".coming/*")]

    assert len(waiting) == 2
    assert (found(tmp_path), listed(tmp_path)) == before
    assert not (tmp_path / ".coming").exists()


def a_page(number: int) -> PlannedFile:
    return PlannedFile(path=f"site/{number}.html", key=str(number), make=str(number).encode)


@pytest.mark.parametrize("at_work", [one_by_one, on_two_threads, in_two_processes])
def test_many_files_are_made_whoever_is_at_work(tmp_path: Path, at_work: AtWork) -> None:
    with Layout(tmp_path) as layout:
        counts = layout.add(map(a_page, range(200)), at_work)
        laid = layout.finish()

    assert (counts.misses, len(laid.written)) == (200, 200)
    assert found(tmp_path) == {f"site/{number}.html": str(number).encode() for number in range(200)}


@pytest.mark.parametrize("number", [0, 1], ids=["this one's", "the copy's"])
def test_a_fault_in_either_process_arises_as_in_one(tmp_path: Path, number: int) -> None:
    def at_fault(page: int) -> PlannedFile:
        wanted = a_page(page)
        return replace(wanted, make=not_to_be_made) if page == number else wanted

    with pytest.raises(pytest.fail.Exception, match="made again"), Layout(tmp_path) as layout:
        layout.add(map(at_fault, range(200)), in_two_processes)

    assert found(tmp_path) == {}


@pytest.mark.skipif(sys.platform == "win32", reason="the time that nobody can set back is not kept there")
def test_a_file_whose_time_was_set_back_after_an_edit_is_made_again(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": b"a"})
    before = (tmp_path / "site/a.html").stat()
    written_by_hand(tmp_path, **{"site/a.html": b"A"})
    os.utime(tmp_path / "site/a.html", ns=(before.st_atime_ns, before.st_mtime_ns))
    in_an_hour(tmp_path)

    assert lay_out(tmp_path, {"site/a.html": b"a"}).changed == ("site/a.html",)


@pytest.fixture(name="vouched")
def _vouched(tmp_path: Path) -> Path:
    """A file of ours whose other bytes of the same length the manifest vouches for, as it never would of itself."""
    lay_out(tmp_path, {"site/a.html": b"a"})
    written_by_hand(tmp_path, **{"site/a.html": b"A"})
    found = (tmp_path / "site/a.html").stat()
    lines = json.loads((tmp_path / ".manifest.json").read_bytes())
    lines["site/a.html"]["seen_ns"] = [found.st_mtime_ns, found.st_ctime_ns]
    written_by_hand(tmp_path, **{".manifest.json": json.dumps(lines).encode()})
    return tmp_path


def test_a_file_that_nobody_touched_since_it_was_listed_is_not_read_again(vouched: Path) -> None:
    in_an_hour(vouched)

    assert lay_out(vouched, {"site/a.html": b"a"}).same == ("site/a.html",)


def test_a_file_hardly_older_than_the_manifest_is_read_because_its_time_proves_nothing(vouched: Path) -> None:
    assert lay_out(vouched, {"site/a.html": b"a"}).changed == ("site/a.html",)


def test_an_untouched_file_is_written_when_other_bytes_are_wanted(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": b"a"})
    in_an_hour(tmp_path)

    assert lay_out(tmp_path, {"site/a.html": b"b"}).changed == ("site/a.html",)


def test_a_file_that_does_not_differ_is_not_written_again(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": b"a"})
    before = {path.name: path.stat().st_ino for path in tmp_path.rglob("*")}

    lay_out(tmp_path, {"site/a.html": b"a"})

    assert before == {path.name: path.stat().st_ino for path in tmp_path.rglob("*")}


def test_a_folder_that_is_empty_without_our_files_goes_with_them(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/candles/tall/a.html": b"a", "site/index.html": b"i"})

    lay_out(tmp_path, {"site/index.html": b"i"})

    assert [path.name for path in (tmp_path / "site").iterdir()] == ["index.html"]


def test_a_folder_that_holds_somebody_elses_file_stays(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/candles/a.html": b"a"})
    written_by_hand(tmp_path, **{"site/candles/notes.txt": b"mine"})

    lay_out(tmp_path, {})

    assert found(tmp_path) == {"site/candles/notes.txt": b"mine"}


def test_a_file_of_ours_that_was_edited_by_hand_is_made_again(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": b"a"})
    written_by_hand(tmp_path, **{"site/a.html": b"edited"})

    laid = lay_out(tmp_path, {"site/a.html": b"a"})

    assert laid.changed == ("site/a.html",)


@pytest.mark.parametrize(
    ("theirs", "wanted", "named"),
    [
        pytest.param("site/a.html", "site/a.html", "site/a.html", id="a file under the wanted path"),
        pytest.param("site/a.html/x", "site/a.html", "site/a.html", id="a folder under the wanted path"),
        pytest.param("site", "site/a.html", "site", id="a file where a folder is wanted"),
    ],
)
def test_what_we_did_not_write_is_named_and_nothing_at_all_is_written(
    tmp_path: Path, theirs: str, wanted: str, named: str
) -> None:
    written_by_hand(tmp_path, **{theirs: b"mine"})

    with pytest.raises(
        NotOurs, match=f"^{named} is in the way: this program did not write it, so it will not replace it$"
    ):
        lay_out(tmp_path, {wanted: b"ours", "first.css": b"ours"})

    assert {path.name for path in tmp_path.rglob("*") if path.is_file()} == {Path(theirs).name}


def test_a_file_with_the_wanted_bytes_is_taken_over_so_a_lost_manifest_heals(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/a.html": b"a", "site/b.html": b"b"})
    (tmp_path / ".manifest.json").write_bytes(b'{"site/a.ht')

    lay_out(tmp_path, {"site/a.html": b"a", "site/b.html": b"b"})

    assert listed(tmp_path) == ["site/a.html", "site/b.html"]


def test_a_manifest_cannot_point_us_at_files_outside_the_folder(tmp_path: Path) -> None:
    written_by_hand(tmp_path, **{"precious.txt": b"mine", "output/.store/pages.pack": b"kept"})
    lines = {
        path: {"sha256": "", "size": 0} for path in ("../precious.txt", ".store/pages.pack", "/etc/hosts")
    }
    written_by_hand(tmp_path, **{"output/.manifest.json": json.dumps(lines).encode()})

    lay_out(tmp_path / "output", {})

    assert found(tmp_path) == {"precious.txt": b"mine", "output/.store/pages.pack": b"kept"}


@pytest.mark.parametrize(
    "manifest", [b"[]", b"{}", b'{"a.html": 3}', b'{"a.html": {"size": "x"}}', b"\xff", b""]
)
def test_a_manifest_of_another_shape_counts_as_none(tmp_path: Path, manifest: bytes) -> None:
    written_by_hand(tmp_path, **{".manifest.json": manifest, "a.html": b"mine"})

    with pytest.raises(NotOurs):
        lay_out(tmp_path, {"a.html": b"ours"})


@needs_links
@pytest.mark.parametrize("folder", ["site", "site/candles"])
def test_a_linked_folder_is_never_written_through(tmp_path: Path, folder: str) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "output" / folder).parent.mkdir(parents=True)
    (tmp_path / "output" / folder).symlink_to(tmp_path / "elsewhere", target_is_directory=True)

    with pytest.raises(NotOurs, match=f"^{folder} is in the way"):
        lay_out(tmp_path / "output", {"site/candles/a.html": b"a"})

    assert list((tmp_path / "elsewhere").iterdir()) == []


@needs_links
def test_nothing_is_removed_through_a_folder_that_has_become_a_link(tmp_path: Path) -> None:
    lay_out(tmp_path / "output", {"site/a.html": b"a"})
    (tmp_path / "output/site").rename(tmp_path / "elsewhere")
    (tmp_path / "output/site").symlink_to(tmp_path / "elsewhere", target_is_directory=True)

    lay_out(tmp_path / "output", {})

    assert found(tmp_path / "elsewhere") == {"a.html": b"a"}


@needs_links
def test_a_link_in_the_place_of_our_file_is_replaced_and_not_followed(tmp_path: Path) -> None:
    lay_out(tmp_path / "output", {"a.html": b"a"})
    (tmp_path / "theirs.html").write_bytes(b"theirs")
    (tmp_path / "output/a.html").unlink()
    (tmp_path / "output/a.html").symlink_to(tmp_path / "theirs.html")

    lay_out(tmp_path / "output", {"a.html": b"new"})

    assert found(tmp_path) == {"theirs.html": b"theirs", "output/a.html": b"new"}


@pytest.mark.parametrize(
    "path",
    [
        *("../a.html", "/a.html", "site/../../a.html", "", "site//a.html", "./a.html", "site/.."),
        *("C:/a.html", "site\\a.html", "a?.html", "a\n.html", "site/a. ", "site/a."),
        *(".manifest.json", ".store/pages.pack", ".Store/x", f"site/{LEFT_OVER}", "site/.git/config"),
        *("site/CON.html", "nul", "lpt1 .txt", "GIT~1/config", "a\u200b.html", "a\x7f.html", "\ud800.html"),
        *("a/" * 8 + "a.html", "a" * 201, "/".join(["a" * 150] * 5)),
    ],
)
def test_a_path_that_leads_out_or_that_some_disk_cannot_hold_is_refused(tmp_path: Path, path: str) -> None:
    with pytest.raises(OutsideTheFolder, match="cannot be the path of a file in the output folder"):
        lay_out(tmp_path / "output", {path: b"x"})

    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("first", "second"),
    [
        pytest.param("site/Slate.html", "site/slate.html", id="by case"),
        pytest.param("Site/slate.html", "site/slate.html", id="by the case of a folder"),
        pytest.param("site/caf\u00e9.html", "site/cafe\u0301.html", id="by the spelling of an accent"),
        pytest.param("Site", "site/slate.html", id="a file and a folder"),
    ],
)
def test_paths_that_are_one_on_some_disks_are_refused(tmp_path: Path, first: str, second: str) -> None:
    with pytest.raises(AlikeButForCase) as refused:
        lay_out(tmp_path, {first: b"1", second: b"2"})

    assert set(refused.value.paths) == {first, second}


@pytest.mark.parametrize(
    ("before", "after"),
    [
        pytest.param("site/Slate.html", "site/slate.html", id="another case"),
        pytest.param("Site/slate.html", "site/slate.html", id="another case of the folder"),
        pytest.param("site/slate", "site/slate/index.html", id="a file becomes a folder"),
        pytest.param("site/slate/index.html", "site/slate", id="a folder becomes a file"),
    ],
)
def test_a_file_may_take_the_place_of_another_of_ours(tmp_path: Path, before: str, after: str) -> None:
    lay_out(tmp_path, {before: b"same", "site/z.html": b"z"})

    lay_out(tmp_path, {after: b"same", "site/z.html": b"z"})

    assert found(tmp_path) == {after: b"same", "site/z.html": b"z"}
    assert listed(tmp_path) == sorted([after, "site/z.html"])


def test_a_change_of_place_that_was_cut_short_is_finished_by_the_next_run(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/slate/index.html": b"old"})
    union = (
        (tmp_path / ".manifest.json")
        .read_text(encoding="utf-8")
        .replace("}}", '}, "site/slate": {"sha256": "", "size": 0}}')
    )
    lay_out(tmp_path, {"site/slate": b"new"})
    (tmp_path / ".manifest.json").write_text(union, encoding="utf-8")

    lay_out(tmp_path, {"site/slate": b"new"})

    assert (found(tmp_path), listed(tmp_path)) == ({"site/slate": b"new"}, ["site/slate"])


def test_parts_are_written_before_pages_and_the_ways_in_last() -> None:
    paths = [
        "index.html",
        "feed.xml",
        "a.html",
        "z.css",
        "candles/index.html",
        "sitemap.xml",
        "a.json",
        "a.webp",
    ]

    expected = "a.webp z.css a.html a.json candles/index.html feed.xml index.html sitemap.xml"
    assert expected.split() == list(in_writing_order(paths))


def test_what_a_killed_run_left_is_swept_and_nothing_that_only_looks_like_it(tmp_path: Path) -> None:
    lay_out(tmp_path, {"site/old/a.html": b"a"})
    theirs = {"site/.wickwright-notes.txt": b"mine", "site/draft.part": b"mine"}
    written_by_hand(tmp_path, **{LEFT_OVER: b"half", f".coming/{LEFT_OVER}": b"half", **theirs})

    lay_out(tmp_path, {})

    assert theirs == found(tmp_path)


def test_a_write_that_fails_leaves_the_old_file_and_no_other(tmp_path: Path) -> None:
    (tmp_path / "taken").mkdir()

    with pytest.raises(OSError, match="taken"):
        replace_file(tmp_path / "taken", b"new")

    assert [path.name for path in tmp_path.iterdir()] == ["taken"]


names = st.sampled_from(
    ["a.html", "b.css", "x/a.html", "x/b.png", "x/y/index.html", "index.html", "q", "q/r.xml"]
)
sets_of_files = st.dictionaries(names, st.binary(max_size=3)).filter(
    lambda files: not {"q", "q/r.xml"} <= files.keys()
)


@given(st.lists(sets_of_files, min_size=1, max_size=4))
@settings(max_examples=25)
def test_after_any_runs_there_is_what_the_last_one_wanted(
    tmp_path_factory: pytest.TempPathFactory, runs: list[dict[str, bytes]]
) -> None:
    folder = tmp_path_factory.mktemp("output")

    for files in runs:
        lay_out(folder, files)

    assert runs[-1] == found(folder)
    assert listed(folder) == sorted(runs[-1])
