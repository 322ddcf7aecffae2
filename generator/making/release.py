"""The files to be at a target: those of the site as built, or those of the previous release."""

from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path

from generator.making.progress import each_call_counted, each_counted
from generator.model.publish_targets import FileDigest
from generator.rules.entries.publish_plan import carried_back, recalls_unsaid, sealed_sheets, withdrawn
from generator.writing.link_targets import dead_links, missing_files
from generator.writing.manifest import read_manifest
from generator.writing.paths import can_be_laid
from generator.writing.targets.peer import CouldNotPublish, target_text
from generator.writing.targets.releases import LocalRuns
from generator.writing.targets.target_state import Lines

SITE = "site/"


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """The stamp of each file by its path, and the file on this computer that holds it."""

    stamps: dict[str, FileDigest]
    places: dict[str, Path]

    @property
    def lines(self) -> Lines:
        """The same in the form of a target's list."""
        return {path: (stamp.sha256, stamp.size) for path, stamp in self.stamps.items()}


def built(output: Path) -> Release:
    """The site's files in the manifest, each checked: nothing else on this computer is ever sent."""
    listed = {path: line for path, line in read_manifest(output).items() if path.startswith(SITE)}
    for path, line in each_counted("files looked at", listed.items(), len(listed)):
        data = (output / path).read_bytes()
        if (sha256(data).hexdigest(), len(data)) != (line.sha256, line.size):
            raise CouldNotPublish(f"{path} has changed since the site was built; build again")
    site = {
        path.removeprefix(SITE): FileDigest(sha256=line.sha256, size=line.size)
        for path, line in listed.items()
    }
    places = {path: output / SITE / path for path in site}
    pages = sum(path.endswith(".html") for path in site)
    followed = each_call_counted("pages followed", pages, lambda path: places[path].read_bytes())
    dead = dead_links(site, followed)
    if dead:
        raise CouldNotPublish(f"{dead[0][0]} links to {dead[0][1]}, which does not exist; nothing was sent")
    return Release(stamps=site, places=places)


def stamps_of(lines: Lines) -> dict[str, FileDigest]:
    """The lines of a list as stamps."""
    return {path: FileDigest(sha256=digest, size=size) for path, (digest, size) in lines.items()}


def release_set_aside(release: Release, runs: LocalRuns) -> Release:
    """The same release in files that no later build changes, however long sending takes."""
    return replace(release, places=dict(runs.set_aside(release.places, release.lines)))


def require_sendable(release: Release, seen: Lines, web: str) -> None:
    """Raise where a path could lead elsewhere, a sealed sheet could not open, or an issued sheet would be lost."""
    odd = next((path for path in release.stamps if not can_be_laid(path)), None)
    if odd is not None:
        raise CouldNotPublish(
            f"{target_text(repr(odd))} cannot be the path of a file of the site; nothing "
            "was sent. It was changed on this computer after the build: build again"
        )
    if sealed_sheets(release.stamps) and not web.startswith("https://"):
        raise CouldNotPublish(
            f"sealed price sheets open only over https, and web in maker.yaml is {web or 'not written'}; "
            "nothing was sent. Ask your host for https, and write that address"
        )
    lost = withdrawn(release.stamps, seen)
    if lost:
        raise CouldNotPublish(
            f"{lost[0]} is an issued sheet that labels of sold candles point to, and "
            "this site lacks it; nothing was sent. Restore its file in content/sheets/"
        )


def before(runs: LocalRuns) -> Release:
    """The previous release, with what has to outlast it, and the pages that this leads to."""
    old, now = kept(runs.before), kept(runs.now)
    if not old.places:
        raise CouldNotPublish("this computer has kept no release before the one that is live")
    unsaid = recalls_unsaid(old.stamps, now.stamps)
    if unsaid:
        raise CouldNotPublish(
            f"the previous release does not include {unsaid[0]}, and a recall must stay "
            "published; nothing was sent. Change the entries, then publish"
        )
    stamps = dict(carried_back(old.stamps, now.stamps))
    places = {**now.places, **old.places}
    while more := missing_files(stamps, lambda path: places[path].read_bytes()) & now.stamps.keys():
        stamps |= {path: now.stamps[path] for path in more}
    return Release(stamps=stamps, places={path: _place(path, stamps, old, now) for path in stamps})


def _place(path: str, stamps: dict[str, FileDigest], old: Release, now: Release) -> Path:
    return old.places[path] if old.stamps.get(path) == stamps[path] else now.places[path]


def kept(folder: Path) -> Release:
    """All files of a folder."""
    places = {path.relative_to(folder).as_posix(): path for path in folder.rglob("*") if path.is_file()}
    read = {path: place.read_bytes() for path, place in places.items()}
    stamps = {
        path: FileDigest(sha256=sha256(data).hexdigest(), size=len(data)) for path, data in read.items()
    }
    return Release(stamps=stamps, places=places)
