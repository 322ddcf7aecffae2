"""One command from its words to its exit code, and the one place where a fault of the program becomes words."""

import argparse
import sys
import traceback
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from typing import Final

from generator.arguments import WrongUse
from generator.making.exit_codes import AT_FAULT, COULD_NOT_FINISH, WRONG_USE
from generator.making.report import Refusal, could_not_finish, refuse, tell
from generator.parser import parser
from generator.problems import Stopped

COMMANDS: Final = (
    "start", "check", "build", "preview", "explain", "issue", "lots", "link", "papers", "fills", "burn-test",
    "publish",
)  # fmt: skip


def main(words: list[str] | None = None) -> int:
    """Run one command."""
    _speak_utf8()
    words = sys.argv[1:] if words is None else words
    if not words:
        print(parser().format_help(), file=sys.stderr)
        return WRONG_USE
    if words[0] == "help":
        words = [*words[1:], "--help"]
    is_command = words[0].startswith("-") or words[0] in COMMANDS
    outcome = _outcome(words) if is_command else _no_command(words[0])
    return outcome if isinstance(outcome, int) else refuse(outcome, as_json="--json" in words)


def _no_command(word: str) -> Refusal:
    near = get_close_matches(word, COMMANDS, n=1) or COMMANDS
    return Refusal(what=f"'{word}' is not a command", write=f"write wickwright {', or '.join(near)}")


def _outcome(words: Sequence[str]) -> int | Refusal:
    """How a command ended, or why it did not."""
    try:
        asked = parser().parse_args(words)
        run: Callable[[argparse.Namespace], int] = asked.run
        return run(asked)
    except WrongUse as wrong:
        command = f"wickwright {words[0]}" if wrong.command == "wickwright" else wrong.command
        return Refusal(what=wrong.what, write=f"see: {command} --help")
    except Stopped as fault:
        tell((fault.problem,), as_json="--json" in words, then="nothing was written")
        return AT_FAULT
    except OSError as fault:
        named = f" ({fault.filename})" if fault.filename else ""
        return could_not_finish(f"{fault.strerror or fault}{named}")
    except KeyboardInterrupt:
        return Refusal(what="stopped; every file that was written is whole", exit_code=COULD_NOT_FINISH)
    except Exception:  # noqa: BLE001  # the one boundary: whatever arrives here is the program's own fault
        traceback.print_exc()
        what = "this is a fault of the program, not of your entries"
        return Refusal(what=what, exit_code=COULD_NOT_FINISH)


def _speak_utf8() -> None:
    """Entries may hold any letter; a console that cannot show one gets a replacement, never a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
