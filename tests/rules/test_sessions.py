"""Rows of a burn test: what each must say, what two must agree on, what blocks the hours."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.burn_tests import Session
from generator.problems import Fault, Severity
from generator.rules.burning.sessions import (
    Expected,
    blocking_faults,
    full_pool_h,
    longest_sound_session_h,
    pieces_in_order,
    row_faults,
)

ONE_WICK = Expected(wicks=1, longest_session_h=4.0)
FIRST = Session(piece="A", session=1, hours=4, before_g=400.0, after_g=380.0, outcome="ok")
SECOND = Session(piece="A", session=2, hours=4, before_g=380.0, after_g=360.0, outcome="ok")


def test_rows_that_agree_have_no_fault() -> None:
    assert row_faults(0, (FIRST, SECOND), ONE_WICK) == ()
    assert blocking_faults(0, (FIRST, SECOND)) == ()


def test_a_session_without_time_is_an_error() -> None:
    assert row_faults(1, (replace(FIRST, hours=0.0),), ONE_WICK) == (
        Fault(
            path=("burn_time", 1, 0, "hours"),
            what="hours is 0; session 1 of piece A took no time",
            why="the burn rate is weight lost per hour, and the burn hours follow from it",
            fix="hours: as noted while burning, with a point or as hours:minutes",
        ),
    )


def test_a_candle_that_gains_weight_in_a_session_is_an_error() -> None:
    assert row_faults(0, (replace(FIRST, after_g=402.1),), ONE_WICK) == (
        Fault(
            path=("burn_time", 0, 0, "after_g"),
            what="session 1 of piece A gains 2.1 g (400 g before, 402.1 g after)",
            why="a burning candle gets lighter, so the burn hours would be wrong",
            fix="correct before_g and after_g to what the scale showed, or delete the row",
        ),
    )


def test_a_session_that_burns_nothing_away_is_an_error() -> None:
    (fault,) = row_faults(0, (replace(FIRST, after_g=400.0),), ONE_WICK)

    assert fault.what == "session 1 of piece A loses nothing (400 g before, 400 g after)"


@pytest.mark.parametrize("after_g", [400.0, 320.0], ids=["nothing burnt", "a flare"])
def test_a_fault_may_have_burnt_nothing_or_far_too_much(after_g: float) -> None:
    assert row_faults(0, (replace(FIRST, after_g=after_g, outcome="fault"),), ONE_WICK) == ()


def test_a_rate_no_candle_has_is_asked_about() -> None:
    assert row_faults(0, (replace(FIRST, after_g=320.0),), ONE_WICK) == (
        Fault(
            path=("burn_time", 0, 0, "after_g"),
            what="session 1 of piece A loses 80 g in 4 h, 20 g/h for each wick",
            why="candles burn 1.5 to 15 g/h for each wick, so a weight or a time may be mistyped",
            fix="correct hours and weights to what was noted while burning, or leave the row if it is right",
            severity=Severity.WARNING,
        ),
    )


def test_the_rate_is_asked_about_for_each_wick() -> None:
    two_wicks = Expected(wicks=2, longest_session_h=4.0)

    assert row_faults(0, (replace(FIRST, after_g=320.0),), two_wicks) == ()


@pytest.mark.parametrize("after_g", [394.0, 340.0], ids=["exactly 1.5 g/h", "exactly 15 g/h"])
def test_the_ends_of_the_usual_rates_pass(after_g: float) -> None:
    assert row_faults(0, (replace(FIRST, after_g=after_g),), ONE_WICK) == ()


def test_a_session_longer_than_the_papers_allow_is_remarked_on() -> None:
    """physics.md D1: half an hour over is not."""
    over = replace(FIRST, hours=4.75, after_g=376.0)

    assert row_faults(0, (replace(FIRST, hours=4.5),), ONE_WICK) == ()
    assert row_faults(0, (over,), ONE_WICK) == (
        Fault(
            path=("burn_time", 0, 0, "hours"),
            what="session 1 of piece A lasted 4.75 h, longer than the 4 h the papers allow",
            why="a candle burns hotter in a long session, so its rate is not that of normal use",
            fix="hours: at most 4 in the next test, or leave the row if it is right",
            severity=Severity.WARNING,
        ),
    )


def test_wax_that_burnt_without_a_row_is_an_error() -> None:
    assert row_faults(0, (FIRST, replace(SECOND, before_g=370.0)), ONE_WICK) == (
        Fault(
            path=("burn_time", 0, 1, "before_g"),
            what="10 g are missing between session 1 and session 2 of piece A (380 g after, 370 g before)",
            why="wax burnt in unrecorded time makes the burn hours doubtful",
            fix="add the missing session as a row, with outcome: fault if its time is uncertain",
        ),
    )


def test_a_candle_that_gains_weight_between_sessions_is_an_error() -> None:
    assert row_faults(0, (FIRST, replace(SECOND, before_g=381.2)), ONE_WICK) == (
        Fault(
            path=("burn_time", 0, 1, "before_g"),
            what="piece A gains 1.2 g between session 1 and session 2 (380 g after, 381.2 g before)",
            why="a candle does not gain weight by itself, so one of the two weights is wrong",
            fix="correct after_g and before_g to what the scale showed, or rename the piece if it is another candle",
        ),
    )


@pytest.mark.parametrize("before_g", [379.5, 380.5], ids=["trimmed away", "settled on"])
def test_exactly_half_a_gram_between_sessions_passes(before_g: float) -> None:
    """physics.md D1 (CHOICE)."""
    assert row_faults(0, (FIRST, replace(SECOND, before_g=before_g)), ONE_WICK) == ()


def test_a_session_number_written_twice_is_an_error() -> None:
    assert row_faults(0, (FIRST, replace(SECOND, session=1)), ONE_WICK) == (
        Fault(
            path=("burn_time", 0, 1, "session"),
            what="session 1 of piece A is entered twice",
            why="its hours and weight would count twice",
            fix="session: the number of the burn, counted from 1 for each piece",
        ),
    )


def test_two_pieces_are_not_held_against_each_other() -> None:
    assert row_faults(0, (FIRST, replace(SECOND, piece="B", before_g=500.0, after_g=480.0)), ONE_WICK) == ()


def test_a_flame_over_75_mm_blocks() -> None:
    """standards.md V53: 70 mm passes, 80 mm fails (FOUND-2nd)."""
    tall = replace(SECOND, flame_mm=80.0)

    assert blocking_faults(0, (replace(FIRST, flame_mm=70.0), tall)) == (
        Fault(
            path=("burn_time", 0, 1, "flame_mm"),
            what="the flame was 80 mm high in session 2 of piece A; the limit is 75 mm",
            why="a taller flame fails EN 15493, so no burn hours are printed and no sheet is issued",
            fix="use a smaller wick; test a build that burns safely; until then write status: trial and no "
            "burn_time",
        ),
    )


def test_a_flame_of_exactly_75_mm_passes() -> None:
    assert blocking_faults(0, (replace(FIRST, flame_mm=75.0),)) == ()


def test_a_cracked_vessel_blocks_and_the_fault_says_by_which_words() -> None:
    cracked = replace(FIRST, outcome="fault", note="Cracked at the base")

    assert row_faults(0, (cracked,), ONE_WICK) == ()
    assert blocking_faults(2, (cracked,)) == (
        Fault(
            path=("burn_time", 2, 0, "note"),
            what="the candle cracked in session 1 of piece A: 'Cracked at the base'",
            why="it can set fire to a home, so no burn hours are printed and no sheet is issued",
            fix="test a build that burns safely; until then write status: trial and no burn_time. A fault with a "
            "note that begins 'cracked' always blocks the sheet",
        ),
    )


def test_a_re_ignition_blocks() -> None:
    (fault,) = blocking_faults(0, (replace(FIRST, outcome="fault", note="re-ignited after snuffing"),))

    assert fault.what == "the candle re-ignited in session 1 of piece A: 're-ignited after snuffing'"


def test_a_note_that_mentions_a_crack_in_other_words_is_asked_to_be_plain() -> None:
    assert row_faults(0, (replace(FIRST, note="hairline crack in the jar"),), ONE_WICK) == (
        Fault(
            path=("burn_time", 0, 0, "note"),
            what="the note 'hairline crack in the jar' of session 1 of piece A does not make clear whether the "
            "candle cracked",
            why="a candle that did cannot be sold with burn hours, whatever its rate",
            fix="outcome: fault and a note that begins 'cracked'; if it did not, reword the note",
        ),
    )


def test_a_note_that_begins_plainly_beside_another_outcome_is_asked_about_as_well() -> None:
    (fault,) = row_faults(0, (replace(FIRST, note="reignited twice"),), ONE_WICK)

    assert fault.fix == "outcome: fault and a note that begins 're-ignited'; if it did not, reword the note"


def test_a_wick_that_crackles_is_no_crack() -> None:
    assert row_faults(0, (replace(FIRST, note="crackles nicely"),), ONE_WICK) == ()


def test_the_longest_sound_session_passes_over_faults_drowned_flames_and_tall_ones() -> None:
    sessions = (
        replace(FIRST, hours=3.5),
        replace(SECOND, hours=5, outcome="fault"),
        replace(SECOND, session=3, hours=6, outcome="drowned"),
        replace(SECOND, session=4, hours=7, flame_mm=90),
    )

    assert longest_sound_session_h(sessions) == 3.5
    assert longest_sound_session_h(sessions[1:]) is None


def test_the_full_pool_is_the_slowest_of_the_first_sessions() -> None:
    sessions = (
        replace(SECOND, full_pool_h=3.5),
        replace(FIRST, full_pool_h=2.25),
        replace(FIRST, piece="B", full_pool_h=2.5),
    )

    assert full_pool_h(sessions) == 2.5
    assert full_pool_h((FIRST, SECOND)) is None


@given(order=st.permutations(range(4)))
@settings(max_examples=20)
def test_the_order_of_rows_is_irrelevant(order: list[int]) -> None:
    rows = (FIRST, SECOND, replace(FIRST, piece="B"), replace(SECOND, piece="B", before_g=377.0))
    shuffled = tuple(rows[place] for place in order)

    in_order = [[row.session for row in piece] for piece in pieces_in_order(shuffled)]

    assert in_order == [list(rows[:2]), list(rows[2:])]
    assert [fault.path for fault in row_faults(0, shuffled, ONE_WICK)] == [
        ("burn_time", 0, order.index(3), "before_g")
    ]


@pytest.mark.parametrize(
    ("note", "word"),
    [
        ("glass broke and shattered", "cracked"),
        ("jar broken at the rim", "cracked"),
        ("burst with a bang", "cracked"),
        ("the base split", "cracked"),
        ("wax leaked out", "cracked"),
        ("flared up again", "re-ignited"),
        ("caught fire again on the shelf", "re-ignited"),
        ("relit itself", "re-ignited"),
    ],
)
def test_a_breakage_or_a_second_flame_in_other_words_is_asked_to_be_plain(note: str, word: str) -> None:
    (fault,) = row_faults(0, (replace(FIRST, outcome="fault", note=note),), ONE_WICK)

    assert fault.severity is Severity.ERROR
    assert fault.what == (
        f"the note '{note}' of session 1 of piece A does not make clear whether the candle {word}"
    )


@pytest.mark.parametrize("note", ["relit after a draught", "soot on the rim", "bleak evening, window open"])
def test_other_notes_are_left_alone(note: str) -> None:
    assert row_faults(0, (replace(FIRST, outcome="fault", note=note),), ONE_WICK) == ()


@pytest.mark.parametrize(
    ("row", "of_another_vessel", "of_other_wicks"),
    [
        ({"outcome": "fault", "note": "cracked"}, 0, 1),
        ({"outcome": "fault", "note": "re-ignited"}, 1, 0),
        ({"flame_mm": 80.0}, 1, 0),
    ],
    ids=["crack", "re-ignition", "tall flame"],
)
def test_a_danger_is_told_of_what_it_was_seen_on(
    row: dict[str, str | float], of_another_vessel: int, of_other_wicks: int
) -> None:
    seen = (replace(FIRST, **row),)  # type: ignore[arg-type]  # the columns of one row

    assert len(blocking_faults(0, seen, same_vessel=False)) == of_another_vessel
    assert len(blocking_faults(0, seen, same_wicks=False)) == of_other_wicks
