"""``publish``: the site as it was issued, and only what changed of it, goes where people can see it."""

from contextlib import ExitStack
from dataclasses import dataclass
from typing import Final

from generator.commands import build
from generator.making import report as telling
from generator.making.destination import Destination, destination_of
from generator.making.exit_codes import AT_FAULT, COULD_NOT_FINISH
from generator.making.one_writer import alone_in_output
from generator.making.options import CommandOptions
from generator.making.progress import Progress
from generator.making.release import Release, before, built, refuse, set_aside, stamps_of
from generator.making.reporting import report, say_published
from generator.reading.entries import read_maker
from generator.reading.gathering import Gathering
from generator.reading.publish_file import read_targets
from generator.rules.entries.publish_plan import Plan, alike_but_for_case, in_turns, planned, revoked
from generator.writing.targets.peer import CouldNotPublish, Peer
from generator.writing.targets.releases import LocalRuns, Work
from generator.writing.targets.target_state import UNSURE, Lines, TargetState

NOTHING: Final = "nothing was sent"


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """Whether only to tell, to put back the release before, to go on in spite of another's lock."""

    dry_run: bool
    rollback: bool
    take_over: bool


def run(asked: CommandOptions, name: str | None, how: How) -> int:
    """Exit code 0 when the target is as it should be, 1 when entries are at fault, 3 when something was in the way."""
    with ExitStack() as building:
        building.enter_context(alone_in_output(asked.output, "publish"))
        return _run(asked, name, how, building)


def _run(asked: CommandOptions, name: str | None, how: How, building: ExitStack) -> int:
    """The same; ``building`` ends, and others may write into OUTPUT again, once the release is kept apart from it."""
    made = None if how.rollback else build.made(asked)
    if isinstance(made, int):
        return made
    warnings = () if made is None else made.problems
    if made is not None and made.laid is not None and not asked.as_data:
        report(asked, made, made.laid)
    # Only these two files matter here; a whole shop takes longer to read than a site that has not changed to publish.
    gathering = Gathering(asked.content, asked.content.as_posix(), None)
    maker, targets = read_maker(gathering), read_targets(gathering)
    if maker is None or gathering.problems:
        telling.tell(gathering.problems, as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    if name is None and len(targets) == 1:
        name = next(iter(targets))
    if name is None or name not in targets:
        what = f"'{name}' is not a target" if name else "no target is named"
        write = f"write {', or '.join(targets) or 'one in publish.yaml; the README shows how'}"
        refusal = telling.Refusal(what=what, then=NOTHING, write=write)
        return telling.refuse(refusal, as_json=asked.as_data, beside=warnings)
    try:
        runs = LocalRuns(asked.output / ".published" / name)
        with runs.alone():
            release = before(runs) if how.rollback else set_aside(built(asked.output), runs)
            building.close()
            plan = deliver(destination_of(targets[name], asked.content), runs, release, how, maker.web or "")
    except CouldNotPublish as stop:
        refusal = telling.Refusal(what=f"could not publish to {name}: {stop}", exit_code=COULD_NOT_FINISH)
        return telling.refuse(refusal, as_json=asked.as_data, beside=warnings)
    say_published(asked, plan, warnings, dry_run=how.dry_run)
    return 0


def deliver(destination: Destination, runs: LocalRuns, release: Release, how: How, web: str) -> Plan:
    """Bring a target up to date with a release of the site at ``web``; what that took, or would take."""
    state = destination.state(web)
    refuse(release, state.seen.lines, web)
    plan = planned(release.stamps, stamps_of(_standing(state, release)))
    if how.dry_run:
        return plan
    work = _work(destination.peer, state, release, plan, web)
    if state.seen.lines != release.lines:
        progress = Progress("files sent", len(plan.send))
        destination.peer.carry_out(runs.steps(state, work, take_over=how.take_over), progress.step)
        progress.end()
    elif state.owner is not None or work.forget:
        destination.peer.carry_out(runs.last_steps(state, work, take_over=how.take_over), lambda: None)
    runs.tidy()
    runs.keep(release.places, release.lines)
    return plan


def _standing(state: TargetState, release: Release) -> Lines:
    """What the release is compared with: the side where it is laid, unless people see it already."""
    return state.seen.lines if state.seen.lines == release.lines else state.laid.lines


def _work(peer: Peer, state: TargetState, release: Release, plan: Plan, web: str) -> Work:
    return Work(
        web=web,
        wanted=release.lines,
        send=in_turns(plan.send),
        remove=tuple(reversed(in_turns(_removable(peer, release, plan)))),
        forget=_forgotten(release, state),
        files=release.places,
    )


def _forgotten(release: Release, state: TargetState) -> tuple[str, ...]:
    """Revoked sheets in the folder that is not seen, or will not be, and that are not known to be gone."""
    hidden = state.laid if state.seen.lines == release.lines else state.seen
    return tuple(path for path in revoked(release.stamps, hidden.lines) if hidden.lines[path] != UNSURE)


def _removable(peer: Peer, release: Release, plan: Plan) -> tuple[str, ...]:
    """What is to be removed, without what is a wanted file under another spelling there."""
    alike = frozenset(alike_but_for_case(release.stamps, plan.remove))
    kept = alike if alike and not peer.tells_case() else frozenset()
    return tuple(path for path in plan.remove if path not in kept)
