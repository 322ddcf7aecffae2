"""One upload in a process of its own, to be killed: ``python -m tests.publishing.upload CONTENT SITE DESK``."""

import sys
from pathlib import Path

from generator.commands.publish import How, deliver, say_published
from generator.making.destination import destination_of
from generator.making.options import COULD_NOT_FINISH, CommandOptions
from generator.making.release import Release, kept
from generator.model.publish_targets import Target
from generator.reading.gathering import Gathering
from generator.reading.publish_file import read_targets
from generator.writing.targets.peer import CouldNotPublish
from generator.writing.targets.releases import LocalRuns

AS_USUAL = How(dry_run=False, rollback=False, take_over=False)
WEB = "https://lamprow.example"


def upload(content: Path, site: Path, runs: Path, how: How = AS_USUAL) -> None:
    """Send all files of a folder to the only target."""
    send(content, kept(site), runs, how)


def send(content: Path, release: Release, runs: Path, how: How = AS_USUAL) -> None:
    """The same, once it is known what is in the files."""
    place = LocalRuns(runs)
    with place.alone():
        plan = deliver(destination_of(target_in(content), content), place, release, how, WEB)
    asked = CommandOptions(content=content, output=runs, as_of=None, as_data=False)
    say_published(asked, plan, (), None, dry_run=how.dry_run)


def target_in(content: Path) -> Target:
    """The only target of a publish.yaml."""
    (target,) = read_targets(Gathering(content, "content", None)).values()
    return target


def command_for(content: Path, site: Path, runs: Path) -> list[str]:
    """The words that start such a process."""
    return [sys.executable, "-m", "tests.publishing.upload", str(content), str(site), str(runs)]


if __name__ == "__main__":
    print("ready", flush=True)
    try:
        upload(Path(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]))
    except CouldNotPublish as stop:
        print(stop, file=sys.stderr)
        sys.exit(COULD_NOT_FINISH)
