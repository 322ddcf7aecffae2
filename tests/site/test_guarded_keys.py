"""Keys of trade links are in the owner's files alone, in no store, and on their way to nobody by git."""

import csv
import io
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from generator.cli import main
from generator.commands.build import build
from generator.making.options import CommandOptions
from tests.example.trade import sell_to_the_trade

HOLDERS = {"workshop/links.csv", "workshop/links.html"}


@pytest.fixture(name="shop")
def _shop(tmp_path: Path) -> Path:
    """A shop as it is started, which sells to the trade."""
    assert main(["start", str(tmp_path / "my-shop")]) == 0
    sell_to_the_trade(tmp_path / "my-shop" / "content")
    return tmp_path / "my-shop"


def wickwright(shop: Path, *words: str) -> int:
    return main([*words, "--content", str(shop / "content"), "--output", str(shop / "output")])


def keys(shop: Path, capsys: pytest.CaptureFixture[str]) -> tuple[bytes, ...]:
    """Every key that is given out."""
    capsys.readouterr()
    assert wickwright(shop, "link", "--all") == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert len(rows) == 2
    return tuple(row["address"].partition("#")[2].encode() for row in rows)


def holders(folder: Path, held: tuple[bytes, ...]) -> set[str]:
    """The files below a folder that hold any of these."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {
        path.relative_to(folder).as_posix()
        for path in files
        if any(each in path.read_bytes() for each in held)
    }


def git(shop: Path, *words: str) -> str:
    found = shutil.which("git")
    if found is None:
        pytest.skip("there is no git")
    # The surroundings of a hook would lead git to another repository.
    surroundings = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    ran = subprocess.run(
        [found, "-C", str(shop), *words], check=True, env=surroundings, capture_output=True, encoding="utf-8"
    )
    return ran.stdout


def test_keys_are_in_two_files_of_a_build_and_a_preview_and_in_no_store(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    given = keys(shop, capsys)
    wickwright(shop, "link", "lamp-room", "--file", str(shop / "output" / "sheet.html"))
    wickwright(shop, "build")
    build(
        CommandOptions(
            content=shop / "content",
            output=shop / "output" / ".preview",
            as_of=None,
            as_data=False,
            drafts=True,
        )
    )

    assert holders(shop / "output", given) == HOLDERS | {f".preview/{path}" for path in HOLDERS}
    assert holders(shop / "content", given) == set()


@pytest.mark.skipif(os.name != "posix", reason="only there do files have modes for others")
def test_files_that_hold_a_key_are_their_owners_alone(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    given = keys(shop, capsys)
    wickwright(shop, "build")
    modes = {
        path: (shop / "output" / path).stat().st_mode & 0o777 for path in holders(shop / "output", given)
    }
    assert modes == dict.fromkeys(HOLDERS, 0o600)

    wickwright(shop, "link", "lamp-room", "--renew")
    wickwright(shop, "build")

    assert {(shop / "output" / path).stat().st_mode & 0o777 for path in HOLDERS} == {0o600}
    assert (shop / "content" / ".shop-secret").stat().st_mode & 0o777 == 0o600


@pytest.mark.skipif(os.name != "posix", reason="only there do files have modes for others")
def test_files_of_an_earlier_program_that_others_may_read_are_closed(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    keys(shop, capsys)
    wickwright(shop, "build")
    for path in HOLDERS:
        (shop / "output" / path).chmod(0o644)
    (shop / "output" / ".store" / "last-build.json").unlink()

    wickwright(shop, "build")

    assert {(shop / "output" / path).stat().st_mode & 0o777 for path in HOLDERS} == {0o600}


def test_git_takes_neither_output_nor_secret_of_a_shop_that_was_started_here(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    keys(shop, capsys)
    wickwright(shop, "build")
    git(shop, "init", "-q")

    git(shop, "add", "-A")

    taken = git(shop, "ls-files").splitlines()
    assert "content/trade/links.csv" in taken
    assert [path for path in taken if path.startswith("output") or ".shop-secret" in path] == []
    capsys.readouterr()
    assert wickwright(shop, "check") == 0
    assert "0 errors, 0 warnings" in capsys.readouterr().out


def test_output_that_git_tracks_is_told_before_and_after_a_build(
    shop: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    keys(shop, capsys)
    wickwright(shop, "build")
    git(shop, "init", "-q")
    git(shop, "add", "-f", "output/workshop", "output/site")
    git(shop, "-c", "user.name=A", "-c", "user.email=a@shop.example", "commit", "-qm", "all")
    monkeypatch.setenv("GIT_DIR", str(shop / "nowhere"))  # As in a hook of another repository.

    for word in ("check", "build", "build"):
        capsys.readouterr()
        assert wickwright(shop, word) == 0
        told = capsys.readouterr().out
        assert "/my-shop/output/workshop/build.json:1:1: warning: this file and " in told
        assert (
            f"fix: run git rm -r --cached {(shop / 'output').as_posix()} and add a line output/ to .gitignore"
            in told
        )

    monkeypatch.delenv("GIT_DIR")
    git(shop, "rm", "-r", "--cached", (shop / "output").as_posix())
    wickwright(shop, "build")
    assert "0 errors, 0 warnings" in capsys.readouterr().out
