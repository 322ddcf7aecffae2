"""Anybody who can write at a target can write its list: that may stop a publish, and never lead it elsewhere."""

import json
import os
import posixpath
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from generator.writing.targets import target_state
from generator.writing.targets.peer import MOST_BYTES_OF_A_LIST, MOST_FILES, MOST_LISTS, CouldNotPublish
from generator.writing.targets.target_state import Lines, check_length, list_at_target, read_list
from tests.publishing.conftest import ONE_BY_ONE, Bench
from tests.publishing.places import everything_at, list_of
from tests.publishing.sites import lay_site
from tests.publishing.upload import WEB, upload

everywhere = pytest.mark.parametrize("bench", ONE_BY_ONE, indirect=True)
DIGEST = "0" * 64
SPELLINGS = [
    "\n",
    "\r",
    "\r\n",
    "\\\n",
    '"\n',
    '"\\\n',
    '\\"\n',
    "'\n",
    "\0\n",
    "\u2028",
    "\x85",
    "\x0b",
    "\x0c",
]
ORDERS = [f'a{end}!touch "OWNED"{end}#' for end in SPELLINGS]
LONG = "-" + "a" * 2034 + "!touch OWNED"
"""The client takes what is beyond 2,047 bytes of a line for its next command."""

LEADING_OUT = [
    *("../victim.txt", "c/../../victim.txt", "..", "./../victim.txt", "c/..", "/VICTIM", "//VICTIM", "~/victim.txt/"),
    *("c//../victim.txt", "..\\victim.txt", "C:\\victim.txt", "a/" * 40 + "b", "", ".", "c/", "a" * 300, "\ud800"),
    *(".wickwright/lock/owner", ".WickWright/x", ".git/config", "GIT~1/config", "CON", "c/nul.html", "com1 .txt"),
]  # fmt: skip


def said(*paths: str, web: str = WEB) -> bytes:
    return json.dumps({"web": web, "files": {path: {"sha256": DIGEST, "size": 1} for path in paths}}).encode()


@contextmanager
def untouched(bench: Bench) -> Iterator[Path]:
    """A file beside the target that must outlive all, and one that must never come."""
    victim, owned = bench.folder / "victim.txt", bench.folder / "owned"
    victim.write_bytes(b"kept")
    before = everything_at(bench.home)
    yield owned
    assert victim.read_bytes() == b"kept"
    assert not owned.exists()
    assert everything_at(bench.home) == before


