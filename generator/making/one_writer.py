"""One command at a time writes into the entries, and one into the output.

A command that needs both takes the output's lock first and the entries' last, and waits for nothing while it holds
the entries': no two wait for each other, and a row can be written during a long build.
"""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from pathlib import Path
from typing import Concatenate, ParamSpec, TypeAlias, TypeVar

from generator.making.options import CommandOptions
from generator.writing.lock import locked
from generator.writing.whole_files import sweep

LOCK_FILE = ".writer"

P = ParamSpec("P")
R = TypeVar("R")
Run: TypeAlias = Callable[Concatenate[CommandOptions, P], R]


@contextmanager
def alone_in_content(content: Path, command: str) -> Iterator[None]:
    """No other command writes into the entries; what a killed command left there is removed."""
    if not content.is_dir():
        yield  # There is nothing to write into; the command reports it.
        return
    with locked(content / LOCK_FILE, f"`wickwright {command}`", _waiting_for(content)):
        for folder in (
            content,
            *(path for path in content.iterdir() if path.is_dir() and not path.is_symlink()),
        ):
            sweep(folder)
        yield


@contextmanager
def alone_in_output(output: Path, command: str) -> Iterator[None]:
    """No other command writes into the output folder, which is made if it does not exist."""
    store = output / ".store"
    store.mkdir(parents=True, exist_ok=True)
    with locked(store / LOCK_FILE, f"`wickwright {command}`", _waiting_for(output)):
        yield


@contextmanager
def entries_at_rest(content: Path) -> Iterator[None]:
    """No command writes into the entries while they are read, if they can be written at all."""
    who = "a command that reads them"
    with locked(content / LOCK_FILE, who, _waiting_for(content), needed=False):
        yield


def writes_content(command: str) -> Callable[[Run[P, R]], Run[P, R]]:
    """Marks a command that reads and changes the entries: it has them to itself from its first line to its last."""

    def alone(run: Run[P, R]) -> Run[P, R]:
        @wraps(run)
        def locked_run(options: CommandOptions, /, *rest: P.args, **named: P.kwargs) -> R:
            with alone_in_content(options.content, command):
                return run(options, *rest, **named)

        return locked_run

    return alone


def _waiting_for(folder: Path) -> Callable[[str], None]:
    def tell(holder: str) -> None:
        print(f"waiting: {holder} is using {folder.as_posix()}/ ...", file=sys.stderr, flush=True)

    return tell
