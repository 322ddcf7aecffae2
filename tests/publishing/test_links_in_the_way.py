"""A link inside a target leads where the maker never meant to publish: it stops all, and is named."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.commands.publish import How
from generator.writing.targets.below import Below
from generator.writing.targets.peer import CouldNotPublish
from tests.publishing.conftest import WITH_LINKS, Bench
from tests.publishing.places import Disk, everything_at, list_of
from tests.publishing.sites import lay_site

disks = pytest.mark.parametrize("bench", ["folder", "sftp"], indirect=True)
TAKE_OVER = How(dry_run=False, rollback=False, take_over=True)


@pytest.fixture(name="elsewhere")
def _elsewhere(bench: Bench) -> Path:
    """A folder of the maker's own, published to by nobody."""
    folder = bench.folder / "elsewhere"
    folder.mkdir()
    for name in ("0.html", "only-1.html", "victim.txt", "owner", "index.html"):
        (folder / name).write_bytes(b"kept")
    return folder


def stops(bench: Bench, elsewhere: Path, path: str, how: How = TAKE_OVER) -> None:
    """A publish stops and names the link; neither the target nor what the link leads to is touched."""
    lay_site(bench.site, 2, pages=2)
    before = _at_target(bench), everything_at(Disk(elsewhere))

    with pytest.raises(
        CouldNotPublish, match=f"^{path} at the target is a link, and nothing is sent or deleted"
    ):
        bench.upload(how)

    assert (_at_target(bench), everything_at(Disk(elsewhere))) == before


def _at_target(bench: Bench) -> dict[str, bytes]:
    """All but this computer's own copy of what it sends."""
    found = everything_at(bench.home)
    return {path: data for path, data in found.items() if not path.startswith(("runs/", "site/"))}


@disks
def test_a_link_in_the_place_of_a_folder_stops_all(bench: Bench, elsewhere: Path) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.folder / "web" / "c").rename(bench.folder / "c was")
    (bench.folder / "web" / "c").symlink_to(elsewhere)

    stops(bench, elsewhere, "c")


@disks
def test_a_link_in_the_place_of_a_folder_of_which_files_are_only_removed_stops_all(
    bench: Bench, elsewhere: Path
) -> None:
    lay_site(bench.site, 1, pages=1)
    (bench.site / "old" / "pages").mkdir(parents=True)
    (bench.site / "old" / "pages" / "victim.txt").write_bytes(b"x")
    bench.upload()
    (bench.site / "old" / "pages" / "victim.txt").unlink()
    (bench.folder / "web" / "old" / "pages").rename(bench.folder / "pages were")
    (bench.folder / "web" / "old" / "pages").symlink_to("../../elsewhere")

    stops(bench, elsewhere, "old/pages")


@disks
def test_a_link_in_the_place_of_a_file_stops_all(bench: Bench, elsewhere: Path) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.folder / "web" / "index.html").unlink()
    (bench.folder / "web" / "index.html").symlink_to(elsewhere / "index.html")

    stops(bench, elsewhere, "index.html")


@disks
def test_our_own_folder_as_a_link_stops_all(bench: Bench, elsewhere: Path) -> None:
    (bench.folder / "web" / ".wickwright").symlink_to(elsewhere)

    stops(bench, elsewhere, r"\.wickwright")


@disks
def test_the_lock_as_a_link_stops_all(bench: Bench, elsewhere: Path) -> None:
    (bench.folder / "web" / ".wickwright").mkdir()
    (bench.folder / "web" / ".wickwright" / "lock").symlink_to(elsewhere)

    stops(bench, elsewhere, r"\.wickwright/lock")


@disks
def test_a_list_as_a_link_stops_all(bench: Bench, elsewhere: Path) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.folder / "web" / list_of(bench.place)).rename(elsewhere / "list")
    (bench.folder / "web" / ".wickwright" / "list-0a.json").symlink_to(elsewhere / "list")

    stops(bench, elsewhere, r"\.wickwright/list-0a\.json")


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
def test_a_link_in_the_place_of_a_temporary_file_stops_all(bench: Bench, elsewhere: Path) -> None:
    (bench.folder / "web" / ".wickwright-part-index.html").symlink_to(elsewhere / "index.html")

    stops(bench, elsewhere, r"\.wickwright-part-index\.html")


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
def test_a_link_is_seen_beside_names_that_look_like_what_the_client_says(
    bench: Bench, elsewhere: Path
) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    web = bench.folder / "web"
    (web / "c").rename(bench.folder / "c was")
    (web / "c").symlink_to(elsewhere)
    (web / "0\ndrwxr-xr-x    ? 0        0            4096 Dec  1 02:51 .").mkdir()
    (web / "0\ndrwxr-xr-x    ? 0        0            4096 Dec  1 02:51 c").mkdir()

    stops(bench, elsewhere, "c")