@everywhere
def test_no_path_that_leads_out_or_gives_an_order_is_taken_from_a_list(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    listed = list_of(bench.place)
    # A store has no commands, and its client takes long to make.
    paths = LEADING_OUT[::6] if bench.kind == "object-store" else [*LEADING_OUT, *ORDERS, LONG]
    for path in paths:
        meant = path.replace("VICTIM", f"{bench.folder}/victim.txt").replace("OWNED", f"{bench.folder}/owned")
        bench.place.put(listed, said("index.html", meant))

        with untouched(bench), pytest.raises(CouldNotPublish) as stop:
            bench.upload()

        assert f"the list {listed} at the target cannot be read: its entry" in str(stop.value)
        assert str(stop.value).isprintable()
        assert len(str(stop.value)) < 500


UNREADABLE = b"[" * 100_000
TOO_LARGE = b" " * (MOST_BYTES_OF_A_LIST + 1)


@everywhere
@pytest.mark.parametrize(
    ("listed", "told"), [(UNREADABLE, "not the JSON"), (TOO_LARGE, "larger than any this program makes")]
)
def test_a_list_that_cannot_be_one_stops_all(bench: Bench, listed: bytes, told: str) -> None:
    _stopped_by(bench, listed, told)


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
@pytest.mark.parametrize(
    ("listed", "told"),
    [
        (b'{"web":' * 50_000, "not the JSON"),
        (b"\xff\xfe\x00", "not the JSON"),
        (b'{"web": 1, "files": {}}', "does not name a site"),
        (said(web="https://\x1b]0;other.example"), r"the site of '.*\\x1b\]0;other"),
        (b'{"web": "", "files": {"a": {"sha256": "x", "size": 1}}}', "its entry 'a' has no digest and size"),
        (b'{"web": "", "files": {"a": {"sha256": "", "size": true}}}', "has no digest and size"),
        (b'{"web": "", "files": {"a": {"sha256": "", "size": -1}}}', "has no digest and size"),
        (b'{"web": "", "files": {"a": {"sha256": "", "size": 1e99}}}', "has no digest and size"),
        (b'{"web": "", "files": {"a": ' + b"[" * 400 + b"]" * 400 + b"}}", "has no digest and size"),
        (b'{"web": "", "files": {"a": ' + b"9" * 5000 + b"}}", "not the JSON"),
    ],
)  # fmt: skip
def test_a_list_that_this_program_did_not_write_stops_all(bench: Bench, listed: bytes, told: str) -> None:
    _stopped_by(bench, listed, told)


def _stopped_by(bench: Bench, listed: bytes, told: str) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    bench.place.put(list_of(bench.place), listed)

    with untouched(bench), pytest.raises(CouldNotPublish, match=told):
        bench.upload()


@everywhere
def test_more_lists_than_runs_leave_behind_stop_all(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.upload()
    for number in range(MOST_LISTS):
        bench.place.put(f".wickwright/list-{number}a.json", said())

    with untouched(bench), pytest.raises(CouldNotPublish, match="more than 16 lists"):
        bench.upload()


@everywhere
def test_an_owner_of_the_lock_that_is_too_long_is_not_ours_to_read(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    bench.home.put(".wickwright/lock/owner", b"x" * 100_000)

    with untouched(bench), pytest.raises(CouldNotPublish, match="owner at the target is larger than"):
        bench.upload()


@everywhere
def test_a_name_of_ours_that_was_altered_on_this_computer_is_made_anew(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    (bench.folder / "runs").mkdir()
    (bench.folder / "runs" / "owner").write_bytes("../../ü\n!id".encode())

    bench.upload()

    assert bench.seen() == bench.built()


@everywhere
def test_a_file_of_ours_that_cannot_be_one_is_not_sent(bench: Bench) -> None:
    lay_site(bench.site, 1, pages=1)
    (bench.site / "a\nb.html").write_bytes(b"<html></html>")

    with (
        untouched(bench),
        pytest.raises(CouldNotPublish, match=r"'a\\nb\.html' cannot be the path of a file of the site"),
    ):
        bench.upload()


def test_more_files_than_a_list_may_name_are_told_of(monkeypatch: pytest.MonkeyPatch) -> None:
    many = {f"{number}.html": (DIGEST, 1) for number in range(MOST_FILES + 1)}

    with pytest.raises(CouldNotPublish, match="come to 50001"):
        check_length(WEB, many)
    with pytest.raises(CouldNotPublish, match="it lists 50001 files"):
        read_list("list-0a.json", list_at_target(WEB, many), WEB)
    monkeypatch.setattr(target_state, "MOST_BYTES_OF_A_LIST", 100)
    with pytest.raises(CouldNotPublish, match="come to 1,"):
        check_length(WEB, {"a": (DIGEST, 1)})


PARTS = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["..", ".", "", "c", "index.html", "victim.txt", "\n!touch owned\n", '"', "\\", "-r", "con", "~"]
    ),
)
PATHS = st.one_of(
    st.text(), st.lists(PARTS, max_size=6).map("/".join), st.sampled_from([*LEADING_OUT, *ORDERS, LONG])
)
VALUES = st.one_of(
    st.just({"sha256": DIGEST, "size": 1}),
    st.recursive(st.none() | st.booleans() | st.integers() | st.text(), st.lists, max_leaves=4),
)
LISTS = st.one_of(
    st.binary(max_size=200),
    st.dictionaries(PATHS, VALUES, max_size=5).map(
        lambda files: json.dumps({"web": WEB, "files": files}).encode()
    ),
    st.lists(PATHS, max_size=5).map(lambda paths: said(*paths)),
)


@settings(max_examples=200)
@given(listed=LISTS)
def test_whatever_a_list_says_its_paths_lead_down_and_are_one_line(listed: bytes) -> None:
    for path in _read(listed):
        assert posixpath.normpath(path) == path
        assert not path.startswith(("/", "."))
        assert ".." not in path.split("/")
        assert path.isprintable()
        assert len(path.encode()) <= 700


@given(
    paths=st.sets(
        st.from_regex(r"(x[a-z0-9é_. -]{0,20}x/){0,4}x[A-Z]{1,9}-[0-9a-f]{8}\.webp", fullmatch=True)
    )
)
def test_a_list_of_ours_is_read_back(paths: set[str]) -> None:
    lines = dict.fromkeys(paths, (DIGEST, 7))

    assert _read(list_at_target(WEB, lines)) == lines


def _read(listed: bytes) -> Lines:
    try:
        return read_list(".wickwright/list-0a.json", listed, WEB)
    except CouldNotPublish:
        return {}


@settings(max_examples=100)
@given(listed=LISTS)
@example(listed=said("../victim.txt", "victim.txt"))
def test_whatever_a_list_says_nothing_beside_a_folder_is_touched(listed: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "content").mkdir()
        (Path(folder) / "content" / "publish.yaml").write_text("disk: {to: folder, folder: ../web}\n")
        (Path(folder) / "web").mkdir()
        lay_site(Path(folder) / "site", 1, pages=1)

        _publish_over(listed, Path(folder), Path(folder) / "web")


@pytest.mark.parametrize("bench", ["sftp", "object-store"], indirect=True)
@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(listed=LISTS)
@example(listed=said('a"\n!touch owned\n#'))
def test_whatever_a_list_says_nothing_beside_a_far_target_is_touched(bench: Bench, listed: bytes) -> None:
    for left in (bench.folder / "site", bench.folder / "runs"):
        shutil.rmtree(left, ignore_errors=True)
    for path in bench.place.names():
        bench.place.remove(path)
    lay_site(bench.site, 1, pages=1)

    bench.place.put(".wickwright/list-0a.json", listed)
    _publish_over(listed, bench.folder, bench.folder / "web")


def _publish_over(listed: bytes, folder: Path, web: Path) -> None:
    """Publish where this list is; all files of this computer but the target's own stay as they were."""
    if web.is_dir():
        (web / ".wickwright").mkdir(exist_ok=True)
        (web / ".wickwright" / "list-0a.json").write_bytes(listed)
    (folder / "victim.txt").write_bytes(b"kept")
    before = _beside(folder, web)
    here = Path.cwd()
    os.chdir(folder)
    try:
        upload(folder / "content", folder / "site", folder / "runs")
    except CouldNotPublish:
        assert not (web / "index.html").exists()
    finally:
        os.chdir(here)
    assert _beside(folder, web) == before


def _beside(folder: Path, web: Path) -> dict[str, bytes]:
    files = (path for path in folder.rglob("*") if path.is_file())
    return {
        str(path): path.read_bytes()
        for path in files
        if not path.is_relative_to(web) and not path.is_relative_to(folder / "runs")
    }
