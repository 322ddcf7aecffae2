"""Which warnings a maker has accepted, and which acceptances match no warning."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from difflib import get_close_matches
from typing import Final

from generator.model.accepted import ACCEPTED, Accepted
from generator.problems import Fault, Path, Places, Problem, is_error, warning

_MAKER: Final = "maker.yaml"
_TESTS: Final = "burn-tests/"


def entry_of(file: str) -> str:
    """The entry in which a file's warning is accepted: itself, or the one beside a burn test's table, or the maker.

    Other tables and pages have no keys.
    """
    if file.endswith(".yaml"):
        return file
    return f"{file.removesuffix('.csv')}.yaml" if file.startswith(_TESTS) else _MAKER


def accepting(path: Path, check: str, accepted: Iterable[Accepted]) -> Accepted | None:
    """The acceptance of a warning at a path, in the entry or the size that the path leads into."""
    return next((one for one in accepted if one.check == check and _is_within(path, one)), None)


def settled(problem: Problem, path: Path, accepted: Collection[Accepted], places: Places) -> Problem:
    """A warning with the reason for its acceptance, or with the place to accept it; an error stays unchanged."""
    if problem.check is None or is_error(problem):
        return replace(problem, check=None)
    found = accepting(path, problem.check, accepted)
    if found is not None:
        return replace(problem, accepted=found.why)
    entry = places.shown(entry_of(str(path[0])))
    return problem if entry == problem.place.file else replace(problem, entry=entry)


def unneeded(accepted: Iterable[Accepted], warned: Collection[tuple[Path, Problem]]) -> Iterator[Fault]:
    """Acceptances without a warning; ``warned`` are all warnings with their paths."""
    for one in accepted:
        checks = [problem.check for path, problem in warned if problem.check and _is_within(path, one)]
        if one.check in checks:
            continue
        near = get_close_matches(one.check, [check for check in checks if check], n=1)
        yield warning(
            path=one.path,
            what=f"{ACCEPTED} names '{one.check}', but there is no such warning here",
            why="the next warning of that name would be accepted unseen",
            fix=f"{near[0]}: {one.why}" if near else "delete this line",
        )


def _is_within(path: Path, one: Accepted) -> bool:
    return one.at in ((entry_of(str(path[0])),), path[: len(one.at)])