@disks
def test_what_is_no_file_where_a_list_would_be_is_not_waited_for(bench: Bench) -> None:
    """Reading a pipe would never end."""
    lay_site(bench.site, 1, pages=1)
    (bench.folder / "web" / ".wickwright").mkdir()
    os.mkfifo(bench.folder / "web" / ".wickwright" / "list-0a.json")

    with pytest.raises(CouldNotPublish, match=r"list-0a\.json at the target is not a file"):
        bench.upload()


@disks
def test_a_file_where_a_folder_is_wanted_is_told(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    lay_site(bench.site, 2, pages=1)
    bench.place.remove("c/only-1.html")
    bench.place.remove("c/0.html")
    (bench.folder / "web" / "c").rmdir()
    bench.place.put("c", b"mine")

    with pytest.raises(CouldNotPublish, match=r"^c at the target is not a folder"):
        bench.upload()

    assert bench.place.read("c") == b"mine"


@pytest.mark.parametrize("bench", WITH_LINKS, indirect=True)
def test_one_of_the_two_folders_as_a_link_stops_all(bench: Bench, elsewhere: Path) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.folder / "web.two").symlink_to(elsewhere)

    stops(bench, elsewhere, r"web\.two")


@pytest.mark.parametrize("bench", WITH_LINKS, indirect=True)
def test_a_link_inside_one_of_the_two_folders_stops_all(bench: Bench, elsewhere: Path) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.folder / "web.two").mkdir()
    (bench.folder / "web.two" / "c").symlink_to(elsewhere)
    (bench.folder / "web.two" / ".wickwright").mkdir()
    listed = bench.home.read(f"web.one/{list_of(Disk(bench.folder / 'web.one'))}")
    (bench.folder / "web.two" / ".wickwright" / "list-0b.json").write_bytes(listed)

    stops(bench, elsewhere, r"web\.two/c")


@disks
def test_the_folder_that_the_maker_named_may_itself_be_a_link(bench: Bench) -> None:
    (bench.folder / "web").rename(bench.folder / "really")
    (bench.folder / "web").symlink_to("really")
    lay_site(bench.site, 1, pages=1)

    bench.upload()

    assert bench.seen() == bench.built()


@disks
def test_links_that_are_not_in_the_way_are_left_alone(bench: Bench, elsewhere: Path) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.folder / "web" / "theirs").symlink_to(elsewhere)
    lay_site(bench.site, 2, pages=2)

    bench.upload()

    assert (bench.folder / "web" / "theirs").readlink() == elsewhere
    assert (elsewhere / "victim.txt").read_bytes() == b"kept"


STEPS: list[Callable[[Below], object]] = [
    lambda below: below.put("c/new.html", b"x"),
    lambda below: below.put("c/deeper/new.html", b"x"),
    lambda below: below.remove("c/victim.txt"),
    lambda below: below.read("c/victim.txt", 100),
    lambda below: below.names("c"),
    lambda below: below.sweep("c"),
    lambda below: below.rename("c/victim.txt", "other"),
    lambda below: below.remove_folder("c/empty"),
    lambda below: below.read("file", 100),
]


@pytest.mark.parametrize("by_handles", [True, False])
@pytest.mark.parametrize("step", STEPS)
def test_a_link_that_comes_after_the_look_is_not_followed_either(
    tmp_path: Path, step: Callable[[Below], object], *, by_handles: bool
) -> None:
    """Windows has no handles of folders; there each step looks once more."""
    (tmp_path / "elsewhere" / "empty").mkdir(parents=True)
    for name in ("victim.txt", ".wickwright-0.part"):
        (tmp_path / "elsewhere" / name).write_bytes(b"kept")
    (tmp_path / "web").mkdir()
    (tmp_path / "web" / "c").symlink_to("../elsewhere")
    (tmp_path / "web" / "file").symlink_to("../elsewhere/victim.txt")
    before = everything_at(Disk(tmp_path))

    with pytest.raises(CouldNotPublish, match=r"^(c|file) at the target is a link"):
        step(Below(tmp_path / "web", by_handles=by_handles))

    assert everything_at(Disk(tmp_path)) == before
    assert (tmp_path / "elsewhere" / "empty").is_dir()


@pytest.mark.parametrize("by_handles", [True, False])
def test_files_are_put_read_and_taken_away_with_the_folders_that_this_empties(
    tmp_path: Path, *, by_handles: bool
) -> None:
    below = Below(tmp_path, by_handles=by_handles)
    below.put("a/b/c.html", b"1")
    below.put("a/b/c.html", b"2", durable=True)
    below.put("a/d.html", b"3")
    assert (below.read("a/b/c.html", 1), below.names("a"), below.read("x/y", 9)) == (
        b"2",
        ("b", "d.html"),
        None,
    )
    with pytest.raises(CouldNotPublish, match="larger than"):
        below.read("a/b/c.html", 0)

    below.remove("a/b/c.html")
    below.tidy("a/b/c.html")
    below.remove("x/y.html")
    below.tidy("x/y.html")

    assert everything_at(Disk(tmp_path)) == {"a/d.html": b"3"}
    assert below.names("a") == ("d.html",)
