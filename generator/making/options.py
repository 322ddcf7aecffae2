"""What a command was asked."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class CommandOptions:
    """What a command was asked: the folders, the day to speak for, how to print faults, which sheets to show."""

    content: Path
    output: Path
    as_of: date | None
    as_data: bool
    drafts: bool = False
    issued_only: bool = False
