"""Which sessions and pieces of a burn test count."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.burn_tests import Session
from generator.model.candle import Outcome
from generator.rules.burning.pieces import Excluded, Piece, least_life, reckon

FIRST = Session(piece="A", session=1, hours=4, before_g=400.0, after_g=380.0, outcome="ok")
SECOND = Session(piece="A", session=2, hours=4, before_g=380.0, after_g=356.0, outcome="ok")
FAULT = Session(piece="A", session=3, hours=2, before_g=356.0, after_g=340.0, outcome="fault", note="soot")


def test_every_sound_session_counts_the_slow_first_one_included() -> None:
    """physics.md D2."""
    (piece,) = reckon([("a.csv", (FIRST, SECOND))], burnable_g=50.0).pieces

    assert (piece.loss_g, piece.hours, piece.rate_g_per_h) == (44.0, 8.0, 5.5)


@pytest.mark.parametrize("outcome", ["stopped_at_heel", "self_extinguished_at_heel", "drowned"])
def test_a_candle_that_went_out_counts_up_to_then(outcome: Outcome) -> None:
    (piece,) = reckon([("a.csv", (FIRST, replace(SECOND, outcome=outcome)))], burnable_g=50.0).pieces

    assert piece.hours == 8.0


def test_a_fault_of_exactly_a_fifth_of_the_hours_leaves_the_piece() -> None:
    """physics.md D2: more than 20 % drops the piece (CHOICE)."""
    reckoned = reckon([("a.csv", (FIRST, SECOND, FAULT))], burnable_g=50.0)

    assert [piece.hours for piece in reckoned.pieces] == [8.0]
    assert reckoned.excluded == (Excluded(file="a.csv", row=2, piece="A", session=3, hours=2, reason="soot"),)


def test_more_than_a_fifth_of_the_hours_at_fault_drops_the_piece() -> None:
    reckoned = reckon([("a.csv", (FIRST, SECOND, replace(FAULT, hours=2.25, note="")))], burnable_g=50.0)

    assert reckoned.pieces == ()
    assert [str(excluded) for excluded in reckoned.excluded] == [
        "a.csv: session 3 of piece A, 2.25 h: a fault without a note",
        "a.csv: piece A, 10.25 h: 22 % of its hours do not count, more than 20 %",
    ]


def test_a_row_without_time_or_loss_cannot_count() -> None:
    reckoned = reckon([("a.csv", (replace(FIRST, hours=0.0),))], burnable_g=50.0)

    assert reckoned.pieces == ()
    assert reckoned.excluded[0].reason == "no time passed or no weight was lost"


def _least_life_h(piece: Piece, burnable_g: float) -> float | None:
    found = least_life([piece], burnable_g)
    return None if found is None else found.value


def test_coverage_is_at_most_the_whole() -> None:
    (piece,) = reckon([("a.csv", (FIRST, SECOND))], burnable_g=40.0).pieces

    assert (piece.coverage, _least_life_h(piece, 40.0)) == (1.0, 8.0 * 40 / 44)


def test_a_life_is_told_from_exactly_four_fifths_of_the_wax() -> None:
    """physics.md D3 (CHOICE)."""
    just = reckon([("a.csv", (FIRST, SECOND))], burnable_g=55.0).pieces[0]
    short = reckon([("a.csv", (FIRST, SECOND))], burnable_g=55.1).pieces[0]

    assert (just.coverage, _least_life_h(just, 55.0)) == (0.8, 10.0)
    assert _least_life_h(short, 55.1) is None


def test_a_flame_that_drowns_above_the_stop_depth_is_named_with_what_is_left() -> None:
    drowned = reckon([("a.csv", (FIRST, replace(SECOND, outcome="drowned")))], burnable_g=50.0).drowned

    assert [(piece.name, piece.row, piece.unburnt_g) for piece in drowned] == [("A", 1, 6.0)]


def test_a_flame_that_drowns_at_the_stop_depth_has_done_its_work() -> None:
    assert reckon([("a.csv", (FIRST, replace(SECOND, outcome="drowned")))], burnable_g=44.0).drowned == ()


def test_pieces_of_one_name_in_two_files_are_two_pieces() -> None:
    reckoned = reckon([("b.csv", (FIRST,)), ("a.csv", (FIRST, SECOND))], burnable_g=50.0)

    assert [(piece.file, piece.name, piece.hours) for piece in reckoned.pieces] == [
        ("a.csv", "A", 8.0),
        ("b.csv", "A", 4.0),
    ]


@given(order=st.permutations(range(3)), last=st.booleans())
@settings(max_examples=20)
def test_the_order_of_rows_and_files_is_irrelevant(order: list[int], last: bool) -> None:
    rows = (FIRST, SECOND, replace(FAULT, outcome="drowned"))
    tables = [("a.csv", tuple(rows[place] for place in order)), ("b.csv", (FIRST,))]

    reckoned = reckon(reversed(tables) if last else tables, burnable_g=50.0)

    assert reckoned.pieces == reckon([("a.csv", rows), ("b.csv", (FIRST,))], burnable_g=50.0).pieces
