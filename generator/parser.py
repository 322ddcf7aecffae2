"""The words of the command line: each command with what it is for; its arguments are in its own module."""

import re
from argparse import SUPPRESS
from collections.abc import Mapping
from importlib import import_module
from types import ModuleType
from typing import Final

from generator.arguments import CommandHelp, CommandParser, Version, add_command

GROUPS: Final[Mapping[str, Mapping[str, CommandHelp]]] = {
    "Write up your candles": {
        "start": CommandHelp("set up a small shop to edit, in a new folder", "start my-shop", "candle"),
        "check": CommandHelp(
            "report all errors and warnings in your files; nothing is built", "check", "warnings"
        ),
        "preview": CommandHelp(
            "show the site in a browser and rebuild it on every save", "preview", "candle"
        ),
        "explain": CommandHelp(
            "show how every figure of a candle is calculated, with its source", "explain SS-30", "figures"
        ),
    },
    "Pour and test": {
        "fills": CommandHelp(
            "work out how many candles the wax in the pot will fill", "fills '4.6 kg' SS-30", "bench"
        ),
        "papers": CommandHelp(
            "make papers one at a time: sheets, labels, pour sheets, costs, order forms, compliance files",
            "papers pour SS-30=24 NL-22=12",
            "bench",
        ),
        "lots": CommandHelp(
            "record a lot you poured, or find the lots that contain a material",
            "lots using samphire",
            "lots",
        ),
        "burn-test": CommandHelp("record burn tests", "burn-test new SS-22", "burn-tests"),
    },
    "Sell": {
        "issue": CommandHelp(
            "issue the current sheet as a new revision",
            'issue HF-TG --reason "the longest burn is now 3 hours"',
            "safety-sheets",
        ),
        "ufi": CommandHelp(
            "make or read the UFI of a recipe, by which poison centres find it",
            "ufi new SS-30 --vat DK31415926",
            "ufi",
        ),
        "build": CommandHelp("build the site and the workshop papers", "build", "publishing"),
        "publish": CommandHelp("publish the site", "publish --headers", "publishing"),
        "link": CommandHelp("print a buyer's link", "link lamp-room", "shops"),
    },
    "Look things up": {
        "handbook": CommandHelp("read the manual, here or in a browser", "handbook labels", "candle"),
    },
}
"""Every command in the order of the work; ``generator/commands`` holds a module named by the words of each."""

COMMANDS: Final[dict[str, CommandHelp]] = {
    word: row for group in GROUPS.values() for word, row in group.items()
}
"""Every command by its first word."""

BELOW: Final[Mapping[str, Mapping[str, CommandHelp]]] = {
    "burn-test": {
        "new": CommandHelp("make a blank table for a burn test", "burn-test new PT-22", "burn-tests"),
    },
    "lots": {
        "add": CommandHelp(
            "record a lot in lots.csv with its recipe and sheet revision",
            "lots add SS-30 --made 48 --from samphire=B4711",
            "lots",
        ),
        "using": CommandHelp(
            "list the lots that contain a material, vessel or wick",
            "lots using samphire --from B4711",
            "lots",
        ),
    },
    "ufi": {
        "new": CommandHelp(
            "make the UFI of a recipe, by which poison centres find it",
            "ufi new SS-30 --vat DK31415926",
            "ufi",
        ),
        "read": CommandHelp(
            "check a UFI and show the company and number in it", "ufi read C23S-PQ2V-AMH9-VVRF", "ufi"
        ),
    },
}
"""The commands of two words; ``papers`` has one for each of its rows."""

_ABOUT: Final = "Candle catalogue, burn-safety pages and trade sheets from recorded recipes."


class _Overview(CommandParser):
    """All commands at a glance."""

    def format_help(self) -> str:
        """A block for each part of the work, and how to learn more."""
        width = max(map(len, COMMANDS))
        blocks = (
            "\n".join((heading, *(f"  {word:{width}}  {row.purpose}" for word, row in rows.items())))
            for heading, rows in GROUPS.items()
        )
        return "\n\n".join((_ABOUT, *blocks, "One command in full: wickwright help COMMAND")) + "\n"


def parser(named: str = "") -> CommandParser:
    """All commands; the one that is named has its arguments, and only what it needs is loaded."""
    words = _Overview(prog="wickwright")
    words.add_argument("--version", action=Version, nargs=0, default=SUPPRESS)
    commands = words.below("COMMAND")
    for word, row in COMMANDS.items():
        command = add_command(commands, word, row)
        if word == named:
            _add_arguments(command, word)
    return words


def _add_arguments(command: CommandParser, word: str) -> None:
    if word not in BELOW:
        _module(word).add_arguments(command)
        return
    below = command.below("WHAT")
    for second, row in BELOW[word].items():
        _module(f"{word} {second}").add_arguments(add_command(below, second, row))


def _module(words: str) -> ModuleType:
    """``commands/burn_test_new.py`` for ``burn-test new``."""
    return import_module(f"generator.commands.{re.sub('[ -]', '_', words)}")
