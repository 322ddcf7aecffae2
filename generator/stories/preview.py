"""``preview``: the site in a browser while its entries are being written, faults on top of the last good pages."""

from generator.problems import Problem
from generator.stories.build import build
from generator.stories.shop import Asked
from generator.writing.preview import everything_below, serve


def run(asked: Asked, *, port: int, open_browser: bool) -> int:
    """Serve and rebuild until Ctrl-C."""

    def rebuild() -> tuple[Problem, ...]:
        return build(asked).problems

    watched = (everything_below(asked.content), everything_below(asked.content.resolve().parent / "themes"))
    serve(asked.output / "site", watched, rebuild, port, open_browser=open_browser)
    return 0
