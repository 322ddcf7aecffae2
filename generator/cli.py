"""One command from its words to its exit code, and the one place where a fault of the program becomes words."""

import argparse
import json
import sys
import traceback
from collections.abc import Callable
from difflib import get_close_matches
from typing import Final

from generator.commands import parser
from generator.problems import Stopped, as_data

AT_FAULT: Final = 1
WRONG_USE: Final = 2
COULD_NOT_FINISH: Final = 3
COMMANDS: Final = (
    "start", "check", "build", "preview", "explain", "issue", "lots", "link", "papers", "fills", "burn-test",
    "publish",
)  # fmt: skip


def main(words: list[str] | None = None) -> int:
    """Run one command."""
    _speak_utf8()
    words = sys.argv[1:] if words is None else words
    if words and not words[0].startswith("-") and words[0] not in COMMANDS:
        near = get_close_matches(words[0], COMMANDS, n=1) or COMMANDS
        print(
            f"wickwright: '{words[0]}' is not a command; write: wickwright {', or '.join(near)}",
            file=sys.stderr,
        )
        return WRONG_USE
    asked = parser().parse_args(words)
    run: Callable[[argparse.Namespace], int] = asked.run
    try:
        return run(asked)
    except Stopped as fault:
        print(
            json.dumps([as_data(fault.problem)])
            if getattr(asked, "json", False)
            else f"{fault.problem}\n\n1 error; nothing was written"
        )
        return AT_FAULT
    except OSError as fault:
        named = f" ({fault.filename})" if fault.filename else ""
        print(f"wickwright: could not finish: {fault.strerror or fault}{named}", file=sys.stderr)
    except KeyboardInterrupt:
        print("wickwright: stopped; every file that was written is whole", file=sys.stderr)
    except Exception:  # noqa: BLE001  # the one boundary: whatever arrives here is the program's own fault
        traceback.print_exc()
        print("wickwright: this is a fault of the program, not of your entries", file=sys.stderr)
    return COULD_NOT_FINISH


def _speak_utf8() -> None:
    """Entries may hold any letter; a console that cannot show one gets a replacement, never a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
