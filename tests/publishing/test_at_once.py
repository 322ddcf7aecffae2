"""``changes: at once``: a link leads to one of two whole releases, and is switched in one move."""

import shutil
from pathlib import Path

import pytest

from generator.writing.targets.peer import CouldNotPublish
from tests.publishing.conftest import WITH_LINKS, Bench
from tests.publishing.places import Disk, site_of
from tests.publishing.sites import lay_site

pytestmark = pytest.mark.parametrize("bench", WITH_LINKS, indirect=True)


def publish_version(bench: Bench, version: int) -> dict[str, bytes]:
    shutil.rmtree(bench.site, ignore_errors=True)
    lay_site(bench.site, version, pages=3)
    bench.upload()
    return bench.built()


def led_to(bench: Bench) -> str:
    return (bench.folder / "web").readlink().as_posix()


def test_releases_lie_in_two_folders_by_turns_and_the_link_leads_to_the_last(bench: Bench) -> None:
    first = publish_version(bench, 1)
    assert led_to(bench) == "web.one"
    second = publish_version(bench, 2)
    assert led_to(bench) == "web.two"

    third = publish_version(bench, 3)

    assert led_to(bench) == "web.one"
    assert first != second != third == bench.seen()
    assert site_of(Disk(bench.folder / "web.two")) == second


def test_a_release_that_lies_there_still_is_switched_to_and_not_sent(
    bench: Bench, capsys: pytest.CaptureFixture[str]
) -> None:
    first = publish_version(bench, 1)
    publish_version(bench, 2)
    capsys.readouterr()

    publish_version(bench, 1)

    assert capsys.readouterr().out == f"0 sent, 0 removed, {len(first)} as before\n"
    assert bench.seen() == first


def test_a_link_that_leads_elsewhere_is_left_alone(bench: Bench) -> None:
    (bench.folder / "elsewhere").mkdir()
    (bench.folder / "web").symlink_to("elsewhere")
    lay_site(bench.site, 1, pages=1)

    with pytest.raises(CouldNotPublish, match="a link to one this program did not fill"):
        bench.upload()

    assert led_to(bench) == "elsewhere"
    assert list((bench.folder / "elsewhere").iterdir()) == []


def test_what_was_revoked_leaves_the_folder_that_is_no_longer_seen_and_can_come_again(bench: Bench) -> None:
    sealed = bench.site / "t" / "abc.html"
    _lay_sealed(sealed, 1)
    publish_all(bench)
    lay_site(bench.site, 2, pages=1)
    sealed.unlink()
    publish_all(bench)
    assert not (bench.folder / "web.one" / "t").exists()

    _lay_sealed(sealed, 1)
    publish_all(bench)

    assert bench.seen()["t/abc.html"] == sealed.read_bytes()


def test_what_was_revoked_is_gone_after_the_next_run_where_one_was_cut_off_behind_its_switch(
    bench: Bench,
) -> None:
    sealed, hidden = bench.site / "t" / "abc.html", bench.folder / "web.one"
    _lay_sealed(sealed, 1)
    publish_all(bench)
    shutil.copytree(hidden, bench.folder / "as it was")
    sealed.unlink()
    publish_all(bench)
    shutil.rmtree(hidden)
    (bench.folder / "as it was").rename(hidden)

    publish_all(bench)

    assert led_to(bench) == "web.two"
    assert not (hidden / "t").exists()


def _lay_sealed(sealed: Path, version: int) -> None:
    lay_site(sealed.parents[1], version, pages=1)
    sealed.parent.mkdir(exist_ok=True)
    sealed.write_bytes(b"<html>sealed</html>")


def publish_all(bench: Bench) -> None:
    bench.upload()
    assert bench.seen() == bench.built()


def test_the_lock_lies_beside_the_link(bench: Bench) -> None:
    publish_version(bench, 1)
    bench.home.put(".wickwright/lock/owner", b"somebody else")

    with pytest.raises(CouldNotPublish, match="another computer is publishing there"):
        publish_version(bench, 2)
