"""How a command tells what is wrong: every problem and their count, or the same as data."""

import json
from collections.abc import Iterable
from difflib import get_close_matches

from generator.problems import Problem, as_data, counted


def tell(problems: Iterable[Problem], *, as_json: bool, then: str) -> None:
    """Print every problem and the count, or the same as data."""
    problems = tuple(problems)
    if as_json:
        print(json.dumps([as_data(problem) for problem in problems], ensure_ascii=False, indent=2))
        return
    for problem in problems:
        print(f"{problem}\n")
    print(f"{counted(problems)}; {then}" if then else counted(problems))


def nearest_codes(written: str, codes: Iterable[str]) -> str:
    """What to write in place of a stock code that is none."""
    known = sorted(codes)
    near = get_close_matches(written.upper(), known, n=3, cutoff=0.5) or known[:5]
    return f"write one of: {', '.join(near)}" if near else "no entry has one yet"
