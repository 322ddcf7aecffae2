"""The locks, held against what pyproject.toml asks for and against what first_run and CI rely on."""

import json
import re
import tomllib
from typing import Any

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from generator.first_run import is_locked
from tests.locked import LOCKS, PROJECT, pins

ENTRY: dict[str, Any] = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))
EXTRAS: dict[str, list[str]] = ENTRY["project"]["optional-dependencies"]
ASKED = {
    "build": ENTRY["project"]["dependencies"],
    "test": [*EXTRAS["test"], *EXTRAS["object-store"], *ENTRY["project"]["dependencies"]],
    "tools": [*(one for extra in EXTRAS.values() for one in extra), *ENTRY["project"]["dependencies"]],
    "back-end": ENTRY["build-system"]["requires"],
}
"""Each lock and what pyproject.toml asks for it."""

SYSTEMS = ("linux-x86_64", "linux-aarch64", "macosx-x86_64", "macosx-arm64", "win-amd64")
PYTHONS = ("3.11", "3.12", "3.13", "3.14")


def requirements(lock: str) -> list[Requirement]:
    """What is asked for a lock, besides the project itself, which names its own extras."""
    asked = map(Requirement, ASKED[lock])
    return [one for one in asked if one.name != ENTRY["project"]["name"]]


@pytest.mark.parametrize("lock", ASKED)
def test_every_library_has_a_lower_and_an_upper_bound(lock: str) -> None:
    bounds = {one.name: {each.operator for each in one.specifier} for one in requirements(lock)}

    assert [name for name, found in bounds.items() if found not in ({">=", "<"}, {"=="})] == []


@pytest.mark.parametrize("lock", ASKED)
def test_a_lock_holds_what_is_asked_for_within_its_bounds(lock: str) -> None:
    held = {
        name: [pin for pin in pins(lock) if pin.name == name] for name in {pin.name for pin in pins(lock)}
    }

    wrong = [
        str(one)
        for one in requirements(lock)
        if not (found := held.get(canonicalize_name(one.name)))
        or not all(one.specifier.contains(pin.version, prereleases=True) for pin in found)
    ]

    assert wrong == [], "run python3 .ci/lock.py"


@pytest.mark.parametrize("lock", ASKED)
def test_every_library_of_a_lock_is_held_to_hashes(lock: str) -> None:
    assert [pin.name for pin in pins(lock) if not pin.hashes] == []
    assert all(re.fullmatch("sha256:[0-9a-f]{64}", each) for pin in pins(lock) for each in pin.hashes)


@pytest.mark.parametrize("lock", ["build", "test", "back-end"])
def test_a_smaller_lock_is_a_part_of_the_largest(lock: str) -> None:
    assert {(pin.name, pin.version, pin.hashes) for pin in pins(lock)} <= {
        (pin.name, pin.version, pin.hashes) for pin in pins("tools")
    }


def test_the_lock_of_the_tests_holds_that_of_a_build() -> None:
    assert {pin.name for pin in pins("build")} <= {pin.name for pin in pins("test")}


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("lock", ["build", "back-end"])
def test_a_build_is_locked_on_every_system_and_python_we_name(lock: str, system: str) -> None:
    text = (LOCKS / f"{lock}.txt").read_text(encoding="utf-8")

    assert [python for python in PYTHONS if not is_locked(text, system, python)] == []


def test_no_lock_names_an_address() -> None:
    assert [path.name for path in LOCKS.iterdir() if "://" in path.read_text(encoding="utf-8")] == []


def test_every_page_tool_is_held_to_a_hash() -> None:
    packages = json.loads((LOCKS / "package-lock.json").read_text(encoding="utf-8"))["packages"]

    assert packages[""]["dependencies"] == json.loads((LOCKS / "package.json").read_bytes())["dependencies"]
    assert [name for name, one in packages.items() if name and "integrity" not in one] == []
