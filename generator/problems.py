"""A fault of an entry, as a value: where it is, what is wrong, what it would spoil, what to write."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

Step = str | int
Path = tuple[Step, ...]
"""The way to a value inside one entry: keys and list positions, e.g. ``("sizes", 0, "fill", "to")``."""


class Severity(Enum):
    """An error stops the build; a warning does not."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a file, counted from 1, with the file named as the maker sees it."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One fault of the maker's files; gathered over a whole run, never raised."""

    place: Place
    what: str
    why: str
    write: str
    severity: Severity = Severity.ERROR

    def __str__(self) -> str:
        return (
            f"{self.place}: {self.severity.value}: {self.what}\n    why: {self.why}\n    write: {self.write}"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A fault of a value without a place: its path says which field, and a reader knows where that is."""

    path: Path
    what: str
    why: str
    write: str
    severity: Severity = Severity.ERROR

    def at(self, place: Place) -> Problem:
        """The same fault, placed."""
        return Problem(place=place, what=self.what, why=self.why, write=self.write, severity=self.severity)


def is_error(problem: Problem | Fault) -> bool:
    """Whether it stops the build."""
    return problem.severity is Severity.ERROR


def in_reading_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Sorted by file, line and column, each distinct problem once."""
    return tuple(sorted(dict.fromkeys(problems), key=lambda p: (p.place, p.severity.value, p.what)))


def counted(problems: Iterable[Problem]) -> str:
    """The last line of a run, e.g. ``2 errors, 1 warning``."""
    all_problems = tuple(problems)
    errors = sum(is_error(p) for p in all_problems)
    return f"{_number(errors, 'error')}, {_number(len(all_problems) - errors, 'warning')}"


def as_data(problem: Problem) -> dict[str, str | int]:
    """A problem for other programs: file, line, column, severity, what, why, write."""
    return {
        "file": problem.place.file,
        "line": problem.place.line,
        "column": problem.place.column,
        "severity": problem.severity.value,
        "what": problem.what,
        "why": problem.why,
        "write": problem.write,
    }


def _number(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
