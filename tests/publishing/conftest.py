"""A target of each kind, made for the test."""

import re
import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from botocore.loaders import JSONFileLoader

from generator.commands.publish import How
from generator.model.publish_targets import Target
from tests.publishing.peers import KEYS, TOOLS, client_of, object_store, ssh_server
from tests.publishing.places import Bucket, Disk, Place, site_of
from tests.publishing.upload import AS_USUAL, target_in, upload

AT_ONCE = " at once"
ONE_BY_ONE = ("folder", "sftp", "object-store")
ONE_OF_EACH = ("folder at once", "sftp", "object-store")
"""Where a test takes long: every kind of peer, and both ways in which a site changes."""

WITH_LINKS = ("folder at once", "sftp at once")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A content folder with its publish.yaml, the folders of this computer, and those of the target.

    ``place`` is what people see; ``home`` is where the lock is, one above it where a site changes at once.
    """

    folder: Path
    place: Place
    home: Place
    kind: str

    @property
    def content(self) -> Path:
        return self.folder / "content"

    @property
    def site(self) -> Path:
        return self.folder / "site"

    @property
    def entry(self) -> Path:
        return self.content / "publish.yaml"

    def target(self) -> Target:
        return target_in(self.content)

    def upload(self, how: How = AS_USUAL, runs: str = "runs") -> None:
        upload(self.content, self.site, self.folder / runs, how)

    def rewrite(self, old: str, new: str) -> None:
        text = self.entry.read_text()
        assert old in text
        self.entry.write_text(text.replace(old, new))

    def seen(self) -> dict[str, bytes]:
        return site_of(self.place)

    def built(self) -> dict[str, bytes]:
        return site_of(Disk(self.site))


@pytest.fixture(scope="session", autouse=True)
def _models_of_the_client() -> Iterator[None]:
    """The JSON that a client of the object store is made from, which takes longer than the rest, is parsed once."""
    read = cache(JSONFileLoader().load_file)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(JSONFileLoader, "load_file", lambda _self, path: read(path))
        yield


@pytest.fixture(name="store", scope="session")
def _store() -> Iterator[str]:
    """One object store for all tests, since it takes seconds to start; each test has a bucket of its own."""
    with object_store() as endpoint:
        yield endpoint


@pytest.fixture(name="server", scope="session")
def _server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """One OpenSSH server for all tests; each test has a folder of its own."""
    if not TOOLS:
        pytest.skip("no OpenSSH server and client are installed")
    with ssh_server(tmp_path_factory.mktemp("ssh")) as entry:
        yield entry


@pytest.fixture(name="bench", params=[*ONE_BY_ONE, *WITH_LINKS])
def _bench(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    (tmp_path / "content").mkdir()
    kind = str(request.param)
    if kind == "object-store":
        for name, value in KEYS.items():
            monkeypatch.setenv(name, value)
        return bucket_bench(tmp_path, request.getfixturevalue("store"))
    web = Disk(tmp_path / "web")
    entry = "disk: {to: folder, folder: ../web}\n"
    if kind.startswith("sftp"):
        entry = re.sub("folder: [^,]+", f"folder: {web.web}", request.getfixturevalue("server"))
    if kind.endswith(AT_ONCE):
        entry = entry.replace("}", ", changes: at once}")
    else:
        web.web.mkdir()
    (tmp_path / "content" / "publish.yaml").write_text(entry)
    return Bench(
        folder=tmp_path, place=web, home=Disk(tmp_path) if kind.endswith(AT_ONCE) else web, kind=kind
    )


def bucket_bench(folder: Path, endpoint: str) -> Bench:
    """A bench whose target is a new bucket, with the site below a folder in it."""
    name = f"bench-{secrets.token_hex(6)}"
    client = client_of(endpoint)
    client.create_bucket(Bucket=name)
    (folder / "content" / "publish.yaml").write_text(
        f"store: {{to: object-store, endpoint: {endpoint}, bucket: {name}, folder: shop}}\n"
    )
    place = Bucket(client, name, "shop/")
    return Bench(folder=folder, place=place, home=place, kind="object-store")
