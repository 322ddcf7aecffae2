"""How the command line is read: commands and their words, days, counts, and what is said of wrong use."""

import argparse
import sys
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from importlib.metadata import version
from pathlib import Path
from typing import Any, Final, NamedTuple, NoReturn, TypeAlias


class CommandHelp(NamedTuple):
    """What is said of a command: what it is for, one way to call it in the example shop, a page of the handbook."""

    purpose: str
    example: str
    page: str


MOST_MADE: Final = 9999
_FIRST_YEAR: Final = 1900
"""As a count and a day in an entry."""


def day_argument(text: str) -> date:
    """A day as ISO 8601 writes it."""
    try:
        written = date.fromisoformat(text)
    except ValueError as fault:
        raise argparse.ArgumentTypeError(f"'{text}' is not a date such as 2026-11-01") from fault
    if written.year < _FIRST_YEAR:
        raise argparse.ArgumentTypeError(f"'{text}' is before {_FIRST_YEAR}")
    return written


def count_argument(text: str) -> int:
    """How many, from 1 to ``MOST_MADE``."""
    if not text.isdecimal() or not 1 <= int(text) <= MOST_MADE:
        raise argparse.ArgumentTypeError(f"'{text}' is not a number from 1 to {MOST_MADE}")
    return int(text)


def code_with_count(text: str) -> tuple[str, int]:
    """``SS-30=24``: a stock code and how many."""
    code, equals, number = text.rpartition("=")
    if not equals or not code:
        raise argparse.ArgumentTypeError(f"'{text}' is not a stock code with a number, such as SS-30=24")
    return code, count_argument(number)


def one_of(text: str) -> tuple[str, int]:
    """``SS-30``: a stock code, once."""
    return text, 1


def id_with_lot(text: str) -> tuple[str, str]:
    """``samphire=B4711``: an id and its supplier's lot."""
    id_, _, number = (part.strip() for part in text.partition("="))
    if not id_ or not number:
        raise argparse.ArgumentTypeError(
            f"'{text}' is not an id with a supplier's lot, such as samphire=B4711"
        )
    return id_, number


def sum_of_counts(counts: Sequence[tuple[str, int]]) -> Mapping[str, int]:
    """How many of each stock code; one that is named twice is wanted twice."""
    added: Counter[str] = Counter()
    for code, number in counts:
        added[code] += number
    return added


class WrongUse(Exception):
    """A command was called with words that it does not know, or without some that it needs."""

    def __init__(self, what: str, command: str) -> None:
        super().__init__(what)
        self.what = what
        self.command = command


class CommandParser(argparse.ArgumentParser):
    """Raises where the library would print a usage of many lines and end the program; help ends with ``row``."""

    row: CommandHelp | None = None

    def format_help(self) -> str:
        """What the command takes, an example, and where to read on."""
        if self.row is None:
            return super().format_help()
        example, handbook = f"wickwright {self.row.example}", f"wickwright handbook {self.row.page}"
        return f"{super().format_help()}\nExample: {example}\nHandbook: {handbook}\n"

    def error(self, message: str) -> NoReturn:
        """Raise `WrongUse`."""
        raise WrongUse(message, self.prog)

    def below(self, metavar: str) -> "Commands":
        """Where the words of the commands below this one are added."""
        return self.add_subparsers(metavar=metavar, required=True, parser_class=CommandParser)

    def runs(self, run: Callable[..., int]) -> None:
        """What is run with each argument by its name, and with the options that name a shop."""
        self.add_argument(
            "--content", metavar="DIR", type=Path, default=Path("content"), help="the folder of your files"
        )
        self.add_argument(
            "--output",
            metavar="DIR",
            type=Path,
            default=Path("output"),
            help="the folder for everything built",
        )
        help_ = "use this date instead of the shop's as_of"
        self.add_argument("--date", dest="as_of", metavar="YYYY-MM-DD", type=day_argument, help=help_)
        help_ = "print the result as JSON"
        self.add_argument("--json", dest="as_data", action="store_true", help=help_)
        self.set_defaults(run=run)


Commands: TypeAlias = "argparse._SubParsersAction[CommandParser]"  # noqa: SLF001  # the library has no public name for it
"""Where commands are added by `add_command`."""


def add_command(below: Commands, word: str, row: CommandHelp) -> CommandParser:
    """The words of one command."""
    purpose = row.purpose
    command = below.add_parser(word, help=purpose, description=f"{purpose[0].upper()}{purpose[1:]}.")
    command.row = row
    return command


class Version(argparse.Action):
    """Prints the version, which is looked up only then."""

    def __call__(self, parser: argparse.ArgumentParser, *_: Any) -> None:
        """Print it and end."""
        sys.stdout.write(f"wickwright {version('wickwright')}\n")
        parser.exit()
