"""``build``: what changed is made anew; where nothing has, what the last build told is told again."""

from dataclasses import replace
from time import monotonic

from generator.making.exit_codes import AT_FAULT
from generator.making.last_build import inputs_of, last_built, note_down
from generator.making.one_writer import alone_in_output
from generator.making.options import CommandOptions
from generator.making.report import could_not_finish, refuse, tell
from generator.making.reporting import Built, report
from generator.problems import Stopped
from generator.writing.output import NotOurs
from generator.writing.paths import AlikeButForCase, OutsideTheFolder


def run(asked: CommandOptions) -> int:
    """Exit code 0 when everything was built, 1 when entries are at fault, 3 when another's file is in the way.

    Then OUTPUT is untouched.
    """
    built = made(asked)
    if isinstance(built, int):
        return built
    if asked.as_data:
        tell(built.problems, as_json=True, then="")
    elif built.laid is not None:
        report(asked, built, built.laid)
    return 0


def made(asked: CommandOptions) -> Built | int:
    """What was built, or the exit code once it was told why nothing was."""
    try:
        built = build(asked)
    except (NotOurs, AlikeButForCase, OutsideTheFolder) as taken:
        return refuse(could_not_finish(str(taken)), as_json=asked.as_data)
    if built.laid is None:
        tell(built.problems, as_json=asked.as_data, then="nothing was written")
        return AT_FAULT
    return built


def build(asked: CommandOptions) -> Built:
    """The site and the papers as today's entries want them; nobody else writes into OUTPUT from the first look on."""
    with alone_in_output(asked.output, "build"):
        return _built(asked)


def _built(asked: CommandOptions) -> Built:
    started = monotonic()
    inputs = inputs_of(asked)
    last = None if inputs is None else last_built(asked, inputs)
    if last is not None:
        return replace(last, seconds=monotonic() - started)
    # Loading it takes longer than seeing that nothing has changed.
    from generator.making.journey import whole_journey  # noqa: PLC0415  (see above)

    try:
        built = whole_journey(asked)
    except Stopped as fault:
        return Built(problems=(fault.problem,), laid=None, seconds=monotonic() - started)
    note_down(asked, inputs, built)
    return built
