"""What may stand in the way of a publish: each is told in plain words, nothing is lost, and the next run completes."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from pydantic import TypeAdapter

from generator.commands.publish import How
from generator.making.destination import destination_of
from generator.model.publish_targets import Target
from generator.writing.targets.peer import CouldNotPublish, Lock, RequireUnchanged, Unlock
from tests.publishing.conftest import ONE_OF_EACH, WITH_LINKS, Bench
from tests.publishing.peers import KEYS, free_port
from tests.publishing.places import Disk, everything_at
from tests.publishing.sites import assert_whole, lay_site
from tests.publishing.upload import WEB, command_for
from tests.publishing.wires import mount_anew, port_of, refusing_store, small_disk, wire_to

TAKE_OVER = How(dry_run=False, rollback=False, take_over=True)
REFUSALS = {
    "AccessDenied": (403, "do not allow writing to"),
    "SignatureDoesNotMatch": (403, "does not recognise this computer's keys"),
    "RequestTimeTooSkewed": (403, "rejects this computer's clock; set the date and time"),
    "QuotaExceeded": (403, "is full; free some space"),
    "MethodNotAllowed": (405, r"refused it \(MethodNotAllowed\)"),
}


@pytest.mark.parametrize("bench", ["folder", "sftp"], indirect=True)
def test_a_full_disk_is_told_and_once_there_is_room_the_site_is_whole(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=4)
    with small_disk(bench.folder / "web", "size=300k"):
        bench.upload()
        lay_site(bench.site, 2, pages=40)

        with pytest.raises(CouldNotPublish, match=r"the disk of .* is full; free some space"):
            bench.upload()
        assert_whole(bench.seen())
        mount_anew(bench.folder / "web", "size=20m")
        bench.upload()

        assert bench.seen() == bench.built()


@pytest.mark.parametrize(
    "target",
    [
        {"to": "folder", "folder": "~nobody-here/web"},
        {"to": "sftp", "host": "quay.example", "user": "quay", "folder": "web", "key": "~nobody-here/key",
         "host_key": f"ssh-ed25519 {'A' * 68}"},
    ],
    ids=["folder", "key"],
)  # fmt: skip
def test_the_home_of_a_user_that_is_none_is_told(tmp_path: Path, target: dict[str, str]) -> None:
    with pytest.raises(CouldNotPublish, match=r"no home folder for ~nobody-here in ~nobody-here/"):
        destination_of(TypeAdapter[Target](Target).validate_python(target), tmp_path)


@pytest.mark.parametrize("bench", ["folder", "sftp"], indirect=True)
def test_a_disk_that_takes_no_writing_is_told_and_stays_as_it_was(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=2)
    with small_disk(bench.folder / "web", "size=4m"):
        bench.upload()
        before = everything_at(bench.place)
        mount_anew(bench.folder / "web", "ro")
        lay_site(bench.site, 2, pages=3)

        with pytest.raises(CouldNotPublish, match=r"could not be written|may not write in|stopped"):
            bench.upload()

        assert everything_at(bench.place) == before


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
def test_a_connection_that_is_cut_is_told_and_the_next_run_goes_on(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=3)
    bench.upload()
    lay_site(bench.site, 2, pages=20)
    (port,) = re.findall(r"port: (\d+)", bench.entry.read_text())

    with wire_to(int(port), 150_000) as wire:
        bench.rewrite(port, str(wire.port))
        with pytest.raises(CouldNotPublish, match="was lost; publish again to continue where it stopped"):
            bench.upload()
        assert_whole(bench.seen())
        wire.mend()
        bench.upload()

    assert bench.seen() == bench.built()


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_store_that_is_cut_off_is_told_and_the_next_run_goes_on(bench: Bench, store: str) -> None:
    lay_site(bench.site, 1, pages=3)
    bench.upload()
    lay_site(bench.site, 2, pages=20)

    with wire_to(port_of(store), 150_000) as wire:
        bench.rewrite(store, f"http://127.0.0.1:{wire.port}")
        with pytest.raises(CouldNotPublish, match="was lost; publish again to continue where it stopped"):
            bench.upload()
        assert_whole(bench.seen())
        wire.mend()
        bench.upload()

    assert bench.seen() == bench.built()


@pytest.mark.parametrize("bench", ["sftp", "object-store"], indirect=True)
def test_a_server_that_does_not_answer_is_told(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    (port,) = re.findall(r"port: (\d+)|127\.0\.0\.1:(\d+)", bench.entry.read_text())
    bench.rewrite("".join(port), str(free_port()))

    with pytest.raises(CouldNotPublish, match="cannot be reached"):
        bench.upload()

    assert bench.seen() == {}


@pytest.mark.parametrize("code", REFUSALS)
@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_what_a_store_refuses_is_told(bench: Bench, store: str, code: str) -> None:
    lay_site(bench.site, 1, pages=1)
    status, told = REFUSALS[code]

    with refusing_store(code, status) as endpoint:
        bench.rewrite(store, endpoint)
        with pytest.raises(CouldNotPublish, match=told):
            bench.upload()


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_lock_of_our_own_that_came_late_keeps_nobody_out(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    owner = (bench.folder / "runs" / "owner").read_bytes()
    peer = destination_of(bench.target(), bench.content).peer
    bench.home.put(".wickwright/lock/owner", owner)

    peer.carry_out([Lock(bench.folder / "runs" / "owner", owner.decode()), Unlock()], lambda: None)

    assert ".wickwright/lock/owner" not in bench.home.names()


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_lock_of_another_that_came_first_keeps_us_out(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    peer = destination_of(bench.target(), bench.content).peer
    bench.home.put(".wickwright/lock/owner", b"somebody else")

    with pytest.raises(CouldNotPublish, match="another computer is publishing there"):
        peer.carry_out([Lock(bench.folder / "runs" / "owner", "ours")], lambda: None)

    assert bench.home.read(".wickwright/lock/owner") == b"somebody else"


def test_who_was_overtaken_after_looking_writes_nothing(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    destination = destination_of(bench.target(), bench.content)
    seen_late = destination.state(WEB)
    lay_site(bench.site, 2, pages=2)
    bench.upload(runs="other runs")
    now = everything_at(bench.place)

    with pytest.raises(CouldNotPublish, match="another computer has published there since this one looked"):
        destination.peer.carry_out([RequireUnchanged(path) for path in seen_late.standing], lambda: None)

    assert everything_at(bench.place) == now


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_bucket_that_is_not_there_is_told(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.rewrite("bucket: bench", "bucket: trench")

    with pytest.raises(CouldNotPublish, match=r"there is no bucket trench-\w+ at http"):
        bench.upload()


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_computer_without_keys_is_told_and_asks_nobody_for_them(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay_site(bench.site, 1, pages=1)
    for name in KEYS:
        monkeypatch.delenv(name)
    monkeypatch.setenv("HOME", str(bench.folder))

    with pytest.raises(CouldNotPublish, match="has no keys for"):
        bench.upload()


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_name_of_keys_that_this_computer_lacks_is_told(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.rewrite("folder: shop", "folder: shop, profile: nobody")

    with pytest.raises(CouldNotPublish, match="no keys under the name nobody"):
        bench.upload()


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_store_is_not_published_to_without_its_client(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay_site(bench.site, 1, pages=1)
    for name in [name for name in sys.modules if name.partition(".")[0] == "botocore"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.delitem(sys.modules, "generator.writing.targets.object_store", raising=False)
    monkeypatch.setitem(sys.modules, "botocore", None)

    with pytest.raises(CouldNotPublish, match=r"install -e '\.\[object-store\]'"):
        bench.upload()


@pytest.mark.parametrize("bench", ["folder", "sftp"], indirect=True)
@pytest.mark.parametrize("year", [1990, 2090])
def test_a_clock_that_is_years_off_sends_nothing_again(
    bench: Bench, year: int, capsys: pytest.CaptureFixture[str]
) -> None:
    lay_site(bench.site, 1, pages=2)
    bench.upload()
    moment = (year - 1970) * 365.25 * 86400
    for path in [*(bench.folder / "web").rglob("*"), *bench.site.rglob("*")]:
        os.utime(path, (moment, moment))

    bench.upload()

    assert "0 sent, 0 removed, 6 as before" in capsys.readouterr().out


@pytest.mark.parametrize("bench", WITH_LINKS, indirect=True)
def test_a_folder_that_stands_where_the_link_has_to_be_is_left_alone(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.place.put("holiday.jpg", b"sea")

    with pytest.raises(CouldNotPublish, match="web is already a folder"):
        bench.upload()

    assert bench.seen() == {"holiday.jpg": b"sea"}


@pytest.mark.parametrize("bench", WITH_LINKS, indirect=True)
def test_a_folder_of_somebody_else_beside_the_link_is_left_alone(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.home.put("web.one/holiday.jpg", b"sea")

    with pytest.raises(CouldNotPublish, match=r"contains holiday\.jpg"):
        bench.upload()

    assert everything_at(Disk(bench.folder / "web.one")) == {"holiday.jpg": b"sea"}


@pytest.mark.parametrize("bench", ONE_OF_EACH, indirect=True)
def test_of_two_computers_at_once_one_waits_and_nothing_is_lost(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=8)
    other = bench.folder / "other site"
    lay_site(other, 2, pages=8)

    runs = [
        subprocess.Popen(
            command_for(bench.content, site, bench.folder / runs), stderr=subprocess.PIPE, text=True
        )
        for site, runs in ((bench.site, "runs"), (other, "other runs"))
    ]
    told = [(run.communicate()[1], run.returncode) for run in runs]

    assert {code for _, code in told} <= {0, 3}
    assert 0 in {code for _, code in told}
    assert [
        words for words, code in told if code == 3 and "another computer is publishing there" not in words
    ] == []
    assert_whole(bench.seen())
    bench.upload()
    bench.upload(TAKE_OVER, "third runs")
    assert bench.seen() == bench.built()


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_a_second_run_on_the_same_computer_waits(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=2)
    runs = bench.folder / "runs"
    runs.mkdir()
    holding = subprocess.Popen(
        [sys.executable, "-c", HOLDING, str(runs)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert holding.stdout is not None
    assert holding.stdout.readline() == "held\n"

    with pytest.raises(CouldNotPublish, match="this computer is already publishing there"):
        bench.upload()

    holding.communicate("")


HOLDING = """
import sys
from pathlib import Path
from generator.writing.targets.releases import LocalRuns
with LocalRuns(Path(sys.argv[1])).alone():
    print("held", flush=True)
    sys.stdin.read()
"""
