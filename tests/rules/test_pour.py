"""What a pour sheet counts, and the batch of the trade as it comes to lie on the bench."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.quantities import MASS
from generator.rules.wax.batches import all_with_fragrance_g, in_steps, melted, wax_key, weighed_out
from tests.rules.entries import OIL, SOY, blended, formula

OUNCE_G = Decimal("28.349523125")
TRADE = formula({SOY: "24 oz"}, {OIL: "2.2 oz"})
"""24 oz of wax with 2.2 oz of fragrance, for four jars of 6.55 oz (common practice, no source)."""


@pytest.mark.parametrize(("step", "wax", "oil"), [("0.1 oz", "24.0", "2.2"), ("0.1 g", "24.00", "2.20")])
def test_the_batch_of_the_trade_comes_to_24_oz_of_wax_and_2_2_of_fragrance(
    step: str, wax: str, oil: str
) -> None:
    batch = melted(4, MASS.number("6.55 oz"), 0.0).value

    weighed = weighed_out(blended(TRADE), batch, MASS.number(step))

    ounces = [round(grams / OUNCE_G, len(wax.partition(".")[2])) for _, grams in weighed]
    assert ounces == [Decimal(wax), Decimal(oil)]


@settings(max_examples=30)
@given(
    st.lists(st.decimals(min_value=0, max_value=9000, places=1), min_size=1, max_size=8),
    st.sampled_from([Decimal("0.1"), OUNCE_G / 100]),
)
def test_the_same_parts_in_another_unit_add_up_to_their_own_total(
    weights: list[Decimal], step: Decimal
) -> None:
    steps = in_steps(weights, step)

    assert sum(steps) == round(sum(weights) / step)
    assert all(abs(whole * step - weight) <= step for whole, weight in zip(steps, weights, strict=True))


def test_waxes_are_alike_when_their_shares_are_whatever_else_is_stirred_in() -> None:
    more_oil = blended(formula({SOY: "500 g"}, {OIL: "60 g"}))

    assert wax_key(blended(TRADE)) == wax_key(more_oil)


def test_a_pot_of_wax_alone_weighs_more_once_the_fragrance_is_in() -> None:
    batch = blended(TRADE)

    scented = all_with_fragrance_g(batch.total_g, batch.wax_g, MASS.number("24 oz"))

    assert scented == pytest.approx(MASS.number("26.2 oz"))
