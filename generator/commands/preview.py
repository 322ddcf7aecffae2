"""``preview``: the site in a browser while its entries are being written, faults on top of the last good pages.

It shows today's sheets, marked as drafts, in a folder of its own, so that ``output/site`` holds issued sheets alone.
"""

from dataclasses import replace

from generator.commands.build import build
from generator.making.options import CommandOptions
from generator.problems import Problem
from generator.writing.preview_server import everything_below, serve

FOLDER = ".preview"


def run(asked: CommandOptions, *, port: int, open_browser: bool) -> int:
    """Serve and rebuild until Ctrl-C."""
    drafted = replace(asked, output=asked.output / FOLDER, drafts=True)

    def rebuild() -> tuple[Problem, ...]:
        return build(drafted).problems

    watched = (everything_below(asked.content), everything_below(asked.content.resolve().parent / "themes"))
    serve(drafted.output / "site", watched, rebuild, port, open_browser=open_browser)
    return 0
