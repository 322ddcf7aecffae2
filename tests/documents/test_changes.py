"""The change report in sentences: what follows for whoever prints labels."""

from dataclasses import replace

import pytest

from generator.documents.pages.change_report import changes_lines, told_apart
from generator.facts.gather import Gathered
from generator.ledgers.sheet import sheet_value
from generator.ledgers.sheet_changes import change_of
from generator.ledgers.standing import state_of
from generator.model.ledger import Ledger
from generator.problems import Path, Places
from tests.documents.sample_house import MAKER, RECORDED, house, issued_of, size

CODE = "The code on existing labels leads to revision 1; lots poured under the next revision need new labels."
ORIGINS: dict[Path, Path] = {(): ("candles/samphire-bank.yaml", "sizes", 0)}


def told(web: str | None, **facts: object) -> list[str]:
    """The lines of the report on one sheet of a house with that site."""
    maker, now = replace(MAKER, web=web), size(**facts)
    ledger = Ledger(stock_code="SM-30", revisions=(issued_of(size(), maker=maker),))
    state = state_of(sheet_value(RECORDED, now.facts, maker), ledger)
    change = change_of(state, Gathered(recorded=RECORDED, origins=lambda: ORIGINS))
    assert change is not None
    shop = replace(house(now, maker=maker), sheets={"SM-30": state})
    places = Places(shown_as="content", files={}, elsewhere={})
    return [line.strip() for line in changes_lines(shop, change, places)]


@pytest.mark.parametrize(
    ("web", "expected"),
    [
        ("https://saltmarsh.example", ["Existing labels are still correct.", CODE]),
        (None, ["Existing labels are still correct."]),
    ],
    ids=["with a site", "without a site"],
)
def test_true_labels_are_told_to_lead_to_the_revision_they_were_printed_for(
    web: str | None, expected: list[str]
) -> None:
    lines = told(web, burn_hours=None)

    assert [line for line in lines if "abels" in line] == expected


def test_a_weight_that_its_weighings_carry_no_more_is_told_as_such() -> None:
    lines = told(MAKER.web, declared_status="estimated", declared=dict.fromkeys(MAKER.markets))

    assert "The declared weight is no longer proven by weighing; it is now an estimate." in lines


def test_a_change_of_the_drawing_alone_is_told_in_words() -> None:
    lines = told(MAKER.web, level_set_mm=64.0)

    assert "Only the drawing on the sheet changes." in lines


def test_labels_that_print_another_stop_line_must_be_printed_anew() -> None:
    lines = told(MAKER.web, stop_depth_mm=10.0)

    assert [line for line in lines if "abels" in line] == ["Reprint the labels."]


def test_a_worked_out_figure_is_told_with_as_few_digits_as_tell_it_apart() -> None:
    assert told_apart("301.541528722", "296.532533228") == ("301.54", "296.53")
    assert told_apart("301.541528722", "301.5416") == ("301.5415", "301.5416")
    assert told_apart("5012345678900", None) == ("5012345678900", None)
    assert told_apart("3.5", "4") == ("3.5", "4")
