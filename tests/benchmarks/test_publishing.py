"""1,200 files by SFTP against one bare batch of the same bytes, and a publish with nothing to send to any peer."""

import subprocess
from pathlib import Path
from time import monotonic

import pytest

from generator.making.release import kept
from tests.publishing.conftest import bucket_bench
from tests.publishing.peers import KEYS, TOOLS, object_store, ssh_server
from tests.publishing.upload import send

pytestmark = pytest.mark.benchmark
PAGES, PICTURES = 600, 600
MOST_OF_A_BARE_BATCH = 1.5
MOST_WITH_NOTHING_TO_SEND_S = 1.0


def _lay(site: Path) -> None:
    for number in range(PAGES):
        (site / f"c{number % 20}").mkdir(parents=True, exist_ok=True)
        (site / f"c{number % 20}" / f"{number}.html").write_bytes(b"page " * 1600 + str(number).encode())
    for number in range(PICTURES):
        (site / f"c{number % 20}" / f"{number}.webp").write_bytes(b"bytes" * 8000 + str(number).encode())


def _bare_batch_s(folder: Path, site: Path) -> float:
    """The least that OpenSSH needs for the same bytes: each file put and renamed, in one batch."""
    files = [path.relative_to(site).as_posix() for path in sorted(site.rglob("*")) if path.is_file()]
    lines = [f"mkdir bare/{path.name}" for path in site.iterdir()]
    lines += [f"put {site}/{name} bare/{name}.part\nrename bare/{name}.part bare/{name}" for name in files]
    batch = folder / "batch"
    batch.write_text("\n".join((f"cd {folder}/web", "mkdir bare", *lines, "")))
    port = (folder / "sshd_config").read_text().split()[1]
    options = ["-o", "BatchMode=yes", "-o", "StrictHostKeyChecking=no", "-o", "UserKnownHostsFile=/dev/null"]
    began = monotonic()
    subprocess.run(
        [  # noqa: S607  (found on the path)
            "sftp",
            "-F",
            "none",
            *options,
            "-i",
            str(folder / "maker"),
            "-P",
            port,
            "-b",
            str(batch),
            "127.0.0.1",
        ],
        check=True,
        capture_output=True,
    )
    return monotonic() - began


@pytest.mark.skipif(not TOOLS, reason="no OpenSSH server and client are installed")
def test_sending_takes_hardly_longer_than_a_bare_batch_and_nothing_takes_no_time(tmp_path: Path) -> None:
    site, content = tmp_path / "site", tmp_path / "content"
    _lay(site)
    content.mkdir()
    with ssh_server(tmp_path) as entry:
        (content / "publish.yaml").write_text(entry.replace("/web,", "/web/ours,"))
        (tmp_path / "web" / "ours").mkdir(parents=True)
        bare_s = _bare_batch_s(tmp_path, site)
        release = kept(site)
        began = monotonic()
        send(content, release, tmp_path / "desk")
        sent_s, began = monotonic() - began, monotonic()
        send(content, release, tmp_path / "desk")
        idle_s = monotonic() - began

    print(f"bare {bare_s:.2f} s, ours {sent_s:.2f} s, nothing to send {idle_s:.2f} s")
    assert sent_s <= bare_s * MOST_OF_A_BARE_BATCH
    assert idle_s < MOST_WITH_NOTHING_TO_SEND_S


def test_nothing_to_send_to_an_object_store_takes_no_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site, content = tmp_path / "site", tmp_path / "content"
    _lay(site)
    content.mkdir()
    for name, value in KEYS.items():
        monkeypatch.setenv(name, value)
    with object_store() as endpoint:
        bucket_bench(tmp_path, endpoint)
        release = kept(site)
        began = monotonic()
        send(content, release, tmp_path / "desk")
        sent_s, began = monotonic() - began, monotonic()
        send(content, release, tmp_path / "desk")
        idle_s = monotonic() - began

    print(f"sent {sent_s:.2f} s, nothing to send {idle_s:.2f} s")
    assert idle_s < MOST_WITH_NOTHING_TO_SEND_S
