"""The candle as made: its poured line, its weighings, its level."""

from tests.facts.conftest import ChangeShop

CANDLE = "candles/wet-garden.yaml"
FILL = "fill: {to: 60 mm, level: set}"


def test_a_line_poured_at_another_temperature_than_the_batch_is_remarked_on(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: (FILL, "fill: {to: 60 mm, level: poured, at: 80 C}")})

    assert (
        "candles/wet-garden.yaml:20:42: warning: at is 80 C, but pour_at of the batch is 60 C\n"
        "    why: hotter wax is lighter, so a line poured at another temperature weighs something else\n"
        "    fix: at: 60 C, or pour_at: 80 C\n"
        "    or, if it is right as it is: accepted: {two-pours: ...}"
    ) in changed.problems


def test_a_line_poured_below_the_melting_point_is_remarked_on(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: (FILL, "fill: {to: 60 mm, level: poured, at: 45 C}")})

    assert any("warning: at is 45 C; the wax melts at 50 C" in problem for problem in changed.problems)


def test_a_set_line_is_told_to_other_programs_as_written(change_shop: ChangeShop) -> None:
    changed = change_shop({})

    assert changed.facts["WG-20"].level_set_mm == 60.0


def test_weighings_of_more_wax_than_the_vessel_holds_leave_no_figures(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: (FILL, f"{FILL}\n    weighed: [600 g, 600 g, 600 g, 600 g, 600 g]")})

    assert changed.facts == {}
    assert changed.problems[0].startswith("candles/wet-garden.yaml:21:14: error: weighed 600.0 g on average")


def test_scattered_weighings_that_contradict_the_pour_leave_the_weight_an_estimate(
    change_shop: ChangeShop,
) -> None:
    changed = change_shop({
        CANDLE: (FILL, "fill: {weight: 200 g}\n    declared: 179 g\n    weighed: [180 g, 150 g, 190 g, 180 g, 196 g]")
    })  # fmt: skip

    assert changed.facts["WG-20"].declared_status == "estimated"


def test_weighings_of_vessel_and_candle_are_explained_exactly(change_shop: ChangeShop) -> None:
    changed = change_shop({CANDLE: (FILL, f"{FILL}\n    weighed: [{{empty: 285.2 g, full: 470.3 g}}]")})

    (net,) = [figure for figure in changed.facts["WG-20"].figures if figure.name == "net_weight_g"]
    assert [item.value for item in net.inputs] == [185.1]
