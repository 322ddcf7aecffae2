"""``preview``: the site in a browser while its entries are being written, faults on top of the last good pages.

It shows today's sheets, marked as drafts, in a folder of its own, so that ``output/site`` holds issued sheets alone.
"""

from dataclasses import replace

from generator.arguments import CommandParser
from generator.commands.build import build
from generator.making.options import CommandOptions
from generator.problems import Problem
from generator.writing.preview_server import everything_below, serve

FOLDER = ".preview"


def add_arguments(words: CommandParser) -> None:
    """Where the site is shown."""
    words.add_argument("--port", metavar="N", type=int, default=8620, help="the first port to try")
    words.add_argument(
        "--no-browser", dest="open_browser", action="store_false", help="do not open a browser"
    )
    words.runs(run)


def run(options: CommandOptions, *, port: int, open_browser: bool) -> int:
    """Serve and rebuild until Ctrl-C."""
    drafted = replace(options, output=options.output / FOLDER, drafts=True)

    def rebuild() -> tuple[Problem, ...]:
        return build(drafted).problems

    watched = (
        everything_below(options.content),
        everything_below(options.content.resolve().parent / "themes"),
    )
    serve(drafted.output / "site", watched, rebuild, port, open_browser=open_browser)
    return 0
