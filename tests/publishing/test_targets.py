import json
import re
import shutil
from pathlib import Path

import pytest

from generator.commands.publish import How
from generator.writing.targets.peer import CouldNotPublish
from tests.publishing.conftest import ONE_BY_ONE, Bench
from tests.publishing.places import list_of
from tests.publishing.sites import assert_whole, lay_site


def test_a_target_becomes_the_site_and_loses_what_the_next_one_lacks(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=5)
    bench.upload()
    shutil.rmtree(bench.site)
    lay_site(bench.site, 2, pages=5)

    bench.upload()

    assert bench.seen() == bench.built()
    assert_whole(bench.seen())


def test_nothing_is_sent_where_nothing_changed(bench: Bench, capsys: pytest.CaptureFixture[str]) -> None:
    lay_site(bench.site, 1, pages=5)
    bench.upload()
    before = bench.place.times()

    bench.upload()

    assert bench.place.times() == before
    assert "0 sent, 0 removed, 12 as before" in capsys.readouterr().out


def test_a_dry_run_tells_and_touches_nothing(bench: Bench, capsys: pytest.CaptureFixture[str]) -> None:
    lay_site(bench.site, 1, pages=1)

    bench.upload(How(dry_run=True, rollback=False, take_over=False))

    assert bench.seen() == {}
    assert "send: c/0.html\n" in capsys.readouterr().out


@pytest.mark.parametrize("bench", ONE_BY_ONE, indirect=True)
def test_a_folder_that_somebody_else_fills_is_left_alone(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=5)
    bench.place.put("holiday.jpg", b"sea")

    with pytest.raises(CouldNotPublish, match=r"contains holiday\.jpg, which this program did not put there"):
        bench.upload()

    assert bench.seen() == {"holiday.jpg": b"sea"}


@pytest.mark.parametrize("bench", ONE_BY_ONE, indirect=True)
def test_a_file_that_we_did_not_send_outlives_every_publish(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=5)
    bench.upload()
    bench.place.put("host-proof.txt", b"kept")
    (bench.site / "index.html").write_bytes(b"<html></html>")

    bench.upload()

    assert bench.seen()["host-proof.txt"] == b"kept"


def test_an_issued_sheet_is_never_withdrawn(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    sheet = bench.site / "safety" / "SS-30-r1.html"
    sheet.parent.mkdir()
    sheet.write_bytes(b"<html></html>")
    bench.upload()
    sheet.unlink()

    with pytest.raises(CouldNotPublish, match=r"SS-30-r1\.html is an issued sheet"):
        bench.upload()

    assert "safety/SS-30-r1.html" in bench.place.names()


def test_another_computer_waits_unless_it_takes_over(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.home.put(".wickwright/lock/owner", b"somebody else")

    with pytest.raises(CouldNotPublish, match="another computer is publishing there"):
        bench.upload()
    bench.upload(How(dry_run=False, rollback=False, take_over=True))

    assert bench.seen() == bench.built()
    assert ".wickwright/lock/owner" not in bench.home.names()


def test_a_page_renamed_by_its_capitals_alone_is_there_afterwards(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.site / "c" / "only-1.html").rename(bench.site / "c" / "Only-1.html")
    (bench.site / "index.html").write_bytes(b'<html><a href="c/Only-1.html"></html>')

    bench.upload()

    assert bench.seen() == bench.built()


@pytest.mark.parametrize("bench", ["folder", "sftp"], indirect=True)
def test_where_capitals_are_not_told_from_small_letters_the_new_spelling_is_not_removed_with_the_old(
    bench: Bench,
) -> None:
    """Such a disk answers to our folder's name in capitals; a link of that name makes this one do so."""
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    (bench.folder / "web" / ".WICKWRIGHT").symlink_to(".wickwright")
    (bench.site / "c" / "only-1.html").rename(bench.site / "c" / "Only-1.html")
    (bench.site / "index.html").write_bytes(b'<html><a href="c/Only-1.html"></html>')

    bench.upload()

    assert {"c/only-1.html", "c/Only-1.html"} <= bench.seen().keys()


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
@pytest.mark.parametrize("listed", ["[", "[]", '{"files": {"a": 1}, "web": ""}'])
def test_a_list_that_was_altered_stops_all(bench: Bench, listed: str) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    bench.place.put(list_of(bench.place), listed.encode())

    with pytest.raises(CouldNotPublish, match="cannot be read"):
        bench.upload()


@pytest.mark.parametrize("bench", ONE_BY_ONE, indirect=True)
def test_the_folder_of_another_shop_is_refused(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    listed = json.dumps({"web": "https://other.example", "files": {}}).encode()
    bench.place.put(".wickwright/list-0a.json", listed)

    with pytest.raises(CouldNotPublish, match=r"contains the site of https://other\.example"):
        bench.upload()


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_a_drive_that_is_not_there_is_told(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    (bench.folder / "web").rmdir()

    with pytest.raises(CouldNotPublish, match="connect the drive"):
        bench.upload()


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("host: 127.0.0.1", "host: nowhere.invalid", "cannot be reached"),
        ("/web,", "/webb,", "has no folder"),
    ],
)
def test_what_stands_in_the_way_of_sftp_is_told(bench: Bench, old: str, new: str, told: str) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.rewrite(old, new)

    with pytest.raises(CouldNotPublish, match=told):
        bench.upload()


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
def test_a_server_with_another_key_gets_nothing(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    entry = bench.entry.read_text()
    ((key,), (host,)) = re.findall(r"key: (/[^,]+)", entry), re.findall(r"host_key: \S+ ([^}]+)", entry)
    maker = Path(f"{key}.pub").read_text().split()[1]
    bench.rewrite(host, maker)

    with pytest.raises(CouldNotPublish, match="shows a different key"):
        bench.upload()

    assert bench.seen() == {}


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
def test_a_key_that_the_server_does_not_know_is_told(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.rewrite("/maker,", "/host,")

    with pytest.raises(CouldNotPublish, match="does not let"):
        bench.upload()
