"""What first_run installs, when it installs, and what it says when it cannot."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from generator import first_run
from generator.first_run import PROJECT, is_locked, main, pip_failure, steps, this_system

HEADING = "# complete for linux-x86_64: 3.11 3.12\n# complete for win-amd64: 3.11\nsegno==1.6.6 \\\n"
PYTHON = f"{sys.version_info.major}.{sys.version_info.minor}"
TAMPERED = "ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.\n    segno==1.6.6"


class Computer:
    """A checkout whose commands are written down instead of run; pip fails when it ``says`` something."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.commands: list[list[str]] = []
        self.says = ""

    def run(self, command: list[str], **_: object) -> subprocess.CompletedProcess[str]:
        self.commands.append(command)
        failed = "install" in command and self.says != ""
        return subprocess.CompletedProcess(command, returncode=int(failed), stderr=self.says)

    def installs(self) -> list[list[str]]:
        """What pip was asked for since the last time."""
        asked = [each for each in self.commands if "install" in each]
        self.commands.clear()
        return asked

    def lock(self, name: str) -> Path:
        return self.folder / ".locks" / f"{name}.txt"

    def locks_only(self, python: str) -> None:
        """Leaves in each lock the heading of one Python on this system."""
        for path in (self.folder / ".locks").glob("*.txt"):
            path.write_text(f"# {path.stem}\n# complete for {this_system()}: {python}\n", encoding="utf-8")


@pytest.fixture(name="computer")
def _computer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Computer:
    computer = Computer(tmp_path)
    shutil.copytree(PROJECT / ".locks", tmp_path / ".locks")
    shutil.copy(PROJECT / "pyproject.toml", tmp_path)
    environment = tmp_path / ".venv"
    for program in ("bin/python", "Scripts/python.exe"):
        (environment / program).parent.mkdir(parents=True)
        (environment / program).touch()
    monkeypatch.setattr(first_run, "PROJECT", tmp_path)
    monkeypatch.setattr(first_run, "ENVIRONMENT", environment)
    monkeypatch.setattr(first_run, "INSTALLED", environment / "installed.txt")
    monkeypatch.setattr("generator.first_run.subprocess.run", computer.run)
    computer.locks_only(PYTHON)
    return computer


@pytest.mark.parametrize(
    ("system", "python", "expected"),
    [
        ("linux-x86_64", "3.11", True),
        ("linux-x86_64", "3.12", True),
        ("win-amd64", "3.12", False),
        ("linux-x86_64", "3.1", False),
        ("linux-x86_64", "3.16", False),
        ("linux-x86_64 without glibc", "3.11", False),
        ("win-arm64", "3.11", False),
    ],
)
def test_a_lock_is_for_the_systems_and_pythons_of_its_heading(
    system: str, python: str, expected: bool
) -> None:
    assert is_locked(HEADING, system, python) is expected


def test_what_is_locked_is_held_to_hashes_and_never_built_from_source() -> None:
    libraries, _ = steps("test", locked=True)

    assert libraries[:3] == ["--require-hashes", "--only-binary", ":all:"]
    assert [Path(word).name for word in libraries if word.endswith(".txt")] == ["test.txt", "back-end.txt"]


def test_the_project_itself_fetches_nothing() -> None:
    _, project = steps("build", locked=True)

    assert project == ["--no-index", "--no-deps", "--no-build-isolation", "--editable", str(PROJECT)]


@pytest.mark.parametrize(("wanted", "asked"), [("build", str(PROJECT)), ("test", f"{PROJECT}[test]")])
def test_where_nothing_is_locked_the_bounds_of_the_project_hold(wanted: str, asked: str) -> None:
    assert steps(wanted, locked=False) == [["--prefer-binary", "--editable", asked]]


def test_a_second_run_installs_nothing(computer: Computer) -> None:
    main(["build"])
    first = computer.installs()
    main(["build"])

    assert (len(first), len(computer.installs())) == (2, 0)


def test_a_build_after_the_tests_installs_nothing(computer: Computer) -> None:
    main(["test"])
    computer.installs()
    main(["build"])

    assert computer.installs() == []


def test_the_tests_after_a_build_install_what_they_need_besides(computer: Computer) -> None:
    main(["build"])
    computer.installs()
    main(["test"])

    assert len(computer.installs()) == 2


@pytest.mark.parametrize("changed", [".locks/build.txt", ".locks/back-end.txt", "pyproject.toml"])
def test_what_changes_the_install_installs_again(computer: Computer, changed: str) -> None:
    main(["build"])
    computer.installs()
    with (computer.folder / changed).open("a", encoding="utf-8") as file:
        file.write("# moved\n")
    main(["build"])

    assert len(computer.installs()) == 2


def test_another_file_than_the_locked_one_is_refused_and_nothing_else_tried(
    computer: Computer, capsys: pytest.CaptureFixture[str]
) -> None:
    computer.says = TAMPERED

    assert main(["build"]) == 3
    assert len(computer.installs()) == 1
    told = capsys.readouterr()
    assert "Refused: a downloaded file is not the locked one" in told.out
    assert "segno==1.6.6" in told.err


def test_what_was_refused_once_is_not_taken_as_installed(computer: Computer) -> None:
    main(["build"])
    computer.lock("build").write_text(HEADING, encoding="utf-8")
    computer.says = TAMPERED
    main(["build"])
    computer.says = ""
    computer.locks_only(PYTHON)
    computer.installs()
    main(["build"])

    assert len(computer.installs()) == 2


def test_without_a_network_it_asks_for_one() -> None:
    assert "Check your connection" in pip_failure("ERROR: No matching distribution found for segno==1.6.6")


def test_a_python_that_no_lock_holds_is_told_so_and_takes_what_the_bounds_allow(
    computer: Computer, capsys: pytest.CaptureFixture[str]
) -> None:
    computer.locks_only("3.99")

    assert main(["build"]) == 0
    assert [command[-3:] for command in computer.installs()] == [
        ["--prefer-binary", "--editable", str(computer.folder)]
    ]
    assert (
        f"There are no locked libraries for {this_system()} with Python {PYTHON}." in capsys.readouterr().out
    )


@pytest.mark.parametrize(
    ("platform", "machine", "expected"),
    [
        ("macosx-10.13-universal2", "arm64", "macosx-arm64"),
        ("macosx-11.0-arm64", "arm64", "macosx-arm64"),
        ("win-amd64", "AMD64", "win-amd64"),
        ("win-arm64", "ARM64", "win-arm64"),
    ],
)
def test_a_system_is_named_as_the_locks_name_it(
    monkeypatch: pytest.MonkeyPatch, platform: str, machine: str, expected: str
) -> None:
    monkeypatch.setattr("sysconfig.get_platform", lambda: platform)
    monkeypatch.setattr("platform.machine", lambda: machine)

    assert this_system() == expected


@pytest.mark.parametrize(
    ("library", "expected"), [("glibc", "linux-x86_64"), ("", "linux-x86_64 without glibc")]
)
def test_a_linux_of_another_c_library_is_another_system(
    monkeypatch: pytest.MonkeyPatch, library: str, expected: str
) -> None:
    monkeypatch.setattr("sysconfig.get_platform", lambda: "linux-x86_64")
    monkeypatch.setattr("platform.libc_ver", lambda: (library, ""))

    assert this_system() == expected
