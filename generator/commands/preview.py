"""``preview``: the site in a browser while its entries are being written, faults on top of the last good pages.

It shows today's sheets, marked as drafts, in a folder of its own, so that ``output/site`` holds issued sheets alone.
"""

from contextlib import closing, suppress
from dataclasses import replace
from pathlib import Path

from generator.arguments import CommandParser
from generator.commands.build import build
from generator.making.clock import local_day
from generator.making.one_writer import alone_in_output
from generator.making.options import CommandOptions
from generator.making.progress import one_piece_of_work
from generator.making.release import SITE
from generator.problems import Place, Problem
from generator.writing.output import Laid, NotOurs
from generator.writing.paths import AlikeButForCase, OutsideTheFolder
from generator.writing.preview_server import Rebuilt, serve
from generator.writing.store import Store

FOLDER = ".preview"


def add_arguments(words: CommandParser) -> None:
    """Where the site is shown."""
    words.add_argument(
        "--port", metavar="N", type=int, default=8620, help="the first port to try; 8620 if left out"
    )
    words.add_argument(
        "--no-browser", dest="open_browser", action="store_false", help="do not open a browser"
    )
    words.runs(run)


def run(options: CommandOptions, *, port: int, open_browser: bool) -> int:
    """Serve and rebuild until Ctrl-C."""
    drafted = replace(options, output=options.output / FOLDER, drafts=True)
    memory = Store(drafted.output / ".store", saves=True)

    def rebuild() -> Rebuilt:
        try:
            with one_piece_of_work():
                built = build(replace(drafted, today=local_day()), memory)
        except (NotOurs, AlikeButForCase, OutsideTheFolder, OSError) as fault:
            return Rebuilt(problems=(_in_the_way(drafted.output, fault),), site_changed=False)
        return Rebuilt(
            problems=built.problems, site_changed=built.laid is not None and _of_the_site(built.laid)
        )

    watched = (options.content, options.content.resolve().parent / "themes")
    with closing(memory):
        serve(drafted.output / "site", watched, rebuild, port, open_browser=open_browser)
        # What is only remembered fails nobody.
        with suppress(OSError), alone_in_output(drafted.output, "preview"):
            memory.save()
    return 0


def _in_the_way(output: Path, fault: Exception) -> Problem:
    """What keeps the site from being laid out."""
    return Problem(
        place=Place(output.as_posix(), 1, 1),
        what=str(fault),
        why="the site could not be written there, so you see the last one that was",
        fix="move what is in the way, then save any file again",
    )


def _of_the_site(laid: Laid) -> bool:
    """Whether any file that is shown was touched, and not the workshop's alone."""
    return any(path.startswith(SITE) for path in (*laid.written, *laid.changed, *laid.removed))
