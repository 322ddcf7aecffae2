"""The command from outside: its exit codes, each from a real process once, and what it says."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from generator.cli import main
from generator.making.one_writer import LOCK_FILE
from tests.conftest import EXAMPLE, PROJECT
from tests.reading.broken_shops import BROKEN, EXPECTED, broken_shop

BROKEN_BUILDS = (
    "bracket-never-closed",
    "misspelt-key",
    "no-maker",
    "not-utf-8",
    "own-label-without-its-buyer",
    "percentage-without-basis",
    "price-given-twice-for-one-day",
    "publish-with-a-password",
    "table-with-an-open-quote",
    "unknown-file",
)
"""A broken shop of each sort, the last one only warned; ``tests/reading`` holds the texts of all."""


def wickwright(*words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "generator", *words]
    return subprocess.run(
        command,
        cwd=folder,
        env={"PYTHONPATH": str(PROJECT)},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def everything_below(folder: Path) -> dict[str, bytes]:
    """Every file but those by which commands wait for each other."""
    files = (path for path in folder.rglob("*") if path.is_file() and LOCK_FILE not in path.parts)
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def test_a_good_shop_is_built_and_ends_with_0(shop_folder: Path) -> None:
    ended = wickwright("build", folder=shop_folder.parent)

    assert (ended.returncode, ended.stderr) == (0, "")
    assert ended.stdout.splitlines()[-2:] == [
        "Built. No problems. Open output/site/index.html",
        "Next: wickwright handbook publishing",
    ]
    assert (shop_folder.parent / "output" / "site" / "candles" / "wet-garden.html").is_file()


def test_a_shop_at_fault_ends_with_1_and_names_the_place(shop_folder: Path) -> None:
    candle = shop_folder / "candles" / "wet-garden.yaml"
    candle.write_text(candle.read_text(encoding="utf-8").replace("8 % of wax ", "8 % "), encoding="utf-8")

    ended = wickwright("check", folder=shop_folder.parent)

    assert ended.returncode == 1
    assert ended.stdout.startswith(
        "content/candles/wet-garden.yaml:13:15: error: wet-garden is '8 %', without its basis"
    )


def test_wrong_use_ends_with_2(shop_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ended = wickwright("biuld", folder=shop_folder.parent)

    assert (ended.returncode, ended.stderr) == (
        2,
        "wickwright: unknown command 'biuld'. Did you mean 'build'?\n",
    )
    monkeypatch.chdir(shop_folder.parent)
    Path("a-note.txt").write_text("mine", encoding="utf-8")
    assert [main(words) for words in (["explain", "XX-1"], ["start", "."], ["build", "--kolour"])] == [2] * 3


def test_what_cannot_be_finished_ends_with_3_and_one_sentence(shop_folder: Path) -> None:
    (shop_folder.parent / "output").write_text("a file where a folder belongs", encoding="utf-8")

    ended = wickwright("build", folder=shop_folder.parent)

    assert ended.returncode == 3
    assert "Traceback" not in ended.stderr + ended.stdout
    assert "could not finish" in ended.stderr + ended.stdout


def test_json_prints_the_same_faults_as_data(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    vessel = shop_folder / "vessels" / "amber-20.yaml"
    vessel.write_text(vessel.read_text(encoding="utf-8").replace("78 mm", "78"), encoding="utf-8")

    code = main(["check", "--json", "--content", str(shop_folder)])

    faults = json.loads(capsys.readouterr().out)
    assert code == 1
    keys = {
        "file",
        "line",
        "column",
        "severity",
        "what",
        "why",
        "fix",
        "write",
        "check",
        "entry",
        "accepted",
        "page",
    }
    assert keys == set(faults[0])
    assert [fault["what"] for fault in faults] == ["height is '78', without a unit"]


def test_start_makes_a_shop_that_builds_without_a_word_of_complaint(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    started = main(["start", "shop"])
    monkeypatch.chdir("shop")
    built = main(["build"])

    assert (started, built) == (0, 0)
    assert "No problems." in capsys.readouterr().out


def test_check_writes_the_schemas_that_the_entries_name(shop_folder: Path) -> None:
    main(["check", "--content", str(shop_folder)])

    for entry in shop_folder.rglob("*.yaml"):
        named = entry.read_text(encoding="utf-8").splitlines()[0].partition("$schema=")[2]
        assert (entry.parent / named).is_file(), entry


def test_check_tells_of_the_entries_also_where_it_cannot_write_the_schemas(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop_folder / ".schema").write_text("in the way", encoding="utf-8")

    code = main(["check", "--content", str(shop_folder), "--output", str(shop_folder.parent / "output")])

    told = capsys.readouterr()
    assert "No problems." in told.out
    assert (code, ".schema" in told.err) == (3, True)


@pytest.mark.parametrize("name", BROKEN_BUILDS)
def test_a_broken_shop_leaves_the_output_as_it_was(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    case, output = BROKEN / name, tmp_path / "output"
    content = broken_shop(case, tmp_path)
    output.mkdir()
    (output / "kept.txt").write_text("from before", encoding="utf-8")

    code = main(["build", "--content", str(content), "--output", str(output)])

    told = capsys.readouterr().out.replace(content.as_posix(), "content")
    expected = (case / EXPECTED).read_text(encoding="utf-8")
    assert expected in told
    assert "why:" not in told.replace(expected, "", 1)
    assert code == (1 if ": error: " in expected else 0)
    assert (everything_below(output) == {"kept.txt": b"from before"}) is (code == 1)


def test_the_shipped_example_shop_builds_without_an_error(
    warm_output: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = main(["build", "--content", str(EXAMPLE), "--output", str(warm_output)])

    assert (code, "\nBuilt. 15 warnings, 3 accepted. Open " in capsys.readouterr().out) == (0, True)
