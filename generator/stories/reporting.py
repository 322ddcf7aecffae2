"""What a build came to, and how it is told on a screen."""

from dataclasses import dataclass

from generator.problems import Problem
from generator.stories.asked import Asked
from generator.stories.telling import tell, tell_laid
from generator.writing.output import Laid

LOG = "workshop/build.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build came to: every problem, what was laid out if nothing stood in the way, and how long it took.

    ``changes`` tell of sheets that are no longer what was issued, and of links that nobody has asked for.
    """

    problems: tuple[Problem, ...]
    laid: Laid | None
    seconds: float
    changes: tuple[str, ...] = ()


def report(asked: Asked, built: Built, laid: Laid) -> None:
    """Every file that was written, every sheet that has changed, every problem, and the count of it all."""
    tell_laid(laid, built.seconds, passed_over=LOG)
    for line in built.changes:
        print(line)
    tell(built.problems, as_json=False, then=f"open {(asked.output / 'site' / 'index.html').as_posix()}")
