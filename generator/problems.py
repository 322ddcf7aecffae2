"""An error in an entry, as a value: where it is, what is wrong, what it would spoil, how to fix it."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from types import MappingProxyType
from typing import Final, NamedTuple

from generator.handbook_pages import page_of

Step = str | int
Path = tuple[Step, ...]
"""The way to a value inside one entry: keys and list positions, e.g. ``("sizes", 0, "fill", "to")``."""


class Severity(Enum):
    """An error stops the build; a warning does not."""

    ERROR = "error"
    WARNING = "warning"


class Place(NamedTuple):
    """A spot in a file, counted from 1, with the file named as the maker sees it."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One error or warning about the maker's files; gathered over a whole run, never raised.

    ``check`` names the check of a warning that a maker may accept, ``entry`` the file in which to accept it, if that
    is another; ``accepted`` is the maker's reason.
    """

    place: Place
    what: str
    why: str
    fix: str
    severity: Severity = Severity.ERROR
    check: str | None = None
    entry: str | None = None
    accepted: str | None = None

    @property
    def acceptance(self) -> str | None:
        """What to write to accept the warning; None where it cannot be accepted, or already is."""
        if self.check is None or self.accepted is not None:
            return None
        return f"accepted: {{{self.check}: ...}}{f' in {self.entry}' if self.entry else ''}"

    def __str__(self) -> str:
        return problems_as_text((self,))


class Stopped(Exception):
    """Work cannot go on because of an error in a file, such as a theme's; ``problem`` describes it."""

    def __init__(self, problem: Problem, told: str | None = None) -> None:
        super().__init__(told or str(problem))
        self.problem = problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A fault of a value without a place: its path names the field, and a reader knows where that is.

    A warning with a ``check`` may be accepted in its entry by that name; one without is a duty and stays.
    """

    path: Path
    what: str
    why: str
    fix: str
    severity: Severity = Severity.ERROR
    check: str | None = field(default=None, compare=False)

    def at(self, place: Place) -> Problem:
        """The same fault, placed."""
        return Problem(
            place=place,
            what=self.what,
            why=self.why,
            fix=self.fix,
            severity=self.severity,
            check=self.check,
        )


def warning(*, path: Path, what: str, why: str, fix: str, check: str | None = None) -> Fault:
    """A fault that does not stop the build; without a ``check`` it is a duty."""
    return Fault(path=path, what=what, why=why, fix=fix, severity=Severity.WARNING, check=check)


# A tuple, because every value of every file has one, and a frozen dataclass takes 2.5 times as long to create.
class Spot(NamedTuple):
    """Where one value and its key are in a file, counted from 1, and the spots of the values inside it."""

    line: int
    column: int
    key_line: int
    key_column: int
    below: Mapping[Step, "Spot"] = MappingProxyType({})


SHOWN_ALIKE: Final = 3
"""How many problems with the same reason and fix are shown with their places; `--json` lists every one."""

START: Final = Spot(1, 1, 1, 1)
"""The start of a file, for problems of the whole file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """The place of every value of every entry.

    A path begins with its file below the content folder: ``("candles/slate.yaml", "sizes", 0, "fill")``.
    ``shown_as`` is the content folder as the maker writes it. ``files`` gives each file's spots when a place in it
    is asked for, which is seldom. ``elsewhere`` names the file that holds a value
    instead of the entry: ``("fragrances/samphire.yaml", "composition")`` may be in a table.
    """

    shown_as: str
    files: Mapping[str, Callable[[], Spot]]
    elsewhere: Mapping[Path, str] = field(default_factory=dict)

    def of(self, path: Path) -> Place:
        """The place of a value, or of the nearest thing around it that is written."""
        file, spot = self._nearest(path)
        return Place(self.shown(file), spot.line, spot.column)

    def key(self, path: Path) -> Place:
        """The place of a value's key, or of the nearest key around it."""
        file, spot = self._nearest(path)
        return Place(self.shown(file), spot.key_line, spot.key_column)

    def shown(self, file: str) -> str:
        """A file's name as the maker sees it."""
        return f"{self.shown_as}/{file}"

    def _nearest(self, path: Path) -> tuple[str, Spot]:
        for length in range(len(path), 1, -1):
            if path[:length] in self.elsewhere:
                return self._nearest((self.elsewhere[path[:length]], *path[length:]))
        file = str(path[0])
        spot = self.files[file]() if file in self.files else START
        for step in path[1:]:
            below = spot.below.get(step)
            if below is None:
                break
            spot = below
        return file, spot


