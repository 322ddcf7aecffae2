"""A target of each kind, made for the test."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.stories.publish import How
from tests.publishing.peers import TOOLS, ssh_server
from tests.publishing.upload import AS_USUAL, upload


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A content folder with its publish.yaml, where the target's files are, and the folders of this computer."""

    folder: Path
    web: Path

    @property
    def content(self) -> Path:
        return self.folder / "content"

    @property
    def site(self) -> Path:
        return self.folder / "site"

    def upload(self, how: How = AS_USUAL, desk: str = "desk") -> None:
        upload(self.content, self.site, self.folder / desk, how)


@pytest.fixture(name="bench", params=["folder", "sftp"])
def _bench(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Bench]:
    bench = Bench(folder=tmp_path, web=tmp_path / "web")
    bench.content.mkdir()
    if request.param == "folder":
        bench.web.mkdir()
        (bench.content / "publish.yaml").write_text("disk: {to: folder, folder: ../web}\n")
        yield bench
        return
    if not TOOLS:
        pytest.skip("no OpenSSH server and client are installed")
    with ssh_server(tmp_path) as entry:
        (bench.content / "publish.yaml").write_text(entry)
        yield bench
