"""Many problems told shortly."""

import pytest

from generator.making.report import MOST_TOLD, report_problems
from generator.problems import Place, Problem, Severity


def test_of_many_problems_the_errors_are_told_first_and_the_rest_is_counted(
    capsys: pytest.CaptureFixture[str],
) -> None:
    warnings = [
        Problem(place=Place("a", line, 1), what="odd", why=f"b{line}", fix="c", severity=Severity.WARNING)
        for line in range(1, MOST_TOLD + 10)
    ]
    error = Problem(place=Place("z", 1, 1), what="wrong", why="b", fix="c")

    report_problems([*warnings, error], as_json=False, then="")

    told = capsys.readouterr().out
    assert told.startswith("z:1:1: error: wrong")
    assert told.count("warning: odd") == MOST_TOLD - 1
    assert told.endswith("... and 10 more\n1 error, 209 warnings.\n")
