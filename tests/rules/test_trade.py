"""What a buyer pays. The sums are done by hand beside each case; prices and tax rates are invented shops’ own."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.candle import Candle
from generator.model.formats import Format, Trade
from generator.model.kinds import Kind
from generator.model.maker import Contact
from generator.model.money import Money
from generator.model.shop import Shop
from generator.model.sizes import Size, Status
from generator.model.trade import Buyer, Offer, PriceLevel, PriceRow, Rounding, Terms, smallest_orders
from generator.rules.trade.prices import offers_by_buyer, prices_by_level, prices_for, rounded_to
from generator.rules.trade.pricing import retail_without_tax
from tests.rules.entries import EMPTY

TERMS = Terms(
    opening=Money(Decimal(150)),
    repeat=Money(Decimal(75)),
    lead_time="10 days",
    payment="With the order.",
    carriage="At cost.",
    returns="None.",
    valid_from=date(2026, 9, 1),
    valid_until=date(2027, 3, 31),
    levels={
        "shop": PriceLevel(off_retail_percent=Decimal(50)),
        "friend": PriceLevel(off_trade_percent=Decimal(10)),
    },
    rounding=Rounding.FIVE_CENTS,
)
TUMBLER = Format(
    id="tumbler",
    kind=Kind.CONTAINER,
    price=Money(Decimal("24.00")),
    trade=Trade(price=Money(Decimal("12.00")), case=6, minimum=12),
)
HOME = Buyer(id="harbour", name="Harbour Stores", country="GB", currency="GBP")
ABROAD = Buyer(id="seomra", name="An Seomra", country="IE", currency="EUR")


def shop_of(*sizes: Size, prices: tuple[PriceRow, ...] = (), **changed: Any) -> Shop:
    """A shop with one scent in these sizes; retail prices hold 20 % of tax."""
    candle = Candle(id="salt", scent="Salt", collection="quay", ingredients={}, sizes=sizes)
    maker = replace(EMPTY.maker, prices_include_tax_percent=20.0)
    formats: Mapping[str, Format] = {"tumbler": TUMBLER}
    shop = replace(EMPTY, maker=maker, candles={"salt": candle}, formats=formats, terms=TERMS, prices=prices)
    return replace(shop, **changed)


def row(list_: str, price: str, **given_: Any) -> PriceRow:
    """A price of all tumblers in euros, unless other things are given."""
    which = {} if "stock_code" in given_ else {"format": "tumbler"}
    written = {"currency": "EUR", **which, **given_}
    return PriceRow(list=list_, price=Money(Decimal(price)), **written)


def only(shop: Shop, buyer: Buyer) -> Offer:
    """The one offer that a buyer is made."""
    (offer,) = prices_for(shop, buyer)
    return offer


SALT = Size(stock_code="SA-30", format="tumbler")


@pytest.mark.parametrize(
    ("level", "trade", "margin", "source"),
    [
        (None, "12.00", "40", "trade price"),  # 24.00 / 1.2 = 20.00; (20 - 12) / 20
        ("shop", "10.00", "50", "level"),  # half of 20.00
        ("friend", "10.80", "46", "level"),  # 12.00 less a tenth; (20 - 10.80) / 20
    ],
    ids=["without a level", "off retail without its tax", "off trade"],
)
def test_a_buyer_pays_by_its_level(level: str | None, trade: str, margin: str, source: str) -> None:
    offer = only(shop_of(SALT), replace(HOME, level=level))

    assert offer.trade == Money(Decimal(trade), "GBP")
    assert offer.retail == Money(Decimal("24.00"), "GBP")
    assert offer.margin_percent == Decimal(margin)
    assert offer.retail_tax_percent > 0
    assert (offer.source, offer.case, offer.minimum) == (source, 6, 12)


def test_the_buyers_own_list_comes_before_its_level_and_a_code_before_its_format() -> None:
    prices = (
        row("summer", "11.00", currency="GBP"),
        row("summer", "10.50", currency="GBP", stock_code="SA-30"),
    )
    buyer = replace(HOME, level="shop", price_list="summer")

    offers = prices_for(shop_of(SALT, replace(SALT, stock_code="SB-30"), prices=prices), buyer)

    assert [(offer.stock_code, str(offer.trade)) for offer in offers] == [
        ("SA-30", "10.50 GBP"),
        ("SB-30", "11.00 GBP"),
    ]


def test_no_price_is_ever_converted() -> None:
    assert prices_for(shop_of(SALT), ABROAD) == ()


def test_prices_abroad_come_from_the_lists_and_their_margin_is_without_the_tax_of_the_place() -> None:
    prices = (row("retail", "24.60", includes_tax=Decimal(23)), row("trade", "13.00"))

    offer = only(shop_of(SALT, prices=prices), ABROAD)

    assert (str(offer.trade), str(offer.retail)) == ("13.00 EUR", "24.60 EUR")
    assert offer.margin_percent == 35  # 24.60 / 1.23 = 20.00; (20 - 13) / 20


def test_a_list_price_with_tax_is_paid_without_it() -> None:
    offer = only(shop_of(SALT, prices=(row("trade", "15.99", includes_tax=Decimal(23)),)), ABROAD)

    assert offer.trade == Money(Decimal("13.00"), "EUR")  # 15.99 / 1.23 = 13.00
    assert offer.margin_percent is None


@pytest.mark.parametrize(
    ("from_", "until", "holds"),
    [
        (date(2026, 11, 1), date(2026, 11, 1), True),
        (date(2026, 11, 2), None, False),
        (None, date(2026, 10, 31), False),
    ],
    ids=["on its only day", "the day before", "the day after"],
)
def test_a_list_price_holds_on_its_days(from_: date | None, until: date | None, *, holds: bool) -> None:
    prices = (row("trade", "13.00", from_=from_, until=until),)

    assert bool(prices_for(shop_of(SALT, prices=prices), ABROAD)) is holds


def test_of_two_prices_that_hold_the_later_one_counts() -> None:
    prices = (row("trade", "14.00", from_=date(2026, 10, 1)), row("trade", "13.00"))

    assert only(shop_of(SALT, prices=prices), ABROAD).trade.amount == Decimal("14.00")


@pytest.mark.parametrize("status", [Status.TRIAL, Status.DISCONTINUED], ids=lambda status: status.value)
def test_what_is_not_sold_is_not_offered(status: Status) -> None:
    assert prices_for(shop_of(replace(SALT, status=status)), HOME) == ()


def test_a_buyer_is_offered_what_is_named_for_it_and_nothing_that_is_withheld() -> None:
    shop = shop_of(*(replace(SALT, stock_code=code) for code in ("SA-30", "SB-30", "SC-30")))
    buyer = replace(HOME, offered=("SA-30", "SB-30"), withheld=("SB-30",))

    assert [offer.stock_code for offer in prices_for(shop, buyer)] == ["SA-30"]


def test_an_own_label_is_offered_to_its_buyer_alone_whatever_else_it_is_offered() -> None:
    own = Size(
        stock_code="HO-30",
        format="tumbler",
        made_for="harbour",
        brand="Harbour Own",
        responsible=Contact(name="Harbour", address=("Quay",)),
    )
    other = replace(HOME, id="cliff", offered=("SA-30", "HO-30"))
    shop = shop_of(SALT, own, buyers={"harbour": replace(HOME, offered=()), "cliff": other})

    offered = {id_: [offer.stock_code for offer in offers] for id_, offers in offers_by_buyer(shop).items()}

    assert offered == {"harbour": ["HO-30"], "cliff": ["SA-30"]}


def test_many_buyers_are_offered_what_each_is_offered_alone() -> None:
    buyers = {
        f"b{number}": replace(HOME, id=f"b{number}", level=level, withheld=withheld)
        for number, (level, withheld) in enumerate(
            [("shop", ()), ("friend", ("SA-30",)), (None, ()), ("shop", ("SB-30",))]
        )
    }
    shop = shop_of(SALT, replace(SALT, stock_code="SB-30"), buyers=buyers)

    assert offers_by_buyer(shop) == {id_: prices_for(shop, buyer) for id_, buyer in buyers.items()}


@pytest.mark.parametrize(
    ("exact", "rounding", "currency", "expected"),
    [
        ("9.995", Rounding.CENT, "GBP", "10.00"),
        ("9.994", Rounding.CENT, "GBP", "9.99"),
        ("9.975", Rounding.FIVE_CENTS, "GBP", "10.00"),
        ("9.97", Rounding.FIVE_CENTS, "GBP", "9.95"),
        ("9.95", Rounding.TEN_CENTS, "EUR", "10.00"),
        ("9.25", Rounding.FIFTY_CENTS, "EUR", "9.50"),
        ("9.50", Rounding.WHOLE, "USD", "10.00"),
        ("1249.5", Rounding.CENT, "JPY", "1250"),
    ],
)
def test_prices_round_half_up_to_the_named_step(
    exact: str, rounding: Rounding, currency: str, expected: str
) -> None:
    assert str(rounded_to(Decimal(exact), rounding, currency)) == expected


@given(
    cents=st.integers(min_value=1, max_value=99_999),
    discount=st.integers(min_value=0, max_value=99),
    rounding=st.sampled_from(Rounding),
)
@settings(max_examples=50)
def test_a_level_never_raises_a_price_by_more_than_half_a_step(
    cents: int, discount: int, rounding: Rounding
) -> None:
    retail = Money(Decimal(cents) / 100)
    levels = {"shop": PriceLevel(off_retail_percent=Decimal(discount))}
    shop = shop_of(replace(SALT, price=retail), terms=replace(TERMS, levels=levels, rounding=rounding))

    paid = only(shop, replace(HOME, level="shop")).trade.amount

    assert paid - retail_without_tax(retail.amount, Decimal(20)) <= Decimal("0.5")
    assert paid.as_tuple().exponent == -2


def test_each_level_has_its_price_and_says_where_it_has_none() -> None:
    unpriced = Size(stock_code="SA-22", vessel="tin")
    trial = Size(stock_code="SA-99", format="tumbler", status=Status.TRIAL)

    levels = prices_by_level(shop_of(SALT, unpriced, trial))

    assert levels == {
        "shop": {"SA-30": Decimal("10.00"), "SA-22": None},  # half of 24.00 / 1.2
        "friend": {"SA-30": Decimal("10.80"), "SA-22": None},  # 12.00 less a tenth
    }


def test_a_buyers_own_smallest_order_comes_before_that_of_the_terms() -> None:
    own = replace(HOME, repeat=Money(Decimal(50)))

    assert smallest_orders(TERMS, own, "GBP") == (
        Money(Decimal("150.00"), "GBP"),
        Money(Decimal("50.00"), "GBP"),
    )


def test_a_smallest_order_in_another_currency_says_nothing_to_a_buyer() -> None:
    assert smallest_orders(TERMS, ABROAD, "GBP") == (None, None)
    assert smallest_orders(None, HOME, "GBP") == (None, None)
