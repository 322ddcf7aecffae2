"""What may be true of entries but rarely is; and limits without effect."""

from collections.abc import Iterator
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from typing import Final

from generator.model.accepted import check_of
from generator.model.amounts import Share
from generator.model.money import CURRENCIES, Money
from generator.model.shop import Shop
from generator.model.sizes import Status
from generator.problems import Fault, Path, warning
from generator.rules.references import formats_and_sizes

_WHOLE: Final = 100
_NOT_YET: Final = (Status.COMING, Status.TRIAL)


def days_ahead(shop: Shop) -> Iterator[Fault]:
    """What is said to have happened after the shop's day."""
    for id_, candle in shop.candles.items():
        if candle.added and candle.added > shop.as_of and candle.status not in _NOT_YET:
            fix = "added: the day of its first sale, or status: coming"
            yield _ahead((f"candles/{id_}.yaml", "added"), candle.added, shop, fix)
    for file, test in shop.burn_tests.items():
        on = test.notes.tested_on if test.notes else None
        if on and on > shop.as_of:
            beside = f"{file.removesuffix('.csv')}.yaml"
            yield _ahead((beside, "tested_on"), on, shop, "tested_on: the day of the test")
    for id_, recall in shop.recalls.items():
        if recall.on > shop.as_of:
            yield _ahead((f"recalls/{id_}.yaml", "on"), recall.on, shop, "on: the day of the notice")


def _ahead(path: Path, day: object, shop: Shop, fix: str) -> Fault:
    return warning(
        path=path,
        what=f"{path[-1]} is {day}, after as_of ({shop.as_of})",
        why="the year or month may be mistyped; if the day is right, as_of is out of date",
        fix=f"{fix}; or as_of: a later day in maker.yaml",
        check=check_of("ahead", f"{path[-1]}"),
    )


def same_scents(shop: Shop) -> Iterator[Fault]:
    """Two candles that a shopper cannot tell apart by their names."""
    first: dict[str, str] = {}
    for id_, candle in shop.candles.items():
        if candle.status is Status.DISCONTINUED:
            continue
        other = first.setdefault(" ".join(candle.scent.casefold().split()), id_)
        if other != id_:
            yield warning(
                path=(f"candles/{id_}.yaml", "scent"),
                what=f"candles/{other}.yaml is also called '{candle.scent}'",
                why="a shopper who asks for one may be given the other",
                fix="scent: ... (a different name)",
                check=check_of("same-scent", other),
            )


def idle_limits(shop: Shop) -> Iterator[Fault]:
    """A limit above the whole, which no formula could exceed."""
    for id_, wax in shop.waxes.items():
        yield from _idle((f"waxes/{id_}.yaml", "most_fragrance"), wax.most_fragrance)
    for id_, oil in shop.fragrances.items():
        certificate, own = oil.ifra_category_12, oil.own_classification
        yield from _idle((f"fragrances/{id_}.yaml", "ifra_category_12"), certificate)
        yield from _idle((f"fragrances/{id_}.yaml", "own_classification", "at"), own.at if own else None)


def _idle(path: Path, limit: Share | str | None) -> Iterator[Fault]:
    if isinstance(limit, Share) and limit.percent > _WHOLE:
        alone = "; or no restriction, if the certificate says so" if path[-1] == "ifra_category_12" else ""
        yield Fault(
            path=path,
            what=f"{path[-1]} is {limit.percent} %, more than the whole",
            why="it would allow any formula, so too much of an oil would go unnoticed",
            fix=f"{path[-1]}: the share as the supplier gives it{alone}",
        )


def odd_prices(shop: Shop) -> Iterator[Fault]:
    """Prices of zero, and prices with more digits than the currency's coins."""
    home = shop.maker.currency
    if home not in CURRENCIES:
        return
    for at, entry in formats_and_sizes(shop):
        yield from _odd((*at, "price"), entry.price, home)
        yield from _odd((*at, "trade", "price"), entry.trade.price if entry.trade else None, home)
    for number, row in enumerate(shop.prices):
        yield from _odd(("prices.csv", number, "price"), row.price, row.currency)


def _odd(path: Path, price: Money | None, home: str) -> Iterator[Fault]:
    if price is None:
        return
    which = "trade" if "trade" in path else "retail"
    which = f"row {path[1] + 1}" if isinstance(path[1], int) else which
    if price.amount == 0:
        yield warning(
            path=path,
            what=f"{path[-1]} is {price.amount}",
            why="the candle would be offered for nothing",
            fix=f"{path[-1]}: what one costs, or delete this line",
            check=check_of("price-of-nothing", which),
        )
    step = Decimal(1).scaleb(-CURRENCIES[price.currency or home])
    if price.amount != price.amount.quantize(step):
        low, near = (price.amount.quantize(step, rounding=how) for how in (ROUND_DOWN, ROUND_HALF_UP))
        choice = f"{near}, as it would be printed" + (f", or {low}" if low != near else "")
        yield warning(
            path=path,
            what=(
                f"{path[-1]} is {price.amount}, which is finer than the smallest coin of "
                f"{price.currency or home}"
            ),
            why="papers print it rounded, and totals would not match what is printed",
            fix=f"{path[-1]}: {choice}",
            check=check_of("finer-than-a-coin", which),
        )
