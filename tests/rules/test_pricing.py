"""Prices on one basis."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.money import Money
from generator.problems import Fault, Severity
from generator.rules.trade.pricing import (
    Prices,
    margin_percent,
    retail_without_tax,
    trade_margin_percent,
    trade_price_faults,
)

MONEY = st.decimals(min_value="0.01", max_value="999.99", places=2)


def _prices(retail: Money, trade: Money, tax_percent: float | None = None) -> Prices:
    return Prices(retail=retail, trade=trade, tax_percent=tax_percent, currency="GBP")


def _pounds(amount: str) -> Money:
    return Money(Decimal(amount))


def test_the_margin_is_taken_on_the_price_without_tax() -> None:
    """By hand: 24.00 holds 4.00 of tax at 20 %; 20.00 - 12.00 = 8.00, which is 40 % of 20.00."""
    assert trade_margin_percent(_prices(_pounds("24.00"), _pounds("12.00"), 20.0)) == Decimal(40)


def test_without_tax_in_the_price_the_margin_is_taken_on_all_of_it() -> None:
    assert trade_margin_percent(_prices(_pounds("24.00"), _pounds("12.00"))) == Decimal(50)


def test_a_tax_with_a_half_percent_stays_exact() -> None:
    assert retail_without_tax(Decimal("42.70"), Decimal("22.0")) == Decimal(35)
    assert trade_margin_percent(_prices(_pounds("21.10"), _pounds("10.00"), 5.5)) == Decimal(50)


def test_prices_in_two_currencies_have_no_margin_and_are_remarked_on() -> None:
    prices = _prices(_pounds("24.00"), Money(Decimal("12.00"), "EUR"))

    assert trade_margin_percent(prices) is None
    assert trade_price_faults(prices) == (
        Fault(
            path=("trade", "price"),
            what="the trade price is in EUR, but the retail price is in GBP",
            why="no margin can be worked out",
            fix="price: ... GBP",
            severity=Severity.WARNING,
        ),
    )


def test_a_candle_given_away_has_no_margin() -> None:
    assert trade_margin_percent(_prices(_pounds("0"), _pounds("0"))) is None


def test_a_trade_price_above_retail_on_the_same_basis_is_a_warning() -> None:
    assert trade_price_faults(_prices(_pounds("24.00"), _pounds("20.01"), 20.0)) == (
        Fault(
            path=("trade", "price"),
            what="the trade price 20.01 GBP is above the retail price without its 20 % tax, 20.00 GBP",
            why="a shop would lose money on it",
            fix="price: less than 20.00",
            severity=Severity.WARNING,
        ),
    )


def test_without_tax_the_two_prices_are_compared_as_they_stand() -> None:
    (fault,) = trade_price_faults(_prices(_pounds("24.00"), _pounds("24.50")))

    assert fault.what == "the trade price 24.50 GBP is above the retail price, 24.00 GBP"


@pytest.mark.parametrize("trade", ["20.00", "12.00"], ids=["exactly retail without tax", "half"])
def test_a_trade_price_up_to_retail_passes(trade: str) -> None:
    assert trade_price_faults(_prices(_pounds("24.00"), _pounds(trade), 20.0)) == ()


@given(retail=MONEY, trade=MONEY, tax=st.integers(0, 30))
@settings(max_examples=20)
def test_the_margin_taken_off_the_price_gives_the_trade_price_back(
    retail: Decimal, trade: Decimal, tax: int
) -> None:
    margin = margin_percent(retail, trade, Decimal(tax))

    back = retail_without_tax(retail, Decimal(tax)) * (100 - margin) / 100

    assert abs(back - trade) < Decimal("1e-20")
