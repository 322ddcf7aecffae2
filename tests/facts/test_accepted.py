"""A warning that is right as it is, accepted in its entry."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.cli import main
from generator.making.loaded_shop import LoadedShop
from generator.making.options import CommandOptions
from generator.model.accepted import Accepted
from generator.problems import Fault, Place, Places, Problem, Severity, is_error, is_open, problem_counts
from generator.rules.entries.acceptance import settled
from tests.loaded import loaded_shop

CANDLE = "candles/wet-garden.yaml"
SIZE = "    price: 18.00\n"
WHY = "the line was marked on the cooler bench"

Knows = Callable[[], LoadedShop]


@pytest.fixture(name="content")
def _content(shop_folder: Path) -> Path:
    """A shop in which one warning stands: a line poured at another temperature than the batch."""
    change(
        shop_folder / CANDLE, "fill: {to: 60 mm, level: set}", "fill: {to: 60 mm, level: poured, at: 58 C}"
    )
    return shop_folder


@pytest.fixture(name="knows")
def _knows(content: Path, ask: Callable[[Path], CommandOptions]) -> Knows:
    return lambda: loaded_shop(ask(content))


def change(file: Path, before: str, after: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert before in text
    file.write_text(text.replace(before, after), encoding="utf-8")


def accept(content: Path, line: str, file: str = CANDLE) -> None:
    with (content / file).open("a", encoding="utf-8") as entry:
        entry.write(f"{line}\n")


def standing(known: LoadedShop) -> list[str]:
    return [problem.what for problem in known.problems if is_open(problem)]


def test_a_warning_says_how_it_is_accepted(knows: Knows) -> None:
    (problem,) = knows().problems

    assert str(problem).endswith("    or, if it is right as it is: accepted: {two-pours: ...}")


def test_what_is_offered_is_a_blank_and_passes_for_no_reason(content: Path, knows: Knows) -> None:
    accept(content, "accepted: {two-pours: ...}")

    errors = [problem.what for problem in knows().problems if is_error(problem)]

    assert errors == ["two-pours is '...', a blank that is still to be filled in"]


@pytest.mark.parametrize(
    "written", ["yes", "[two-pours]", "", "{two-pours: [so]}", "{two-pours: 5}", "{two-pours: }"]
)
def test_what_gives_no_reason_is_an_error(content: Path, knows: Knows, written: str) -> None:
    accept(content, f"accepted: {written}")

    assert sum(map(is_error, knows().problems)) == 1


@pytest.mark.parametrize("where", ["candle", "size"])
def test_an_accepted_warning_is_silent_and_counted(content: Path, knows: Knows, where: str) -> None:
    if where == "candle":
        accept(content, f"accepted: {{two-pours: {WHY}}}")
    else:
        change(content / CANDLE, SIZE, f"{SIZE}    accepted: {{two-pours: {WHY}}}\n")

    known = knows()

    assert standing(known) == []
    assert [problem.accepted for problem in known.problems] == [WHY]
    assert problem_counts(known.problems) == "0 errors, 0 warnings, 1 accepted"


def test_a_reason_holds_for_its_own_size_alone(content: Path, knows: Knows) -> None:
    size = (content / CANDLE).read_text(encoding="utf-8").partition("sizes:\n")[2]
    accept(content, size.replace("WG-20\n", f"WG-21\n    accepted: {{two-pours: {WHY}}}\n").rstrip())

    assert [(problem.place.line, problem.accepted) for problem in knows().problems] == [(20, None), (29, WHY)]


def test_another_warning_at_the_same_place_is_told_all_the_same(content: Path, knows: Knows) -> None:
    accept(content, f"accepted: {{two-pours: {WHY}}}")
    change(content / CANDLE, "at: 58 C", "at: 48 C")

    assert standing(knows()) == ["at is 48 C; the wax melts at 50 C"]


def test_what_is_accepted_and_nothing_warns_of_is_told(content: Path, knows: Knows) -> None:
    accept(content, f"accepted: {{two-pour: {WHY}}}")

    told = {problem.what: problem.fix for problem in knows().problems}

    assert told["accepted names 'two-pour', but there is no such warning here"] == f"two-pours: {WHY}"


def test_an_entry_does_not_accept_for_another(content: Path, knows: Knows) -> None:
    accept(content, f"accepted: {{two-pours: {WHY}}}", "maker.yaml")

    assert standing(knows()) == [
        "at is 58 C, but pour_at of the batch is 60 C",
        "accepted names 'two-pours', but there is no such warning here",
    ]


def test_tables_and_unread_files_are_answered_by_the_maker(content: Path, knows: Knows) -> None:
    (content / "photos").mkdir()
    (content / "photos" / "plan.txt").write_text("a plan", encoding="utf-8")
    accept(content, "accepted: {unread photos/plan.txt: kept beside the photos}", "maker.yaml")

    assert "'photos/plan.txt' is not read" not in standing(knows())


def test_a_duty_cannot_be_accepted(content: Path, knows: Knows) -> None:
    (content / "fragrances/wet-garden.yaml").write_text("name: Wet\nundisclosed: 0 %\n", encoding="utf-8")
    accept(content, "accepted: {no-composition: it is secret}", "fragrances/wet-garden.yaml")

    assert "Wet has no composition" in standing(knows())


def test_the_workshop_lists_what_was_accepted_and_why(content: Path) -> None:
    accept(content, f"accepted: {{two-pours: {WHY}}}")
    output = content.parent / "output"

    assert main(["build", "--content", str(content), "--output", str(output)]) == 0

    page = (output / "workshop" / "index.html").read_text(encoding="utf-8")
    listed = (output / "workshop" / "problems.json").read_text(encoding="utf-8")
    assert "Accepted warnings" in page
    assert WHY in page
    assert f'"accepted": "{WHY}"' in listed


def test_accepting_changes_no_figure_and_no_sheet(content: Path, knows: Knows) -> None:
    before = knows()
    accept(content, f"accepted: {{two-pours: {WHY}}}")
    accept(content, "accepted: {deep-bowl: it is one}", "vessels/amber-20.yaml")
    accept(content, "accepted: {no-density: the supplier gives none}", "fragrances/wet-garden.yaml")

    after = knows()

    assert after.facts == before.facts
    assert after.sheets == before.sheets


def test_the_key_in_a_wrong_place_is_told_where_it_goes(content: Path, knows: Knows) -> None:
    change(content / CANDLE, "at: 58 C}", "at: 58 C, accepted: {two-pours: so}}")

    errors = [problem.fix for problem in knows().problems if is_error(problem)]

    assert errors == ["accepted: at the left edge of the entry, or in one of its sizes"]


def test_the_key_misspelt_is_told_as_it_is_spelt(content: Path, knows: Knows) -> None:
    accept(content, f"acepted: {{two-pours: {WHY}}}")

    assert [problem.fix for problem in knows().problems if is_error(problem)] == ["accepted: ..."]


NAMES = st.sampled_from(["headspace", "masses", "moved wick", ""])


@given(check=NAMES, others=st.lists(NAMES), severity=st.sampled_from(Severity))
def test_accepting_never_hides_an_error(check: str, others: list[str], severity: Severity) -> None:
    path = ("candles/a.yaml", "sizes", 0, "fill")
    accepted = [Accepted(at=("candles/a.yaml",), check=each, why="so") for each in others]
    fault = Fault(path=path, what="a", why="b", fix="c", severity=severity, check=check or None)
    problem = fault.at(Place("content/candles/a.yaml", 1, 1))

    told = settled(problem, path, accepted, Places(shown_as="content", files={}))

    hidden = not is_open(told)
    assert hidden == (severity is Severity.WARNING and check != "" and check in others)
    if severity is Severity.ERROR:
        assert told == Problem(place=problem.place, what="a", why="b", fix="c")
