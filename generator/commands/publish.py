"""``publish``: the site as it was issued, and only what changed of it, goes where people can see it."""

from collections.abc import Iterable
from contextlib import ExitStack
from dataclasses import dataclass
from typing import Final

from generator.arguments import CommandParser
from generator.commands import build
from generator.making.destination import Destination, destination_of
from generator.making.one_writer import alone_in_output
from generator.making.options import COULD_NOT_FINISH, CommandOptions
from generator.making.progress import Progress
from generator.making.release import Release, before, built, release_set_aside, require_sendable, stamps_of
from generator.making.report import Refusal, refuse, report_build, report_faults, say
from generator.problems import Problem, as_data
from generator.reading.entries import read_maker
from generator.reading.gathering import Gathering
from generator.reading.publish_file import read_targets
from generator.rules.entries.publish_plan import PublishPlan, alike_but_for_case, in_turns, planned, revoked
from generator.writing.policy import policy_of_site
from generator.writing.targets.http_headers import headers_to_set
from generator.writing.targets.peer import CouldNotPublish, Peer
from generator.writing.targets.releases import LocalRuns, Work
from generator.writing.targets.target_state import UNSURE, Lines, TargetState

_NOTHING: Final = "nothing was sent"


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """Whether only to list what is due, to restore the release before, to go on in spite of another's lock."""

    dry_run: bool
    rollback: bool
    take_over: bool


def add_arguments(words: CommandParser) -> None:
    """Where to, and how."""
    words.add_argument(
        "target", metavar="TARGET", nargs="?", help="a name in publish.yaml; not needed if there is only one"
    )
    words.add_argument("--dry-run", action="store_true", help="only list what would be sent and removed")
    words.add_argument(
        "--rollback", action="store_true", help="restore the previous release, without building"
    )
    words.add_argument(
        "--headers", action="store_true", help="only print the HTTP headers your host should send"
    )
    words.add_argument(
        "--take-over", action="store_true", help="take over from another computer whose run was cut off"
    )
    words.runs(_publish)


def _publish(options: CommandOptions, target: str | None, *, headers: bool, **how: bool) -> int:
    return run_headers(options) if headers else run(options, target, How(**how))


def run_headers(options: CommandOptions) -> int:
    """Print what a host should say of the site's files; exit code 0, or 3 when there is no site to look at."""
    try:
        release = built(options.output)
    except CouldNotPublish as stop:
        return refuse(Refusal(what=str(stop), exit_code=COULD_NOT_FINISH), as_json=options.as_data)
    pages = (place.read_bytes() for path, place in release.places.items() if path.endswith(".html"))
    headers = headers_to_set(policy_of_site(pages))
    data = [{"path": f"/{start}*", "header": header, "value": value} for start, header, value in headers]
    say((f"{one['path']}  {one['header']}: {one['value']}" for one in data), data, as_json=options.as_data)
    return 0


def run(options: CommandOptions, name: str | None, how: How) -> int:
    """Exit code 0 when the target is as it should be, 1 when entries are at fault, 3 when something was in the way."""
    with ExitStack() as building:
        building.enter_context(alone_in_output(options.output, "publish"))
        return _run(options, name, how, building)


def _run(options: CommandOptions, name: str | None, how: How, building: ExitStack) -> int:
    """The same; ``building`` ends, and others may write into OUTPUT again, once the release is kept apart from it."""
    made = None if how.rollback else build.made(options)
    if isinstance(made, int):
        return made
    warnings = () if made is None else made.problems
    if made is not None and made.laid is not None and not options.as_data:
        report_build(options, made, made.laid)
    # Only these two files matter here; a whole shop takes longer to read than a site that has not changed to publish.
    gathering = Gathering(options.content, options.content.as_posix(), None)
    maker, targets = read_maker(gathering), read_targets(gathering)
    if maker is None or gathering.problems:
        return report_faults(options, gathering.problems, _NOTHING)
    if name is None and len(targets) == 1:
        name = next(iter(targets))
    if name is None or name not in targets:
        what = f"'{name}' is not a target" if name else "no target was named"
        fix = (
            f"write one of: {', '.join(targets)}"
            if targets
            else "add one to publish.yaml, as wickwright handbook publishing shows"
        )
        refusal = Refusal(what=what, then=_NOTHING, fix=fix)
        return refuse(refusal, as_json=options.as_data, beside=warnings)
    try:
        runs = LocalRuns(options.output / ".published" / name)
        with runs.alone():
            release = before(runs) if how.rollback else release_set_aside(built(options.output), runs)
            building.close()
            plan = deliver(
                destination_of(targets[name], options.content), runs, release, how, maker.web or ""
            )
    except CouldNotPublish as stop:
        refusal = Refusal(what=f"could not publish to {name}: {stop}", exit_code=COULD_NOT_FINISH)
        return refuse(refusal, as_json=options.as_data, beside=warnings)
    say_published(options, plan, warnings, maker.web, dry_run=how.dry_run)
    return 0


def say_published(
    options: CommandOptions, plan: PublishPlan, warnings: Iterable[Problem], web: str | None, *, dry_run: bool
) -> None:
    """What was sent to ``web`` and removed there, or would be, and what the build before it had to say."""
    lines = [f"{len(plan.send)} sent, {len(plan.remove)} removed, {plan.same} unchanged"]
    if dry_run:
        named = (*(f"send: {path}" for path in plan.send), *(f"remove: {path}" for path in plan.remove))
        lines = [*named, f"{lines[0]} (nothing was done yet)"]
    data = {
        "problems": [as_data(problem) for problem in warnings],
        "dry_run": dry_run,
        "sent": plan.send,
        "removed": plan.remove,
        "same": plan.same,
    }
    next_step = "wickwright publish" if dry_run else f"open {web}" if web else None
    say(lines, data, as_json=options.as_data, next_step=next_step)


def deliver(destination: Destination, runs: LocalRuns, release: Release, how: How, web: str) -> PublishPlan:
    """Bring a target up to date with a release of the site at ``web``; what that took, or would take."""
    state = destination.state(web)
    require_sendable(release, state.seen.lines, web)
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


def _work(peer: Peer, state: TargetState, release: Release, plan: PublishPlan, web: str) -> Work:
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


def _removable(peer: Peer, release: Release, plan: PublishPlan) -> tuple[str, ...]:
    """What is to be removed, without what is a wanted file under another spelling there."""
    alike = frozenset(alike_but_for_case(release.stamps, plan.remove))
    kept = alike if alike and not peer.tells_case() else frozenset()
    return tuple(path for path in plan.remove if path not in kept)
