"""How faults are put together and printed."""

from dataclasses import replace

from generator.problems import (
    Place,
    Problem,
    Severity,
    alike,
    as_data,
    problem_counts,
    problems_as_text,
    where_to_read_on,
)


def problem(line: int, what: str, *, why: str = "why", severity: Severity = Severity.WARNING) -> Problem:
    place = Place(f"candles/{line}.yaml", line, 1)
    return Problem(place=place, what=what, why=why, fix="this", severity=severity)


def test_errors_come_before_warnings_and_like_ones_together() -> None:
    one, two, three = problem(1, "a"), problem(2, "b", why="other"), problem(3, "c")
    error = problem(4, "d", severity=Severity.ERROR)

    assert alike([one, two, three, error]) == ((error,), (one, three), (two,))


def test_many_alike_are_one_message_with_a_count_and_the_files_of_the_rest() -> None:
    group = tuple(problem(number, f"{number} is off") for number in range(1, 6))

    assert problems_as_text(group).splitlines() == [
        "candles/1.yaml:1:1: warning: 1 is off",
        "candles/2.yaml:2:1: warning: 2 is off",
        "candles/3.yaml:3:1: warning: 3 is off",
        "and 2 more like these, in candles/4.yaml, candles/5.yaml",
        "    why: why",
        "    fix: this",
    ]


def test_many_alike_say_how_each_of_those_shown_is_accepted() -> None:
    group = tuple(replace(problem(number, "off"), check=f"unread {number}") for number in range(1, 6))

    assert problems_as_text(group).splitlines()[-3:] == [
        f"    or, if it is right as it is: accepted: {{unread {number}: ...}}" for number in range(1, 4)
    ]


def test_a_message_leads_to_the_page_on_its_file_once_and_nowhere_without_one() -> None:
    group = tuple(problem(number, "off") for number in range(1, 6))
    elsewhere = replace(group[0], place=Place("content", 1, 1))

    assert where_to_read_on(group) == "    more: wickwright handbook candle\n"
    assert where_to_read_on((elsewhere,)) == ""
    assert (as_data(group[0])["page"], as_data(elsewhere)["page"]) == ("candle", None)


def test_what_was_accepted_is_counted_by_itself() -> None:
    standing, accepted = problem(1, "a"), replace(problem(2, "b"), check="b", accepted="so it is")

    assert problem_counts([standing]) == "0 errors, 1 warning"
    assert problem_counts([standing, accepted]) == "0 errors, 1 warning, 1 accepted"
    assert accepted.acceptance is None
