"""How a command tells what is wrong: every problem and their count, or the same as data."""

import json
from collections.abc import Iterable

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
