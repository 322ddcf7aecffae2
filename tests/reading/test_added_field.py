"""The recipe "add a field" of DEVELOPERS.md, followed: a wax of a test's own, with a field that no wax has."""

import json
from dataclasses import dataclass
from typing import Annotated

from generator.model.entry import About
from generator.model.materials import Wax
from generator.model.quantities import Celsius
from generator.reading.schemas import schema_text
from tests.reading.telling import read, told

WHY = "below it the kettle's tap would be blocked"
SOY = """
    name: Soy
    density:
      set: 0.9 g/ml
      molten: 0.86 g/ml at 60 C
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class TappedWax(Wax):
    """A wax, and how hot it must be to run through a tap."""

    runs_from_c: Annotated[Celsius | None, About(WHY)] = None


def test_an_added_field_is_read_under_its_key_without_the_unit() -> None:
    wax = read(f"{SOY}    runs_from: 55 C\n", TappedWax)

    assert isinstance(wax, TappedWax), wax
    assert wax.runs_from_c == 55.0


def test_an_entry_without_it_reads_as_before() -> None:
    wax = read(SOY, TappedWax)

    assert isinstance(wax, TappedWax), wax
    assert wax.runs_from_c is None


def test_a_fault_in_it_is_told_with_its_own_reason_and_form() -> None:
    lines = told(f"{SOY}    runs_from: [55 C]\n", TappedWax).splitlines()

    assert lines[0] == "content/entry.yaml:6:12: error: runs_from is a list; expected one text"
    assert lines[1:] == [f"    why: {WHY}", "    fix: runs_from: 55 C"]


def test_a_misspelt_key_is_answered_with_it() -> None:
    assert "runs_from" in told(f"{SOY}    runs_form: 55 C\n", TappedWax).split("fix:")[1]


def test_an_editor_completes_it() -> None:
    properties = json.loads(schema_text(TappedWax))["properties"]

    assert "runs_from" in properties
    assert "runs_from_c" not in properties
