"""What a shop's burn tests come to: which speak for a candle, which forbid its hours, what is said of the others."""

import pytest

from tests.facts.conftest import TESTED, THREE_PIECES, Change, ChangeShop

CANDLE = "candles/wet-garden.yaml"
NOTES = "burn-tests/WG-20.yaml"
BURN_TIME = "burn_time: burn-tests/WG-20.csv"
CRACKED = f"{THREE_PIECES}D,1,4,400,380,fault,cracked at the base\n"
OTHER_SCENT = """\
scent: Dry Garden
collection: hearth
ingredients: {rapeseed: 1000 g, dry-garden: 8 % of wax}
make: {heat_to: 85 C, fragrance_at: 75 C, pour_at: 60 C, cure: 14 days}
sizes:
  - stock_code: DG-20
    kind: container
    vessel: amber-20
    wick: cotton-18
    fill: {to: 60 mm, level: set}
    price: 18.00
    burn_time: {like: WG-20}
"""
OTHER_OIL = """\
name: Dry garden accord
density: 0.97 g/ml
flash_point: 94 C
composition:
  - {substance: Linalool, cas: 78-70-6, ec: 201-134-4, share: 1-5 %, hazards: [Skin Sens. 1B H317]}
undisclosed: 0 %
"""


def test_three_whole_pieces_of_this_very_candle_are_a_test(change_shop: ChangeShop) -> None:
    changed = change_shop(TESTED)

    assert (changed.hours().basis, changed.hours().claim, changed.problems) == ("tested", 27, ())


@pytest.mark.parametrize(
    ("now", "told"),
    [
        ({}, 1),
        ({NOTES: ("cure: 14 days", "cure: 13 days")}, 2),
        ({NOTES: ("to: 60 mm", "to: 30 mm")}, 2),
    ],
    ids=["as tested", "cured less", "filled less"],
)
def test_a_cracked_vessel_blocks_whatever_else_moved(
    change_shop: ChangeShop, now: dict[str, Change], told: int
) -> None:
    changed = change_shop({"burn-tests/WG-20.csv": CRACKED, **now})

    assert changed.hours().claim is None
    assert len(changed.problems) == told
    assert changed.problems[0].startswith(
        "burn-tests/WG-20.csv:26:21: error: the candle cracked in session 1 of piece D: 'cracked at the base'"
    )


def test_a_test_that_no_longer_matches_names_what_moved(change_shop: ChangeShop) -> None:
    changed = change_shop({**TESTED, NOTES: ("cure: 14 days", "cure: 13 days")})

    assert changed.hours().basis == "untested"
    assert changed.facts["WG-20"].burn_test.moved == ("burn-tests/WG-20.csv: cure was 13 days, is 14 days",)


def test_an_untold_piece_that_drowned_is_not_outweighed_by_a_sound_test(change_shop: ChangeShop) -> None:
    drowned = "".join(THREE_PIECES.splitlines(keepends=True)[:3]) + "A,3,4,360,340,drowned,\n"

    changed = change_shop({
        **TESTED,
        "burn-tests/X.csv": drowned,
        CANDLE: (BURN_TIME, "burn_time: [burn-tests/WG-20.csv, burn-tests/X.csv]"),
    })  # fmt: skip

    assert changed.hours().claim is None
    assert any(
        "burn-tests/X.csv:4:15: warning: piece A drowned with" in problem for problem in changed.problems
    )


@pytest.mark.parametrize(
    ("written", "now", "problem"),
    [
        (
            "fill: {to: 60 mm, level: set}",
            "fill: {to: 600 mm, level: set}",
            "burn-tests/WG-20.yaml:6:14: error: fill to 600 mm is above the vessel's inside height of 78 mm\n"
            "    why: the printed wax weight would be more than the vessel holds\n"
            "    fix: to: at most 78 mm, or correct the vessel",
        ),
        (
            "wet-garden: 8 % of wax",
            "wet-garden: 100 % of total",
            "burn-tests/WG-20.yaml:7:47: error: the shares of the total add up to 100 %\n"
            "    why: there would be no room for the wax\n"
            "    fix: wet-garden: a smaller share of the total",
        ),
        (
            "rapeseed: 1000 g, ",
            "",
            "burn-tests/WG-20.yaml:7:16: error: the recipe has no wax\n"
            "    why: every share is of the wax or of the total\n"
            "    fix: add a wax and its amount, as {...: ... g}",
        ),
    ],
    ids=["above the rim", "nothing but oil", "no wax"],
)
def test_a_candle_that_cannot_have_been_tested_speaks_for_none(
    change_shop: ChangeShop, written: str, now: str, problem: str
) -> None:
    changed = change_shop({**TESTED, NOTES: (written, now)})

    assert changed.hours().basis == "untested"
    assert changed.problems == (problem,)


def test_a_tested_candle_without_its_fill_is_remarked_on_once(change_shop: ChangeShop) -> None:
    changed = change_shop({
        **TESTED,
        NOTES: ("  fill: {to: 60 mm, level: set}\n", ""),
        "fragrances/dry-garden.yaml": OTHER_OIL,
        "candles/dry-garden.yaml": OTHER_SCENT,
    })  # fmt: skip

    assert changed.hours().basis == "tested"
    assert changed.problems == (
        "burn-tests/WG-20.yaml:4:3: warning: tested_as of burn-tests/WG-20.csv has no fill\n"
        "    why: today's fill is assumed, so a changed fill would go unnoticed and the hours would be "
        "wrong\n"
        "    fix: fill: {to: ... mm, level: set or poured}, as the tested candles were filled\n"
        "    or, if it is right as it is: accepted: {tested-fill: ...}",
    )


def test_a_test_borrowed_from_another_scent_is_provisional_without_a_remark(change_shop: ChangeShop) -> None:
    changed = change_shop({
        **TESTED,
        "fragrances/dry-garden.yaml": OTHER_OIL,
        "candles/dry-garden.yaml": OTHER_SCENT,
    })  # fmt: skip

    assert (changed.hours("DG-20").basis, changed.problems) == ("provisional", ())


def test_two_files_of_other_pieces_count_together(change_shop: ChangeShop) -> None:
    lines = THREE_PIECES.splitlines(keepends=True)

    changed = change_shop({
        "burn-tests/WG-20.csv": "".join(lines[:9]),
        "burn-tests/more.csv": "".join((lines[0], *lines[9:])),
        "burn-tests/more.yaml": "tested_as: {vessel: amber-20, wick: cotton-18, fill: {to: 60 mm, level: set}, "
        "ingredients: {rapeseed: 1000 g, wet-garden: 8 % of wax}, cure: 14 days}\n",
        CANDLE: (BURN_TIME, "burn_time: [burn-tests/WG-20.csv, burn-tests/more.csv]"),
    })  # fmt: skip

    assert (changed.hours().basis, changed.hours().claim, changed.problems) == ("tested", 27, ())


def test_a_makers_limit_at_fault_is_told_alone_and_not_held_against_the_rows(change_shop: ChangeShop) -> None:
    changed = change_shop({**TESTED, CANDLE: (BURN_TIME, f"{BURN_TIME}\n    longest_session: 0.1 h")})

    assert changed.facts["WG-20"].session_limit_h == 4.0
    assert [problem.splitlines()[0] for problem in changed.problems] == [
        "candles/wet-garden.yaml:24:22: error: longest_session is 0.1 h, less than 1 h"
    ]