def is_error(problem: Problem | Fault) -> bool:
    """Whether it stops the build."""
    return problem.severity is Severity.ERROR


def is_open(problem: Problem) -> bool:
    """Whether it is still open: not accepted."""
    return problem.accepted is None


def alike(problems: Iterable[Problem]) -> tuple[tuple[Problem, ...], ...]:
    """Errors before warnings, grouped by the same reason and fix; else in the given order."""
    groups: dict[tuple[bool, str, str], list[Problem]] = {}
    for problem in problems:
        groups.setdefault((not is_error(problem), problem.why, problem.fix), []).append(problem)
    return tuple(tuple(group) for _, group in sorted(groups.items(), key=lambda item: item[0][0]))


def _plain(_kind: str, text: str) -> str:
    return text


def problems_as_text(group: Sequence[Problem], painted: Callable[[str, str], str] = _plain) -> str:
    """Problems alike as one message: place and fault of the first few, files of the rest, one reason, one advice.

    Places and severities are ``painted``, by what they are: ``strong``, ``error`` or ``warning``.
    """
    first, rest = group[:SHOWN_ALIKE], group[SHOWN_ALIKE:]
    lines = [
        f"{painted('strong', str(each.place))}: {painted(each.severity.value, each.severity.value)}: {each.what}"
        for each in first
    ]
    if rest:
        files = ", ".join(dict.fromkeys(each.place.file for each in rest))
        lines.append(f"and {len(rest)} more like these, in {files}")
    ways = dict.fromkeys(way for each in first if (way := each.acceptance))
    lines += [f"    why: {group[0].why}", f"    fix: {group[0].fix}"]
    return "\n".join([*lines, *(f"    or, if it is right as it is: {way}" for way in ways)])


def where_to_read_on(group: Sequence[Problem]) -> str:
    """The last line of a message: the page of the handbook on the file of the first; nothing without one."""
    page = page_of(group[0].place.file)
    return f"    more: wickwright handbook {page}\n" if page else ""


def in_reading_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Sorted by file, line and column, each distinct problem once."""
    return tuple(sorted(dict.fromkeys(problems), key=lambda p: (p.place, p.severity.value, p.what)))


def problem_counts(problems: Iterable[Problem]) -> str:
    """How many there are, e.g. ``2 errors, 1 warning``; what was accepted is counted by itself."""
    all_problems = tuple(problems)
    standing = tuple(filter(is_open, all_problems))
    errors = sum(is_error(p) for p in standing)
    accepted = len(all_problems) - len(standing)
    counts = {"error": errors, "warning": len(standing) - errors}
    told = ", ".join(_number(count, noun) for noun, count in counts.items() if count) or "no problems"
    return f"{told}, {accepted} accepted" if accepted else told


def as_data(problem: Problem) -> dict[str, str | int | None]:
    """A problem for other programs: file, line, column, severity, what, why, fix, check, entry, accepted, page.

    ``write`` says the same as ``fix`` until 0.3: it is what ``fix`` was called.
    """
    return {
        "file": problem.place.file,
        "line": problem.place.line,
        "column": problem.place.column,
        "severity": problem.severity.value,
        "what": problem.what,
        "why": problem.why,
        "fix": problem.fix,
        "write": problem.fix,
        "check": problem.check,
        "entry": problem.entry,
        "accepted": problem.accepted,
        "page": page_of(problem.place.file),
    }


def _number(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
