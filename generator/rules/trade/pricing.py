"""Retail and trade prices on one basis: what a shop keeps of the price its customer pays."""

from dataclasses import dataclass
from decimal import Decimal

from generator.model.money import Money, rounded
from generator.problems import Fault, warning


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """One candle's prices as recorded; retail includes ``tax_percent`` of tax if any, trade never does.

    ``currency`` is the maker's, assumed where a price names none.
    """

    retail: Money
    trade: Money
    tax_percent: float | None
    currency: str

    @property
    def tax(self) -> Decimal:
        """The tax in the retail price, in percent of the price without it."""
        return Decimal(str(self.tax_percent or 0))

    @property
    def currencies(self) -> tuple[str, str]:
        """The currencies of the retail and of the trade price."""
        return self.retail.currency or self.currency, self.trade.currency or self.currency


def retail_without_tax(retail: Decimal, tax_percent: Decimal) -> Decimal:
    """A retail price without the tax in it, in its currency.

    net = retail / (1 + tax / 100)

    retail: price that a customer pays, in its currency.
    tax_percent: tax on the price without it, %.
    Holds for one tax on the whole price.
    Source: arithmetic of a tax-inclusive price (COMPUTED).

    >>> retail_without_tax(Decimal("24.00"), Decimal(20))
    Decimal('20.00')
    """
    return retail * 100 / (100 + tax_percent)


def margin_percent(retail: Decimal, trade: Decimal, tax_percent: Decimal) -> Decimal:
    """What a shop keeps of the price without tax, in %.

    margin = 100 (net - trade) / net, with net = retail / (1 + tax / 100)

    retail: price that a customer pays, in its currency.
    trade: price that the shop pays, without tax, in the same currency.
    tax_percent: tax on the price without it, %.
    Holds for a retail price above nothing.
    Source: the usual margin on the selling price (PRACTICE).

    >>> margin_percent(Decimal("24.00"), Decimal("12.00"), Decimal(20))
    Decimal('40')
    """
    return 100 - trade * (100 + tax_percent) / retail


def trade_margin_percent(prices: Prices) -> Decimal | None:
    """The shop's margin, unrounded; None where the currencies differ or the candle costs nothing."""
    retail, trade = prices.currencies
    if retail != trade or prices.retail.amount == 0:
        return None
    return margin_percent(prices.retail.amount, prices.trade.amount, prices.tax)


def trade_price_faults(prices: Prices) -> tuple[Fault, ...]:
    """Whether a shop would pay more than its customer, or in another currency."""
    retail_in, trade_in = prices.currencies
    if retail_in != trade_in:
        what = f"the trade price is in {trade_in}, but the retail price is in {retail_in}"
        fix = f"... {retail_in}"
        return (_fault(what, "no margin can be worked out", fix),)
    if prices.retail.amount == 0:
        return ()  # That it costs nothing is reported separately.
    most = rounded(retail_without_tax(prices.retail.amount, prices.tax), retail_in)
    if prices.trade.amount <= most:
        return ()
    basis = (
        f"the retail price without its {prices.tax.normalize():f} % tax" if prices.tax else "the retail price"
    )
    what = f"the trade price {prices.trade.amount} {trade_in} is above {basis}, {most} {retail_in}"
    return (_fault(what, "a shop would lose money on it", f"less than {most}"),)


def _fault(what: str, why: str, fix: str) -> Fault:
    return warning(
        path=("trade", "price"),
        what=what,
        why=why,
        fix=f"price: {fix}",
        check="trade-price",
    )
