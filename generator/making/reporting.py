"""What a build or its publishing came to, and how it is told."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.making.options import CommandOptions
from generator.making.report import say, tell, tell_laid
from generator.problems import Problem, as_data
from generator.writing.output import Laid

if TYPE_CHECKING:
    from generator.rules.entries.publish_plan import Plan

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


def report(asked: CommandOptions, built: Built, laid: Laid) -> None:
    """Every file that was written, every sheet that has changed, every problem, and the count of it all."""
    tell_laid(laid, built.seconds, passed_over=LOG)
    for line in built.changes:
        print(line)
    tell(built.problems, as_json=False, then=f"open {(asked.output / 'site' / 'index.html').as_posix()}")


def say_published(asked: CommandOptions, plan: "Plan", warnings: Iterable[Problem], *, dry_run: bool) -> None:
    """What was sent and removed, or would be, and what the build before it had to say."""
    lines = [f"{len(plan.send)} sent, {len(plan.remove)} removed, {plan.same} as before"]
    if dry_run:
        named = (*(f"send: {path}" for path in plan.send), *(f"remove: {path}" for path in plan.remove))
        lines = [*named, f"{lines[0]}; this is what would be done"]
    data = {
        "problems": [as_data(problem) for problem in warnings],
        "dry_run": dry_run,
        "sent": plan.send,
        "removed": plan.remove,
        "same": plan.same,
    }
    say(lines, data, as_json=asked.as_data)
