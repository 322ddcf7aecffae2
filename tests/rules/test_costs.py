"""What a candle costs: exact, and what is missing is said."""

from decimal import Decimal
from fractions import Fraction

from generator.model.money import Money, price_per_mass
from generator.rules.trade.unit_costs import CostLine, known_sum, margin, of_pieces, of_weight


def test_a_weight_costs_its_share_of_the_price_exactly() -> None:
    line = of_weight("wax", Fraction(250), price_per_mass("4.10 per kg"), "GBP")

    assert line == CostLine(name="wax", amount=Fraction("1.025"))


def test_a_missing_price_is_said_and_never_nothing() -> None:
    line = of_weight("wax", Fraction(250), None, "GBP")

    assert (line.amount, line.missing) == (None, "price")


def test_a_price_in_another_currency_is_not_added() -> None:
    line = of_pieces("wick", Fraction(1), Money(Decimal("0.10"), "EUR"), "GBP")

    assert (line.amount, line.missing) == (None, "currency")


def test_what_is_known_adds_up_exactly() -> None:
    thirds = [CostLine(name=name, amount=Fraction(1, 3)) for name in "abc"]

    assert known_sum([*thirds, CostLine(name="d", amount=None, missing="price")]) == 1


def test_a_loss_is_a_margin_below_nothing() -> None:
    left = margin(Decimal("8.00"), Fraction(10))

    assert left is not None
    assert (left.kept, left.percent) == (Fraction(-2), Fraction(-25))


def test_a_gift_has_no_margin() -> None:
    assert margin(Decimal(0), Fraction(10)) is None
