"""The words of the command line: each command with its purpose; its arguments stand in its own module."""

import re
from argparse import SUPPRESS
from importlib import import_module
from types import ModuleType
from typing import Final

from generator.arguments import CommandParser, Version, add_command

COMMANDS: Final = {
    "start": "make a small shop to edit in a new folder",
    "check": "read every entry and tell every fault; the site and its papers stay as they are",
    "build": "make the site and the workshop's papers",
    "preview": "show the site in a browser and make it again whenever an entry is saved",
    "explain": "print every figure of one stock code with its inputs, formula and source",
    "issue": "make what a sheet says today its next revision",
    "papers": "make single papers: sheets, labels, pour sheets, costs, orders, a maker's file",
    "burn-test": "record burn tests",
    "fills": "tell how many candles the wax in the pot will fill",
    "lots": "write down what was poured, or find the lots that something went into",
    "link": "print what a trade buyer opens the price sheet with",
    "ufi": "make or read the UFI of a recipe, by which poison centres find it",
    "handbook": "read the manual, here or in a browser",
    "publish": "put what changed of the site where people can see it",
}
"""Every command by its first word; ``generator/commands`` holds a module named by the words of each."""


BELOW: Final = {
    "burn-test": {"new": "make the table to type a test into"},
    "lots": {
        "add": "write a lot into lots.csv, with its formula and the revision of its sheet",
        "using": "list the lots that a material, vessel or wick went into",
    },
    "ufi": {
        "new": "make the UFI of a recipe, by which poison centres find it",
        "read": "check a UFI and show the company and number in it",
    },
}
"""The commands of two words; ``papers`` has one for each of its rows."""


def parser(named: str = "") -> CommandParser:
    """All commands; the one that is named has its arguments, and only what it needs is loaded."""
    words = CommandParser(
        prog="wickwright",
        description="Candle catalogue, burn-safety pages and trade sheets from recorded formulas.",
    )
    words.add_argument("--version", action=Version, nargs=0, default=SUPPRESS)
    commands = words.below("COMMAND")
    for word, purpose in COMMANDS.items():
        command = add_command(commands, word, purpose)
        if word == named:
            _add_arguments(command, word)
    return words


def _add_arguments(command: CommandParser, word: str) -> None:
    if word not in BELOW:
        _module(word).add_arguments(command)
        return
    below = command.below("WHAT")
    for second, purpose in BELOW[word].items():
        _module(f"{word} {second}").add_arguments(add_command(below, second, purpose))


def _module(words: str) -> ModuleType:
    """``commands/burn_test_new.py`` for ``burn-test new``."""
    return import_module(f"generator.commands.{re.sub('[ -]', '_', words)}")
