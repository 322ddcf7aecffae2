"""``build``: what changed is rebuilt; where nothing has, what the last build reported is reported again."""

import gc
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import replace
from time import monotonic

from generator.arguments import CommandParser
from generator.making.last_build import inputs_of, last_built, note_down
from generator.making.one_writer import alone_in_output
from generator.making.options import CommandOptions
from generator.making.report import (
    Built,
    could_not_finish,
    publish_or,
    refuse,
    report_build,
    report_faults,
    report_problems,
    say_next,
)
from generator.problems import Stopped
from generator.writing.output import NotOurs
from generator.writing.paths import AlikeButForCase, OutsideTheFolder
from generator.writing.store import Store


def add_arguments(words: CommandParser) -> None:
    """Which sheets the site may show."""
    words.add_argument(
        "--drafts", action="store_true", help="include sheets that are not issued, marked as drafts"
    )
    words.add_argument("--issued-only", action="store_true", help="fail if any sheet has unissued changes")
    words.runs(run)


def run(options: CommandOptions) -> int:
    """Exit code 0 when everything was built, 1 when entries are at fault, 3 when another's file is in the way.

    On 1 and 3 OUTPUT is untouched.
    """
    built = made(options)
    if isinstance(built, int):
        return built
    if options.as_data:
        report_problems(built.problems, as_json=True, then="")
    elif built.laid is not None:
        report_build(options, built, built.laid)
        say_next(publish_or(options, "wickwright handbook publishing"))
    return 0


def made(options: CommandOptions) -> Built | int:
    """What was built, or the exit code once it was reported why nothing was."""
    try:
        built = build(options)
    except (NotOurs, AlikeButForCase, OutsideTheFolder) as taken:
        return refuse(could_not_finish(str(taken)), as_json=options.as_data)
    if built.laid is None:
        return report_faults(options, built.problems, "nothing was written")
    return built


def build(options: CommandOptions, memory: Store | None = None) -> Built:
    """The site and the papers as the entries want them; nobody else writes into OUTPUT from the first look on.

    With a ``memory`` that goes from one build to the next, what has not changed is not even read from the disk.
    """
    with alone_in_output(options.output, "build"), _no_circles_looked_for():
        return _built_once(options) if memory is None else _journey(options, memory)


@contextmanager
def _no_circles_looked_for() -> Iterator[None]:
    """Hardly anything is made in circles, and looking for them costs a tenth of a build's time (measured)."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def _built_once(options: CommandOptions) -> Built:
    started = monotonic()
    inputs = inputs_of(options)
    last = None if inputs is None else last_built(options, inputs)
    if last is not None:
        return replace(last, seconds=monotonic() - started)
    with closing(Store(options.output / ".store", saves=True)) as store:
        built = _journey(options, store)
        if built.laid is not None:
            # What is only remembered never fails a build that has come to its end.
            with suppress(OSError):
                store.save()
                note_down(options, inputs, built)
    return replace(built, seconds=monotonic() - started)


def _journey(options: CommandOptions, store: Store) -> Built:
    # Loading it takes longer than seeing that nothing has changed.
    from generator.making.journey import whole_journey  # noqa: PLC0415  (see above)

    try:
        return whole_journey(options, store)
    except Stopped as fault:
        return Built(problems=(fault.problem,), laid=None, seconds=0.0)
