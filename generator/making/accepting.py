"""Every fault in its place, the warnings among them with the reasons for which they were accepted."""

from collections.abc import Iterable

from generator.problems import Fault, Path, Problem, is_error
from generator.reading.read_shop import Reading
from generator.rules.entries.acceptance import settled, unneeded


def placed(reading: Reading, faults: Iterable[Fault], *, today: bool) -> tuple[Problem, ...]:
    """What the readers and the rules have to say.

    What was accepted and is needed no more is told where the shop is sound and speaks for its own day: only then is
    every warning there.
    """
    places = reading.places
    told: list[tuple[Path, Problem]] = [
        ((problem.place.file.removeprefix(f"{places.shown_as}/"),), problem) for problem in reading.problems
    ]
    told += [(fault.path, fault.at(places.of(fault.path))) for fault in faults]
    problems = [settled(problem, path, reading.accepted, places) for path, problem in told]
    if today and not any(map(is_error, problems)):
        problems += [fault.at(places.key(fault.path)) for fault in unneeded(reading.accepted, told)]
    return tuple(problems)
