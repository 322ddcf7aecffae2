"""The shop's secret is used only where it is whole, the maker's alone, and not on its way to everybody by git."""

import errno
import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.ledgers.secret_file import secret_file
from generator.model.secret import Mark, ShopSecret
from generator.problems import Problem, Severity
from generator.reading.shop_secret import HIDDEN_FILE, exposed, read_secret

SECRET = ShopSecret(key=bytes(range(32)), mark=Mark(rows=2, seal="0a" * 16))

pytestmark = pytest.mark.skipif(os.name != "posix", reason="only there do files have modes for others")


@pytest.fixture(name="content")
def _content(tmp_path: Path) -> Path:
    """A content folder with a good secret."""
    content = tmp_path / "content"
    content.mkdir()
    (content / HIDDEN_FILE).write_bytes(secret_file(SECRET))
    (content / HIDDEN_FILE).chmod(0o600)
    return content


def told(content: Path, links: int = 1) -> str:
    problem = read_secret(content, "content", links)
    assert isinstance(problem, Problem)
    return str(problem)


def git(content: Path, *words: str) -> None:
    # The surroundings of a hook would lead git to another repository.
    surroundings = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    found = shutil.which("git")
    if found is None:
        pytest.skip("there is no git")
    subprocess.run([found, "-C", str(content), *words], check=True, env=surroundings, capture_output=True)


def test_a_shop_without_links_needs_no_secret(tmp_path: Path) -> None:
    assert read_secret(tmp_path, "content", 0) is None


def test_a_secret_that_is_lost_is_told_and_not_made_anew(content: Path) -> None:
    (content / HIDDEN_FILE).unlink()

    assert told(content, links=4) == (
        "content/.shop-secret:1:1: error: the shop's secret is missing, and trade links were made with it\n"
        "    why: with a new secret none of those links would work\n"
        "    fix: restore content/.shop-secret from your backup; if it is lost, end every link: wickwright link "
        "--end-all"
    )
    assert not (content / HIDDEN_FILE).exists()


@pytest.mark.parametrize("mode", [0o640, 0o604, 0o644, 0o660])
def test_a_secret_that_others_may_read_is_refused(content: Path, mode: int) -> None:
    (content / HIDDEN_FILE).chmod(mode)

    assert told(content) == (
        "content/.shop-secret:1:1: error: other users of this computer can read the shop's secret\n"
        "    why: anyone who has it can open every buyer's price sheet\n"
        "    fix: chmod 600 content/.shop-secret"
    )


def test_a_secret_that_git_tracks_is_refused(content: Path) -> None:
    git(content.parent, "init", "-q")
    git(content, "add", HIDDEN_FILE)

    assert [str(problem) for problem in exposed(content, "content", content.parent / "output")] == [
        "content/.shop-secret:1:1: error: the shop's secret is under version control\n"
        "    why: anyone with a copy of the entries, now or later, can open every buyer's price sheet\n"
        "    fix: run git rm --cached content/.shop-secret and add a line .shop-secret to .gitignore; old "
        "commits still contain it, so end every link: wickwright link --end-all"
    ]


def test_a_secret_beside_tracked_entries_is_used(content: Path) -> None:
    (content / "maker.yaml").write_text("name: Quay\n", encoding="utf-8")
    git(content.parent, "init", "-q")
    git(content, "add", "maker.yaml")

    assert read_secret(content, "content", 1) == SECRET
    assert list(exposed(content, "content", content.parent / "output")) == []


@pytest.mark.parametrize(
    ("put", "what"),
    [
        (lambda path: os.mkfifo(path, 0o600), "this is a pipe; expected an entry"),
        (Path.mkdir, "this is a folder; expected an entry"),
        (lambda path: path.symlink_to("/dev/zero"), "this is a device; expected an entry"),
    ],
    ids=["pipe", "folder", "device"],
)
def test_what_is_no_file_is_told_and_not_waited_for(
    content: Path, put: Callable[[Path], None], what: str
) -> None:
    (content / HIDDEN_FILE).unlink()
    put(content / HIDDEN_FILE)

    assert told(content).startswith(f"content/.shop-secret:1:1: error: {what}\n")


def test_a_secret_of_another_user_is_not_called_damaged(
    content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path, *_: object) -> int:
        raise PermissionError(errno.EACCES, "Permission denied", str(path))

    monkeypatch.setattr(os, "open", refuse)

    assert told(content) == (
        "content/.shop-secret:1:1: error: the file cannot be opened (Permission denied)\n"
        "    why: the trade links made with it would stop working\n"
        "    fix: make content/.shop-secret readable, or restore it from your backup; if it is lost, end "
        "every link: wickwright link --end-all"
    )


def test_no_command_of_a_repository_is_run(content: Path) -> None:
    git(content.parent, "init", "-q")
    git(content, "add", HIDDEN_FILE)
    ran = content.parent / "ran"
    git(content, "config", "core.fsmonitor", f"touch '{ran}'; false")
    git(content, "ls-files")
    assert ran.exists()  # Git itself runs it.
    ran.unlink()

    assert len(list(exposed(content, "content", content.parent / "output"))) == 1

    assert not ran.exists()


def test_a_repository_fetches_nothing(content: Path) -> None:
    """Git reads folders of a sparse index from their trees, and fetches those by the command of the settings."""
    ran = content.parent / "ran"
    git(content.parent, "init", "-q")
    (content / "far").mkdir()
    (content / "far" / "entry").write_bytes(b"a")
    git(content.parent, "add", "-f", ".")
    git(content.parent, "-c", "user.name=a", "-c", "user.email=a@quay.example", "commit", "-qm", "all")
    git(content.parent, "sparse-checkout", "init", "--cone", "--sparse-index")
    git(content.parent, "remote", "add", "origin", "ssh://quay.example/x")
    for name, value in (
        ("core.sshCommand", f"touch '{ran}'; false"),
        ("core.repositoryFormatVersion", "1"),
        ("extensions.partialClone", "origin"),
        ("remote.origin.promisor", "true"),
    ):
        git(content.parent, "config", name, value)
    shutil.rmtree(content.parent / ".git" / "objects")
    (content.parent / ".git" / "objects").mkdir()
    content.mkdir()
    (content / HIDDEN_FILE).write_bytes(secret_file(SECRET))

    list(exposed(content, "content", content.parent / "output"))

    assert not ran.exists()


def test_a_repository_that_git_does_not_read_is_told(content: Path) -> None:
    git(content.parent, "init", "-q")
    (content.parent / ".git" / "index").write_bytes(b"no index")

    (problem,) = exposed(content, "content", content.parent / "output")

    assert problem.severity is Severity.WARNING
    assert problem.what.startswith("git cannot say whether the shop's secret is under version control (")


@pytest.mark.parametrize(
    "text",
    [b"", b"# only words\n", b"abcd\n", b"a" * 51 + b"\n", b"1" * 52 + b"\n", b"a" * 52 + b"\n" + b"a" * 52,
     b"a" * 52 + b"\n-1 0a\n", b"\xff" * 52],
    ids=["empty", "no secret", "too short", "a letter short", "no such letters", "two", "no mark", "no text"],
)  # fmt: skip
def test_a_secret_that_is_not_whole_is_refused(content: Path, text: bytes) -> None:
    (content / HIDDEN_FILE).write_bytes(text)

    assert told(content) == (
        "content/.shop-secret:1:1: error: the shop's secret in this file is incomplete\n"
        "    why: the trade links made with it would stop working\n"
        "    fix: restore content/.shop-secret from your backup; if it is lost, end every link: wickwright link "
        "--end-all"
    )
