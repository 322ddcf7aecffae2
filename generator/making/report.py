"""How a command reports what it did, what is wrong, and what to do next: as text, or as data."""

import json
import sys
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import TextIO

from generator.making.colour import coloured
from generator.making.options import AT_FAULT, COULD_NOT_FINISH, WRONG_USE, CommandOptions
from generator.problems import (
    Problem,
    Severity,
    alike,
    as_data,
    is_open,
    problem_counts,
    problems_as_text,
    where_to_read_on,
)
from generator.writing.output import Laid

LOG = "workshop/build.json"

SHOWN = 12
"""How many changed files are named; the rest is counted."""


MOST_TOLD = 200
"""How many problems are printed, errors before warnings; the rest is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a command does not do what it was asked, where no place in a file is to blame.

    ``then`` says what was not done, ``fix`` what to do, each a sentence without its stop, or nothing.
    """

    what: str
    then: str = ""
    fix: str = ""
    exit_code: int = WRONG_USE

    def __str__(self) -> str:
        return sentences(self.what, self.then, self.fix)


def could_not_finish(what: str) -> Refusal:
    """The disk, the network or another program stood in the way."""
    return Refusal(
        what=f"could not finish: {what}",
        fix="put that right, then run the command again",
        exit_code=COULD_NOT_FINISH,
    )


def refuse(*refusals: Refusal, as_json: bool, beside: Iterable[Problem] = ()) -> int:
    """Print why a command was refused, on the way of errors or as data; the exit code is that of the gravest.

    ``beside`` are problems that were not told yet, for data is one value.
    """
    if as_json:
        _print_data([*map(as_data, beside), *map(refusal_as_data, refusals)])
    else:
        for refusal in refusals:
            print(f"{coloured('error', 'wickwright:', sys.stderr)} {refusal}", file=sys.stderr)
    return min(refusal.exit_code for refusal in refusals)


def sentences(*clauses: str) -> str:
    """One after the other, each but the first with a capital. What may be copied from the end has no stop behind it."""
    first, *rest = filter(None, clauses)
    return " ".join((_stopped(first), *(_stopped(_capital(clause)) for clause in rest)))


def _capital(clause: str) -> str:
    """With a capital, unless it begins with something that is written as it is."""
    word = clause.split(maxsplit=1)[0]
    return f"{clause[0].upper()}{clause[1:]}" if word.isalpha() and word != "wickwright" else clause


def _stopped(clause: str) -> str:
    last = clause.rsplit(maxsplit=1)[-1]
    return clause if clause[-1] in ".?!:`" or "/" in last or last.startswith("--") else f"{clause}."


def say(lines: Iterable[str], data: object, *, as_json: bool, next_step: str | None = None) -> None:
    """Print what was done or found, as lines or as data, and after the lines what to do next."""
    if as_json:
        _print_data(data)
        return
    for line in lines:
        print(line)
    say_next(next_step)


def say_next(step: str | None, stream: TextIO | None = None) -> None:
    """The last line of a command after which something is to be done; on standard output where no other is named."""
    if step is not None:
        stream = stream or sys.stdout
        print(f"{coloured('strong', 'Next:', stream)} {step}", file=stream)


def publish_or(options: CommandOptions, otherwise: str) -> str:
    """The next step towards what people see: publishing, where the shop says how, which builds as well."""
    return "wickwright publish" if (options.content / "publish.yaml").exists() else otherwise


def say_written(
    options: CommandOptions, places: Sequence[Path], notes: Sequence[str] = (), next_step: str | None = None
) -> None:
    """Print which files were written, what goes with them, and what to do next."""
    written = [place.as_posix() for place in places]
    lines = (*(f"{coloured('done', 'wrote')} {place}" for place in written), *notes)
    say(lines, {"wrote": written, "notes": notes}, as_json=options.as_data, next_step=next_step)


def report_problems(problems: Iterable[Problem], *, as_json: bool, then: str, done: str = "") -> None:
    """Print every problem that is open and the count between what was done and what comes of it, or all as data."""
    problems = tuple(problems)
    if as_json:
        _print_data([as_data(problem) for problem in problems])
        return
    groups = alike(filter(is_open, problems))
    for group in groups[:MOST_TOLD]:
        print(f"{problems_as_text(group, coloured)}\n{where_to_read_on(group)}")
    if rest := sum(map(len, groups[MOST_TOLD:])):
        print(f"... and {rest} more")
    kinds = {problem.severity.value for problem in filter(is_open, problems)}
    kind = next((kind for kind in ("error", "warning") if kind in kinds), "done")
    counts = coloured(kind, _stopped(_capital(problem_counts(problems))))
    print(
        " ".join(filter(None, (done and coloured("done", done), counts, then and _stopped(_capital(then)))))
    )


def report_faults(options: CommandOptions, problems: Iterable[Problem], then: str) -> int:
    """Print what keeps a command from doing its work, and end at fault; ``then`` says what was not done."""
    report_problems(problems, as_json=options.as_data, then=then)
    if not options.as_data:
        say_next("fix the errors above, then run the command again")
    return AT_FAULT


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build came to: every problem, what was laid out if nothing stood in the way, and how long it took.

    ``changes`` tell of sheets that are no longer what was issued, and of links that nobody has asked for.
    """

    problems: tuple[Problem, ...]
    laid: Laid | None
    seconds: float
    changes: tuple[str, ...] = ()


def report_build(options: CommandOptions, built: Built, laid: Laid) -> None:
    """Every file that was written, every sheet that has changed, every problem, and where to look."""
    _report_laid(laid, built.seconds)
    for line in built.changes:
        print(line)
    home = (options.output / "site" / "index.html").as_posix()
    report_problems(built.problems, as_json=False, done="Built.", then=f"open {home}")


def _report_laid(laid: Laid, seconds: float) -> None:
    """Print which files are new, changed and removed, unless all are new, and how many of each."""
    named = [("new", path) for path in laid.written]
    named += [("changed", path) for path in laid.changed if path != LOG]
    named += [("removed", path) for path in laid.removed]
    if laid.same:
        for what, path in named[:SHOWN]:
            print(f"{what}: {path}")
        if len(named) > SHOWN:
            print(f"... and {len(named) - SHOWN} more")
    print(
        f"{len(laid.written)} new, {len(laid.changed)} changed, {len(laid.removed)} removed, "
        f"{len(laid.same)} unchanged, in {seconds:.1f} s\n"
    )


def _print_data(data: object) -> None:
    print(json.dumps(data, ensure_ascii=False, indent=2))


def refusal_as_data(refusal: Refusal) -> dict[str, str | None]:
    """The keys of a problem, which has a place."""
    place = {"file": None, "line": None, "column": None}
    said = {"what": refusal.what, "why": refusal.then, "fix": refusal.fix, "write": refusal.fix, "page": None}
    return {**place, "severity": Severity.ERROR.value, **said}


def unknown_codes(stock_codes: Iterable[str], known: Collection[str], otherwise: str) -> tuple[Refusal, ...]:
    """Those that are no stock codes of the shop."""
    return tuple(
        Refusal(what=f"there is no stock code '{code}'", then=otherwise, fix=_nearest(code.upper(), known))
        for code in stock_codes
        if code not in known
    )


def nearest_ids(written: str, ids: Iterable[str]) -> str:
    """What to write in place of an id that is none."""
    return _nearest(written.lower(), ids)


def _nearest(written: str, known: Iterable[str]) -> str:
    known = sorted(known)
    near = get_close_matches(written, known, n=3, cutoff=0.5) or known[:5]
    return f"write one of: {', '.join(near)}" if near else "no entry has one yet"
