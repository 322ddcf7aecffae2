"""What a command was asked, and how it ends as other programs see it."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

AT_FAULT: Final = 1
"""An entry has errors, or something is not as it was issued."""

WRONG_USE: Final = 2
"""The command was asked for something that does not exist; `argparse` uses the same code."""

COULD_NOT_FINISH: Final = 3
"""The disk, the network or another program failed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CommandOptions:
    """What a command was asked: the folders, the day to speak for, how to print faults, which sheets to show."""

    content: Path
    output: Path
    as_of: date | None
    as_data: bool
    drafts: bool = False
    issued_only: bool = False
