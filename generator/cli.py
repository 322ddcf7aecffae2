"""Words on the command line to one story; what the story returns is the exit code."""

import argparse
import sys
import traceback
from collections.abc import Callable
from datetime import date
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from generator.stories.shop import Asked

WRONG_USE: Final = 2
COULD_NOT_FINISH: Final = 3
COMMANDS: Final = ("start", "check", "build", "preview", "explain")


def main(words: list[str] | None = None) -> int:
    """Run one command; the only place where a fault of the program becomes words."""
    _speak_utf8()
    words = sys.argv[1:] if words is None else words
    if words and not words[0].startswith("-") and words[0] not in COMMANDS:
        near = get_close_matches(words[0], COMMANDS, n=1) or COMMANDS
        print(
            f"wickwright: '{words[0]}' is not a command; write: wickwright {', or '.join(near)}",
            file=sys.stderr,
        )
        return WRONG_USE
    asked = _parser().parse_args(words)
    run: Callable[[argparse.Namespace], int] = asked.run
    try:
        return run(asked)
    except OSError as fault:
        named = f" ({fault.filename})" if fault.filename else ""
        print(f"wickwright: could not finish: {fault.strerror or fault}{named}", file=sys.stderr)
    except KeyboardInterrupt:
        print("wickwright: stopped; every file that was written is whole", file=sys.stderr)
    except Exception:  # noqa: BLE001  # the one boundary: whatever arrives here is the program's own fault
        traceback.print_exc()
        print("wickwright: this is a fault of the program, not of your entries", file=sys.stderr)
    return COULD_NOT_FINISH


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="wickwright",
        description="Candle catalogue, burn-safety pages and trade sheets from recorded formulas.",
    )
    commands = parser.add_subparsers(metavar="COMMAND", required=True)

    start = _command(commands, "start", _start, "make a small shop to edit in a new folder")
    start.add_argument("folder", metavar="DIR", type=Path, help="the new shop's folder")

    for name, run, purpose in (
        ("check", _check, "read every entry and tell every fault; writes only the schemas for your editor"),
        ("build", _build, "make the site and the workshop's papers"),
        ("preview", _preview, "show the site in a browser and make it anew whenever an entry is saved"),
        ("explain", _explain, "print every figure of one stock code with its inputs, formula and source"),
    ):
        command = _command(commands, name, run, purpose)
        if name == "explain":
            command.add_argument("stock_code", metavar="STOCK_CODE")
        _shop_options(command)
        if name == "preview":
            command.add_argument("--port", metavar="N", type=int, default=8620, help="the first port to try")
            command.add_argument("--no-browser", action="store_true", help="do not open a browser")
    return parser


def _command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    run: Callable[[argparse.Namespace], int],
    purpose: str,
) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=purpose, description=f"{purpose[0].upper()}{purpose[1:]}.")
    command.set_defaults(run=run)
    return command


def _shop_options(command: argparse.ArgumentParser) -> None:
    command.add_argument("--content", metavar="DIR", type=Path, default=Path("content"), help="the entries")
    command.add_argument(
        "--output", metavar="DIR", type=Path, default=Path("output"), help="what is made of them"
    )
    command.add_argument(
        "--date", metavar="YYYY-MM-DD", type=_day, help="speak for this day instead of as_of"
    )
    command.add_argument("--json", action="store_true", help="print faults as data for other programs")


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as fault:
        raise argparse.ArgumentTypeError(f"'{text}' is not a date such as 2026-11-01") from fault


def _start(asked: argparse.Namespace) -> int:
    from generator.stories import start

    return start.run(asked.folder)


def _check(asked: argparse.Namespace) -> int:
    from generator.stories import check

    return check.run(_shop(asked))


def _build(asked: argparse.Namespace) -> int:
    from generator.stories import build

    return build.run(_shop(asked))


def _preview(asked: argparse.Namespace) -> int:
    from generator.stories import preview

    return preview.run(_shop(asked), port=asked.port, open_browser=not asked.no_browser)


def _explain(asked: argparse.Namespace) -> int:
    from generator.stories import explain

    return explain.run(_shop(asked), asked.stock_code)


def _shop(asked: argparse.Namespace) -> "Asked":
    from generator.stories.shop import Asked

    return Asked(content=asked.content, output=asked.output, as_of=asked.date, as_data=asked.json)


def _speak_utf8() -> None:
    """Entries may hold any letter; a console that cannot show one gets a replacement, never a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
