"""One entry in a test's own lines: what it reads as, and what the reader says of it."""

from textwrap import dedent
from typing import Any

from generator.problems import Places, Problem
from generator.reading.faults import Thing, Written
from generator.reading.located import located
from generator.reading.wording import validated


def read(text: str, kind: type[Thing]) -> Thing | tuple[Problem, ...]:
    """An entry called ``here`` from its lines."""
    found = located(dedent(text).encode(), "entry.yaml")
    if not isinstance(found.data, dict):
        return found.problems
    needs_id = "id" in getattr(kind, "__dataclass_fields__", {})
    data: dict[str, Any] = {**found.data, **({"id": "here"} if needs_id else {})}
    places = Places(shown_as="content", files={"entry.yaml": found.spots})
    value = validated(
        Written(kind=kind, noun=f"a {kind.__name__.lower()}", data=data, at=("entry.yaml",), places=places)
    )
    return (*found.problems, *value) if isinstance(value, tuple) else value


def told(text: str, kind: type[Any]) -> str:
    """Everything the reader says of an entry, one fault below the other."""
    value = read(text, kind)
    return "\n".join(str(problem) for problem in value) if isinstance(value, tuple) else ""


def told_of_writing(text: str) -> str:
    """What the reader says of a file's writing alone."""
    return "\n".join(str(problem) for problem in located(text.encode(), "entry.yaml").problems)
