"""``publish``: the site as it was issued, and only what changed of it, goes where people can see it."""

import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.model.publishing import FolderTarget, Stamp, Target
from generator.rules.publishing import Plan, alike_but_for_case, planned, withdrawn
from generator.stories import build
from generator.stories.asked import Asked
from generator.stories.progress import Progress
from generator.stories.release import Release, before, built
from generator.stories.shop import know
from generator.writing.folder import FolderPeer
from generator.writing.peer import CouldNotPublish, Peer
from generator.writing.releases import Desk, Lines, Work, lines_of
from generator.writing.sftp import Server, SftpPeer
from generator.writing.store import Store

WRONG_USE, COULD_NOT_FINISH = 2, 3


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """Whether only to tell, to put back the release before, to go on in spite of another's lock."""

    dry_run: bool
    rollback: bool
    take_over: bool


def run(asked: Asked, name: str | None, how: How) -> int:
    """Exit code 0 when the target is as it should be, 3 when something stood in the way."""
    if not how.rollback and (code := build.run(asked)):
        return code
    shop = know(asked, Store(asked.output / ".store")).shop
    targets = {} if shop is None else shop.targets
    if name is None and len(targets) == 1:
        name = next(iter(targets))
    if shop is None or name is None or name not in targets:
        told = f"'{name}' is not a target" if name else "no target is named"
        wanting = ", or ".join(targets) or "one in publish.yaml; the README shows how"
        print(f"wickwright: {told}; write {wanting}", file=sys.stderr)
        return WRONG_USE
    try:
        desk = Desk(asked.output / ".published" / name)
        with desk.alone():
            release = before(desk) if how.rollback else built(asked.output)
            deliver(peer_of(targets[name], asked.content), desk, release, how, shop.maker.web or "")
    except CouldNotPublish as stop:
        print(f"wickwright: could not publish to {name}: {stop}", file=sys.stderr)
        return COULD_NOT_FINISH
    return 0


def deliver(peer: Peer, desk: Desk, release: Release, how: How, web: str) -> None:
    """Bring a target up to date with a release of the site at ``web``, and tell what that took."""
    found = peer.look()
    listed = lines_of(found, web)
    there = {path: Stamp(sha256=digest, size=size) for path, (digest, size) in listed.items()}
    plan = planned(release.stamps, there)
    _refuse_to_withdraw(release, there)
    if how.dry_run:
        print(
            "\n".join(
                [*(f"send: {path}" for path in plan.send), *(f"remove: {path}" for path in plan.remove)]
            )
        )
    elif not plan.is_empty or found.owner is not None:
        work = Work(
            web=web,
            there=listed,
            wanted=_lines(release.stamps),
            send=plan.send,
            remove=_removable(peer, release, plan),
            files=release.places,
        )
        progress = Progress(f"of {len(plan.send)} files sent")
        peer.carry_out(desk.steps(found, work, take_over=how.take_over), progress.step)
        progress.end()
        desk.tidy()
        desk.keep(work.files)
    told = f"{len(plan.send)} sent, {len(plan.remove)} removed, {plan.same} as before"
    print(f"{told}; this is what would be done" if how.dry_run else told)


def _refuse_to_withdraw(release: Release, there: Mapping[str, Stamp]) -> None:
    lost = withdrawn(release.stamps, there)
    if lost:
        raise CouldNotPublish(
            f"{lost[0]} is an issued sheet that labels of sold candles lead to, and this site lacks it; "
            "nothing was sent. Bring back its file in content/sheets/"
        )


def _removable(peer: Peer, release: Release, plan: Plan) -> tuple[str, ...]:
    """What is to be removed, without what is a wanted file under another spelling there."""
    alike = frozenset(alike_but_for_case(release.stamps, plan.remove))
    kept = alike if alike and not peer.tells_case() else frozenset()
    return tuple(path for path in plan.remove if path not in kept)


def _lines(stamps: Mapping[str, Stamp]) -> Lines:
    return {path: (stamp.sha256, stamp.size) for path, stamp in stamps.items()}


def peer_of(target: Target, content: Path) -> Peer:
    """The place that a target means; its paths on this computer are told from the content folder."""
    if isinstance(target, FolderTarget):
        return FolderPeer(content / Path(target.folder).expanduser())
    return SftpPeer(
        Server(
            host=target.host,
            port=target.port,
            user=target.user,
            folder=target.folder,
            key=content / Path(target.key).expanduser(),
            host_key=target.host_key,
        )
    )
