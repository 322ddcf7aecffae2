"""From entries to one record a stock code: what a size replaces, what it borrows, what a melt leaves out."""

import pytest

from tests.facts.conftest import TESTED, Change, ChangeShop

CANDLE = "candles/wet-garden.yaml"
BURN_TIME = "burn_time: burn-tests/WG-20.csv"
OTHER_WAX = """\
name: Soy container wax
density: {set: 0.90 g/ml, molten: 0.87 g/ml at 75 C}
melts_at: 50 C
"""
SECOND = """
  - stock_code: WG-21
    kind: container
    vessel: amber-20
    wick: cotton-18
    fill: {to: 60 mm, level: set}
    price: 18.00
    """


def _with_second(keys: str) -> Change:
    return (BURN_TIME, f"{BURN_TIME}{SECOND}{keys}")


def test_an_ingredient_of_which_a_size_takes_nothing_is_in_it_no_more(change_shop: ChangeShop) -> None:
    changed = change_shop({
        "waxes/soy.yaml": OTHER_WAX,
        "waxes/rapeseed.yaml": ("melts_at", "discontinued: yes\nmelts_at"),
        CANDLE: (BURN_TIME, "ingredients: {rapeseed: 0 g, soy: 1000 g}"),
    })  # fmt: skip

    assert changed.problems == ()
    assert changed.facts["WG-20"].contains == ("Soy container wax", "Wet garden accord")


def test_a_size_replaces_an_amount_and_keeps_the_other_ingredients(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: (BURN_TIME, "ingredients: {wet-garden: 5 % of wax}")})

    assert changed.facts["WG-20"].fragrance_of_wax_percent == 5.0


def test_a_borrower_takes_the_tests_of_the_lender(change_shop: ChangeShop) -> None:
    changed = change_shop({**TESTED, CANDLE: _with_second("burn_time: {like: WG-20}")})

    assert (changed.hours("WG-21").basis, changed.problems) == ("tested", ())


UNTESTED = "\n    why: its hours would be printed as untested\n    fix: "


def test_a_candle_that_borrows_from_itself_is_an_error(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: (BURN_TIME, "burn_time: {like: WG-20}")})

    assert changed.problems == (
        "candles/wet-garden.yaml:23:23: error: WG-20 borrows the burn tests of WG-20, which itself borrows "
        f"those of WG-20{UNTESTED}burn_time: burn-tests/WG-20.csv, once it is tested",
    )


def test_a_chain_of_borrowers_names_the_candle_that_was_tested(change_shop: ChangeShop) -> None:
    third = SECOND.replace("WG-21", "WG-22")

    changed = change_shop({
        **TESTED,
        CANDLE: _with_second(f"burn_time: {{like: WG-22}}{third}burn_time: {{like: WG-20}}"),
    })  # fmt: skip

    assert changed.problems == (
        "candles/wet-garden.yaml:30:23: error: WG-21 borrows the burn tests of WG-22, which itself borrows "
        f"those of WG-20{UNTESTED}burn_time: {{like: WG-20}}, or burn_time: burn-tests/WG-21.csv, once it is "
        "tested",
    )


def test_a_candle_that_borrows_from_an_untested_one_is_an_error(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: (BURN_TIME, f"notes: nobody burnt one{SECOND}burn_time: {{like: WG-20}}")})

    assert changed.problems == (
        "candles/wet-garden.yaml:30:23: error: WG-21 borrows the burn tests of WG-20, which has none of "
        f"its own{UNTESTED}burn_time: burn-tests/WG-21.csv, once it is tested",
    )


@pytest.mark.parametrize(
    ("key", "value"),
    [("burn_time", "burn-tests/WG-20.csv"), ("claim_hours", "12"), ("longest_session", "3 h")],
)
def test_a_melt_with_a_key_of_a_flame_is_an_error(change_shop: ChangeShop, key: str, value: str) -> None:
    changed = change_shop({
        CANDLE: (
            "    kind: container\n    vessel: amber-20\n    wick: cotton-18\n",
            "    kind: melt\n    looks_like_food: no\n    vessel: amber-20\n",
        ),
    })  # fmt: skip
    changed = change_shop({CANDLE: (BURN_TIME, f"{key}: {value}")})

    assert changed.problems == (
        f"candles/wet-garden.yaml:23:{7 + len(key)}: error: WG-20 is a melt, but has a {key}\n"
        "    why: a melt is warmed and never lit, so its papers do not mention a flame\n"
        f"    fix: kind: container, or delete {key}",
    )


def test_a_test_that_is_missing_moves_no_other_out_of_its_place(change_shop: ChangeShop) -> None:
    changed = change_shop({
        **TESTED,
        "burn-tests/WG-20.yaml": ("cure: 14 days", "cure: 13 days"),
        CANDLE: (BURN_TIME, "burn_time: [burn-tests/lost.csv, burn-tests/WG-20.csv]"),
    })  # fmt: skip

    assert (
        "candles/wet-garden.yaml:23:38: warning: burn-tests/WG-20.csv no longer matches"
        in changed.problems[1]
    )


OWN_CODE = "format: jar\n    hs: 3307.49\n    price: 18.00"


def test_a_customs_code_is_that_of_the_size_then_of_its_format_then_of_its_kind(
    change_shop: ChangeShop,
) -> None:
    assert change_shop({}).facts["WG-20"].hs_heading == "3406"
    in_format = change_shop({
        "formats/jar.yaml": "name: Jar\nhs: 3406.00.00\n", CANDLE: ("price: 18.00", "format: jar\n    price: 18.00"),
    })  # fmt: skip
    assert in_format.facts["WG-20"].hs_heading == "3406.00.00"
    in_size = change_shop({CANDLE: ("format: jar\n    price: 18.00", OWN_CODE)})
    assert (in_size.problems, in_size.facts["WG-20"].hs_heading) == ((), "3307.49")


def test_a_code_that_customs_cannot_read_is_an_error_at_its_place(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: ("price: 18.00", "hs: 34.06\n    price: 18.00")})

    assert changed.problems == (
        "candles/wet-garden.yaml:21:9: error: hs is '34.06'; expected a customs code\n"
        "    why: customs identify the goods by it\n"
        "    fix: hs: ... (its digits, as the customs tariff prints them)",
    )


def test_a_melt_that_nothing_is_said_of_is_an_error_until_it_is_answered(change_shop: ChangeShop) -> None:
    melt = (
        "    kind: container\n    vessel: amber-20\n    wick: cotton-18\n",
        "    kind: melt\n    vessel: amber-20\n",
    )
    change_shop({CANDLE: melt})
    changed = change_shop({CANDLE: (BURN_TIME, "notes: nobody burns it")})

    assert changed.problems[0].startswith(
        "candles/wet-garden.yaml:17:11: error: nothing says whether WG-20 looks like food\n"
    )
    answered = change_shop({CANDLE: ("kind: melt", "kind: melt\n    looks_like_food: no")})
    assert not [problem for problem in answered.problems if "looks like food" in problem]
