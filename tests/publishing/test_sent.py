"""The border once more, over what really arrives: every byte of every kind of target is searched.

The shop is the one in whose private fields canaries are planted for the tests of the site; here they are in its
``publish.yaml`` and in the secret of its trade links as well.
"""

import json
import re
import shutil
from pathlib import Path

import pytest

from generator.cli import main
from tests.conftest import PROJECT
from tests.documents.test_border import CANARY, LOTS, PLANTED
from tests.documents.test_border_of_trade import CIPHERTEXT, FILES, OWN_LABELS
from tests.publishing.conftest import ONE_BY_ONE, Bench
from tests.publishing.peers import KEYS
from tests.publishing.places import OURS, Bucket, Disk, everything_at, list_of, site_of
from tests.site.paper_tools import text_of


@pytest.fixture(name="planted", scope="module")
def _planted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The planted shop, its sheets issued, links given to its buyer, built."""
    folder = tmp_path_factory.mktemp("planted")
    content = folder / "content"
    shutil.copytree(PROJECT / "generator/data/first_shop", content)
    (content / "trade").mkdir()
    for name, text in FILES.items():
        (content / name).write_text(text.replace("\n        ", "\n").lstrip(), encoding="utf-8")
    (content / "lots.csv").write_text(LOTS, encoding="utf-8")
    for name, changes in PLANTED.items():
        text = (content / name).read_text(encoding="utf-8")
        for written, planted in changes.items():
            text = text.replace(written, planted, 1)
        (content / name).write_text(text, encoding="utf-8")
    with (content / "candles/wet-garden.yaml").open("a", encoding="utf-8") as candle:
        candle.write(OWN_LABELS)
    assert _say(folder, "link", "--all") == 0
    assert _say(folder, "issue", "--reason", f"{CANARY} reason") == 0
    assert _say(folder, "build") == 0
    return folder


def _say(folder: Path, *words: str) -> int:
    return main([*words, "--content", str(folder / "content"), "--output", str(folder / "output")])


@pytest.fixture(name="sent")
def _sent(bench: Bench, planted: Path) -> Bench:
    """The same shop, published there; the target's own entry holds canaries where it is free to."""
    shutil.copytree(planted, bench.folder, dirs_exist_ok=True)
    name, _, entry = bench.entry.read_text().partition(":")
    bench.entry.write_text(f"{CANARY}-{name}:{entry}")
    assert _say(bench.folder, "publish") == 0
    return bench


everywhere = pytest.mark.parametrize("bench", ONE_BY_ONE, indirect=True)


@everywhere
def test_no_byte_and_no_name_at_the_target_tells_what_is_private(sent: Bench) -> None:
    written = (sent.content / ".shop-secret").read_bytes().splitlines()
    secret, _mark = (line.strip() for line in written if line and not line.startswith(b"#"))
    private = [CANARY.encode(), secret, KEYS["AWS_SECRET_ACCESS_KEY"].encode(), str(sent.folder).encode()]

    leaking = [
        (path, word)
        for path, data in everything_at(sent.place).items()
        for word in private
        if word.lower() in path.lower().encode() or word.lower() in _open(path, data).lower()
    ]

    assert leaking == []


def _open(path: str, data: bytes) -> bytes:
    """The bytes with what they hold packed; ciphertext is left out, since it may spell anything."""
    if path.endswith(".pdf"):
        return data + text_of(data).encode()
    return CIPHERTEXT.sub("", data.decode()).encode() if path.endswith(".html") else data


@everywhere
def test_what_arrives_is_the_site_and_one_list_and_nothing_else(sent: Bench) -> None:
    notes = [path for path in sent.place.names() if path.startswith(OURS)]

    assert sent.seen() == site_of(Disk(sent.folder / "output" / "site"))
    assert notes == [list_of(sent.place)]


@everywhere
def test_the_list_holds_paths_digests_and_sizes_under_a_name_that_nobody_guesses(sent: Bench) -> None:
    """It names the pages of lots and of trade buyers, to which no page leads."""
    name = list_of(sent.place)
    listed = json.loads(sent.place.read(name))

    assert re.fullmatch(r"\.wickwright/list-[0-9a-f]{32}\.json", name)
    assert listed.keys() == {"web", "files"}
    assert {key for line in listed["files"].values() for key in line} == {"sha256", "size"}
    assert any(path.startswith("lots/") for path in listed["files"])
    assert any(path.startswith("t/") for path in listed["files"])
    assert not any(name.encode() in data for data in sent.seen().values())


@pytest.mark.parametrize("bench", ["object-store"], indirect=True)
def test_a_store_says_of_each_object_its_kind_and_how_long_it_may_be_kept_and_no_more(sent: Bench) -> None:
    assert isinstance(sent.place, Bucket)
    objects = {path: sent.place.object(path) for path in sent.place.times()}

    said = {
        path.partition("/")[0] + Path(path).suffix: (found["ContentType"], found["CacheControl"])
        for path, found in objects.items()
    }

    assert [found["Metadata"] for found in objects.values() if found["Metadata"]] == []
    assert said["index.html.html"] == ("text/html; charset=utf-8", "no-cache")
    assert said["styles.css"] == ("text/css; charset=utf-8", "public, max-age=31536000, immutable")
    assert said["t.html"] == ("text/html; charset=utf-8", "no-store")
    assert said[".wickwright.json"] == ("application/json", "no-store")
    assert not any(kind == "application/octet-stream" for kind, _ in said.values())


@everywhere
def test_the_search_finds_what_it_looks_for(sent: Bench) -> None:
    """A search that cannot find would never fail: here a canary is let out on purpose."""
    sent.place.put("leak.html", b"<p>Canary wax")

    with pytest.raises(AssertionError, match=r"leak\.html"):
        test_no_byte_and_no_name_at_the_target_tells_what_is_private(sent)
