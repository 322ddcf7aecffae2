"""What a build came to, and how it is told on a screen."""

from dataclasses import dataclass

from generator.problems import Problem, counted
from generator.stories.shop import Asked
from generator.writing.output import Laid

LOG = "workshop/build.json"
SHOWN = 12
"""How many changed files are named; the rest is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build came to: every problem, what was laid out if nothing stood in the way, and how long it took.

    ``changes`` tell of sheets that are no longer what was issued, ``refused`` of those that only issued ones allow for.
    """

    problems: tuple[Problem, ...]
    laid: Laid | None
    seconds: float
    changes: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()


def report(asked: Asked, built: Built, laid: Laid) -> None:
    """Every problem, every sheet that has changed, every file that was written, and the count of it all."""
    for problem in built.problems:
        print(f"{problem}\n")
    for line in built.changes:
        print(line)
    named = [("new", path) for path in laid.written]
    named += [("changed", path) for path in laid.changed if path != LOG]
    named += [("removed", path) for path in laid.removed]
    if laid.same:
        for what, path in named[:SHOWN]:
            print(f"{what}: {path}")
        if len(named) > SHOWN:
            print(f"... and {len(named) - SHOWN} more")
    print(
        f"{len(laid.written)} new, {len(laid.changed)} changed, {len(laid.removed)} removed, "
        f"{len(laid.same)} as before, in {built.seconds:.1f} s"
    )
    print(f"{counted(built.problems)}; open {(asked.output / 'site' / 'index.html').as_posix()}")
