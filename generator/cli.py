"""One command from its words to its exit code, and the one place where a bug becomes a message."""

import os
import sys
import traceback
from collections.abc import Callable, Sequence
from dataclasses import fields
from difflib import get_close_matches
from typing import Any

from generator.arguments import WrongUse
from generator.making.options import AT_FAULT, COULD_NOT_FINISH, WRONG_USE, CommandOptions
from generator.making.progress import one_piece_of_work
from generator.making.report import Refusal, could_not_finish, refuse, report_problems
from generator.parser import COMMANDS, parser
from generator.problems import Stopped


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
    try:
        outcome = _outcome(words) if is_command else _no_command(words[0])
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader, such as `head`, has read enough; Python must not write the rest when it ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return COULD_NOT_FINISH
    return outcome if isinstance(outcome, int) else refuse(outcome, as_json="--json" in words)


def _no_command(word: str) -> Refusal:
    near = get_close_matches(word, COMMANDS, n=1)
    fix = f"did you mean '{near[0]}'?" if near else "run wickwright help for the list of commands"
    return Refusal(what=f"unknown command '{word}'", fix=fix)


def _outcome(words: Sequence[str]) -> int | Refusal:
    """How a command ended, or why it did not."""
    try:
        return _run(vars(parser(words[0]).parse_args(words)))
    except WrongUse as wrong:
        command = f"wickwright {words[0]}" if wrong.command == "wickwright" else wrong.command
        return Refusal(what=wrong.what, fix=f"see {command} --help")
    except Stopped as fault:
        report_problems((fault.problem,), as_json="--json" in words, then="nothing was written")
        return AT_FAULT
    except BrokenPipeError:
        raise
    except OSError as fault:
        named = f" ({fault.filename})" if fault.filename else ""
        return could_not_finish(f"{fault.strerror or fault}{named}")
    except KeyboardInterrupt:
        return Refusal(what="stopped; files already written are complete", exit_code=COULD_NOT_FINISH)
    except Exception:  # noqa: BLE001  # the one boundary: whatever arrives here is the program's own fault
        traceback.print_exc()
        what, fix = "this is a bug in Wickwright, not in your files", "report it with the lines above"
        return Refusal(what=what, fix=fix, exit_code=COULD_NOT_FINISH)


def _run(asked: dict[str, Any]) -> int:
    """Run a command with each of its arguments by name, those that name a shop as its options."""
    run: Callable[..., int] = asked.pop("run")
    options = {field.name: asked.pop(field.name) for field in fields(CommandOptions) if field.name in asked}
    with one_piece_of_work():
        return run(CommandOptions(**options), **asked) if options else run(**asked)


def _speak_utf8() -> None:
    """Entries may hold any letter; a console that cannot show one gets a replacement, never a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
