"""How a command tells what it did and what is wrong: as text, or as data."""

import json
from collections.abc import Iterable
from difflib import get_close_matches

from generator.problems import Problem, alike, as_data, counted, is_open, shown
from generator.writing.output import Laid

SHOWN = 12
"""How many changed files are named; the rest is counted."""


MOST_TOLD = 200
"""How many problems are printed, errors before warnings; the rest is counted."""


def tell(problems: Iterable[Problem], *, as_json: bool, then: str) -> None:
    """Print every problem that is open and the count, or all of them as data."""
    problems = tuple(problems)
    if as_json:
        print(json.dumps([as_data(problem) for problem in problems], ensure_ascii=False, indent=2))
        return
    groups = alike(filter(is_open, problems))
    for group in groups[:MOST_TOLD]:
        print(f"{shown(group)}\n")
    if rest := sum(map(len, groups[MOST_TOLD:])):
        print(f"... and {rest} more")
    print(f"{counted(problems)}; {then}" if then else counted(problems))


def tell_laid(laid: Laid, seconds: float, *, passed_over: str) -> None:
    """Print which files are new, changed and removed, unless all are new, and how many of each."""
    named = [("new", path) for path in laid.written]
    named += [("changed", path) for path in laid.changed if path != passed_over]
    named += [("removed", path) for path in laid.removed]
    if laid.same:
        for what, path in named[:SHOWN]:
            print(f"{what}: {path}")
        if len(named) > SHOWN:
            print(f"... and {len(named) - SHOWN} more")
    print(
        f"{len(laid.written)} new, {len(laid.changed)} changed, {len(laid.removed)} removed, "
        f"{len(laid.same)} as before, in {seconds:.1f} s\n"
    )


def nearest_codes(written: str, codes: Iterable[str]) -> str:
    """What to write in place of a stock code that is none."""
    return _nearest(written.upper(), codes)


def nearest_ids(written: str, ids: Iterable[str]) -> str:
    """What to write in place of an id that is none."""
    return _nearest(written.lower(), ids)


def _nearest(written: str, known: Iterable[str]) -> str:
    known = sorted(known)
    near = get_close_matches(written, known, n=3, cutoff=0.5) or known[:5]
    return f"write one of: {', '.join(near)}" if near else "no entry has one yet"
