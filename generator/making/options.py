"""What a command was asked, and how it ends as other programs see it."""

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Final

from generator.making.clock import local_day

AT_FAULT: Final = 1
"""An entry has errors, or something is not as it was issued."""

WRONG_USE: Final = 2
"""The command was asked for something that does not exist; `argparse` uses the same code."""

COULD_NOT_FINISH: Final = 3
"""The disk, the network or another program failed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CommandOptions:
    """What a command was asked: the folders, as of which day, how to print errors, which sheets to show.

    ``as_of`` is the day of ``--date``. ``today`` is the day on which the command is run; a shop without a fixed day of
    its own is as of that one.
    """

    content: Path
    output: Path
    as_of: date | None
    as_data: bool
    drafts: bool = False
    issued_only: bool = False
    today: date = field(default_factory=local_day)
