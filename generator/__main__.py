"""``python -m generator`` is ``wickwright``; Ctrl-C ends it quietly even while it is loaded, or when it is done."""

import os
import signal
import sys
from types import FrameType


def main() -> int:
    """Run one command from its words to its exit code."""
    # Where the shell has switched Ctrl-C off, it stays off.
    listens = signal.getsignal(signal.SIGINT) is signal.default_int_handler
    if listens:
        signal.signal(signal.SIGINT, _end)
    from generator.cli import main as one_command  # noqa: PLC0415  # slow to load

    if listens:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        return one_command()
    finally:
        if listens:
            signal.signal(signal.SIGINT, _end)


def _end(_signal: int, _frame: FrameType | None) -> None:
    os._exit(3)  # As a command that could not finish; nothing is begun yet, or everything is written.


if __name__ == "__main__":
    sys.exit(main())
