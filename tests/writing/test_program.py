"""What the program says of itself for the keys of the memo."""

import shutil
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest

import generator
from generator.writing.program import library_versions, program_digest


def digest_of_copy(folder: Path, changed: dict[str, str]) -> str:
    """The digest a copy of the program gives after some of its files have changed."""
    shutil.copytree(
        Path(generator.__file__).parent, folder / "generator", ignore=shutil.ignore_patterns("__pycache__")
    )
    for name, text in changed.items():
        (folder / "generator" / name).write_text(text, encoding="utf-8")
    question = "from generator.writing.program import program_digest; print(program_digest())"
    command = [sys.executable, "-c", question]
    return subprocess.run(command, cwd=folder, check=True, capture_output=True, text=True).stdout.strip()


def test_the_same_program_has_the_same_digest_wherever_it_lies(tmp_path: Path) -> None:
    assert digest_of_copy(tmp_path, {}) == program_digest()


@pytest.mark.parametrize("name", ["document.py", "data/new-table.json"])
def test_any_change_of_code_or_data_changes_the_digest(tmp_path: Path, name: str) -> None:
    assert digest_of_copy(tmp_path, {name: "changed = 1"}) != program_digest()


LIBRARIES = (
    "cryptography", "fontpkg-arimo", "fontpkg-atkinson-hyperlegible", "fontpkg-fira-code", "fontpkg-inter", "jinja2",
    "markdown", "markupsafe", "pillow", "pydantic", "pyyaml", "segno", "typst",
)  # fmt: skip


def test_the_versions_are_those_of_the_installed_libraries() -> None:
    expected = {name: version(name) for name in LIBRARIES}

    assert expected == library_versions()
