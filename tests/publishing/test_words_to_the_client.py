"""Every word that the SFTP client is told arrives as that word, or is not told at all; what it says is read warily."""

import os
import re
import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from generator.model.publish_targets import BucketName, Host, Region, StoreProfile, User
from generator.writing.targets.peer import CouldNotPublish
from generator.writing.targets.sftp import Server, SftpPeer
from generator.writing.targets.sftp_batch import check_way, command, listing, local, option, remote
from tests.publishing.conftest import Bench
from tests.publishing.places import Disk
from tests.publishing.sites import lay_site

ODD = ['it\'s a "qu"ote über 100%h', "[x] {a,b} st*r?", "back\\slash a\\*b $HOME", "#x", "~", "-x"]

PATTERN = r"[*?[{\\]"


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
def test_a_shop_in_a_folder_of_any_name_is_published_into_one_of_any_name(bench: Bench) -> None:
    (key,) = re.findall(r" key: (/[^,]+)", bench.entry.read_text())
    entry = bench.entry.read_text()
    for name in ODD:
        here, there = bench.folder / name, bench.folder / f"web {re.sub(PATTERN, '', name)}"
        shutil.copytree(bench.content, here / "content")
        there.mkdir()
        shutil.copy(key, here / f"key {name}")
        (here / f"key {name}").chmod(0o600)
        lay_site(here / "site", 1, pages=1)
        (here / "site" / "über uns [1].html").write_bytes(b"<html></html>")
        written = entry.replace(key, f"'{_yaml(f'../key {name}')}'").replace(
            f"{bench.folder}/web", _quoted(there)
        )
        (here / "content" / "publish.yaml").write_text(written, encoding="utf-8")
        moved = Bench(folder=here, place=Disk(there), home=bench.home, kind="sftp")

        moved.upload()
        (here / "site" / "über uns [1].html").unlink()
        moved.upload()

        assert moved.seen() == moved.built()


@pytest.mark.parametrize("bench", ["sftp"], indirect=True)
@pytest.mark.parametrize("name", ["web[x]", "web?", "w*", "{web,x}", "we\\b"])
def test_a_folder_that_the_client_takes_for_a_pattern_is_refused_for_it_may_mean_others(
    bench: Bench, name: str
) -> None:
    lay_site(bench.site, 1, pages=1)
    (bench.folder / name).mkdir()
    bench.rewrite(f"folder: {bench.folder}/web", f"folder: '{bench.folder}/{name}'")

    with pytest.raises(CouldNotPublish, match="as a pattern, and might change other folders"):
        bench.upload()

    assert bench.seen() == {}


def _yaml(text: str) -> str:
    return text.replace("'", "''")


def _quoted(path: Path) -> str:
    return f"'{_yaml(str(path))}'"


@pytest.mark.parametrize("kind", [Host, User, BucketName, Region, StoreProfile])
def test_a_name_that_begins_with_a_hyphen_is_refused(kind: type[str]) -> None:
    names = TypeAdapter(kind)
    assert names.validate_python("a-d") == "a-d"
    for name in ("-a", "-D", "-oProxyCommand=id"):
        with pytest.raises(ValidationError):
            names.validate_python(name)


def test_what_the_client_is_told_of_the_server_is_no_option(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The names are checked in publish.yaml; should one slip through, the client takes it for a name all the same."""
    client, words, key = tmp_path / "sftp", tmp_path / "words", tmp_path / "key"
    client.write_text(f"#!/bin/sh\nprintf '%s\\n' \"$@\" > '{words}'\nexit 1\n", encoding="utf-8")
    client.chmod(0o700)
    key.write_bytes(b"")
    monkeypatch.setenv("PATH", str(tmp_path), prepend=os.pathsep)
    server = Server(
        host="quay.example", port=22, user="-D/x", folder="web", key=key, host_key="ssh-ed25519 A"
    )

    with pytest.raises(CouldNotPublish):
        SftpPeer(server).look(("",))

    assert words.read_text(encoding="utf-8").splitlines()[-2:] == ["--", "-D/x@quay.example"]


@given(text=st.text())
def test_a_word_is_one_line_or_is_refused(text: str) -> None:
    try:
        word = remote(text)
    except (CouldNotPublish, UnicodeEncodeError):
        assert re.search("[\x00-\x1f\x7f\ud800-\udfff]", text)
        return

    assert re.fullmatch(rb'"([^\x00-\x1f\x7f"\\]|\\["\\])*"', word)
    assert not word.startswith(b'"-')


@pytest.mark.parametrize("sign", ["\n", "\r", "\0", "\x1b", "\x7f"])
def test_a_word_that_would_end_the_line_is_refused(sign: str) -> None:
    with pytest.raises(CouldNotPublish, match="contains an invisible"):
        remote(f"a{sign}!id")
    with pytest.raises(CouldNotPublish, match="contains an invisible"):
        local(Path(f"/a{sign}!id"))
    with pytest.raises(CouldNotPublish, match="contains"):
        option(Path(f"/a{sign}b"))


def test_a_variable_of_the_surroundings_is_not_put_into_an_option() -> None:
    with pytest.raises(CouldNotPublish, match=r"contains \$\{"):
        option(Path("/shops/${HOME}/key"))


def test_a_line_that_the_client_would_read_as_two_is_refused() -> None:
    assert len(command("-rm", remote("a" * 2040))) == 2046
    with pytest.raises(CouldNotPublish, match="too long a name"):
        command("-rm", remote("a" * 2041))


def test_bytes_of_the_disk_that_are_no_text_are_told_as_they_are() -> None:
    assert local(Path(os.fsdecode(b"/shop/\xe4"))) in (b'"/shop/\xe4"', b'"/shop/\xc3\xa4"')


SAID = [
    "drwxr-xr-x    ? 0        0            4096 Dec  1 02:51 c/.",
    "lrwxrwxrwx    1 domain users  staff of 10 Jun 24  2025 c/a 1 Dec  1 02:51 b",
    r"-rw-r--r--    1 0        0              12 Dec  1 02:51 c/\303\274.html",
    "prw-r--r--    1 0        0               0 Dec  1 02:51 c/pipe",
]


def test_a_listing_is_read_as_the_client_writes_it() -> None:
    assert [(entry.kind, entry.name, entry.size) for entry in listing("c", SAID)] == [
        ("d", ".", 4096),
        ("l", "a 1 Dec  1 02:51 b", 10),
        ("-", "ü.html", 12),
        ("p", "pipe", 0),
    ]


@pytest.mark.parametrize("line", ["c/a", "?---------    ? 0        0           1 Dec  1 02:51 c/a", "lrwx"])
def test_a_line_that_might_hide_a_link_stops_all(line: str) -> None:
    with pytest.raises(CouldNotPublish, match="may hide a link"):
        listing("c", [SAID[0], line])


def test_a_folder_that_shows_nothing_of_itself_stops_all() -> None:
    base = listing(".", ["drwx--x--x    1 0        0            4096 Dec  1 02:51 ./c"])

    with pytest.raises(CouldNotPublish, match="cannot be listed"):
        check_way({".": base, "c": ()}, "c/a.html")


def test_a_link_of_another_spelling_is_one_on_a_server_that_does_not_tell_them_apart() -> None:
    base = listing(".", ["lrwxrwxrwx    1 0        0            4096 Dec  1 02:51 ./Über"])

    with pytest.raises(CouldNotPublish, match="is a link"):
        check_way({".": base}, "u\u0308ber/a.html")
