"""Checks of terms and buyers: what they name must exist, and every buyer must have prices."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Final

from generator.model.accepted import check_of
from generator.model.money import Money
from generator.model.shop import Shop
from generator.model.trade import RETAIL_LIST, Buyer, PriceLevel, Terms
from generator.problems import Fault, Path, warning
from generator.rules.references import Folder, IsBroken, folders_of, id_faults, sizes
from generator.rules.trade.prices import prices_for, unpriced_by_buyer

_TERMS: Final = "trade/terms.yaml"
_BUYERS: Final = "trade/buyers.yaml"
_MOST_NAMED: Final = 5
_MONEY_TERMS: Final = {"opening_order": "opening", "repeat_order": "repeat"}


def trade_faults(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """Every fault of the terms, of the buyers, and of the candles that are made for one of them."""
    if shop.terms is not None:
        yield from _terms(shop.terms, shop)
    elif shop.buyers and not is_broken("terms", "*"):
        yield _no_terms()
    yield from _own_labels(shop, is_broken)
    stock_codes = folders_of(shop, is_broken)["stock code"]
    codes = replace(stock_codes, why="the buyer's sheet would not show what you meant")
    made_for = {size.stock_code: size.made_for for _, _, size, _ in sizes(shop)}
    for id_, buyer in shop.buyers.items():
        yield from _names(buyer, shop, is_broken)
        yield from _codes((_BUYERS, id_), buyer, made_for, codes)
        yield from _smallest_orders((_BUYERS, id_), buyer, shop)
    if not any(is_broken(kind, "*") for kind in ("price", "terms", "stock-code")):
        yield from _without_prices(shop)


def _terms(terms: Terms, shop: Shop) -> Iterator[Fault]:
    if terms.valid_until < terms.valid_from:
        yield Fault(
            path=(_TERMS, "until"),
            what=f"until {terms.valid_until} is before from {terms.valid_from}",
            why="no order could ever be placed on these terms",
            fix=f"until: a day after {terms.valid_from}",
        )
    elif not terms.valid_from <= shop.as_of <= terms.valid_until:
        yield _not_valid(terms, shop)
    for name, level in terms.levels.items():
        yield from _level((_TERMS, "levels", name), name, level)
    written = {key for key, field in _MONEY_TERMS.items() if getattr(terms, field) is not None}
    written |= {"lead_time", "payment", "carriage", "returns"} | ({"testers"} if terms.testers else set())
    for number, key in enumerate(terms.enquiry):
        if key not in written:
            yield warning(
                path=(_TERMS, "enquiry", number),
                what=f"enquiry names {key}, which is not in the terms",
                why="the public enquiry page would leave it out",
                fix=f"add {key} above it in this file, or delete it from enquiry",
                check=check_of("not-in-terms", key),
            )


def _not_valid(terms: Terms, shop: Shop) -> Fault:
    day = shop.as_of
    ended = day > terms.valid_until
    key, limit = ("until", terms.valid_until) if ended else ("from", terms.valid_from)
    return warning(
        path=(_TERMS, key),
        what=f"{key} is {limit}, but the shop is shown as of {day}",
        why="buyers' sheets would show prices on terms that do not apply that day",
        fix=f"{key}: {'a day after' if ended else 'a day up to'} {day}",
        check="terms-day",
    )


def _level(path: Path, name: str, level: PriceLevel) -> Iterator[Fault]:
    given = {
        key: discount
        for key, discount in (
            ("off_retail", level.off_retail_percent),
            ("off_trade", level.off_trade_percent),
        )
        if discount is not None
    }
    if len(given) != 1:
        yield Fault(
            path=path,
            what=f"level '{name}' has {'both off_retail and' if given else 'neither off_retail nor'} off_trade",
            why="a buyer's price must come from one of the two",
            fix="off_retail: ... %, or off_trade: ... %",
        )
    for key, discount in given.items():
        if discount >= 100:
            yield Fault(
                path=(*path, key),
                what=f"{key} is {discount} %",
                why="the buyer would be charged nothing or less",
                fix=f"{key}: less than 100 %",
            )


def _no_terms() -> Fault:
    return Fault(
        path=(_BUYERS,),
        what=f"there are buyers, but no {_TERMS}",
        why="every buyer's sheet prints the terms and how long its prices are valid",
        fix=f"create {_TERMS} with the keys lead_time, payment, carriage, returns, from and until",
    )


def _names(buyer: Buyer, shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """A level and a price list that do not exist."""
    at = (_BUYERS, buyer.id)
    if buyer.level is not None and shop.terms is not None:
        levels = Folder(
            name="level",
            where=f"content/{_TERMS}",
            ids={id_: id_ for id_ in shop.terms.levels},
            why="the buyer's prices could not be worked out",
        )
        yield from id_faults((*at, "level"), buyer.level, levels)
    if buyer.price_list is not None and not is_broken("price", "*"):
        lists = Folder(
            name="price list",
            where="content/prices.csv",
            ids={row.list: row.list for row in shop.prices if row.list != RETAIL_LIST},
            why="the buyer would be shown prices other than those agreed",
        )
        yield from id_faults((*at, "price_list"), buyer.price_list, lists)


def _codes(at: Path, buyer: Buyer, made_for: Mapping[str, str | None], codes: Folder) -> Iterator[Fault]:
    """Stock codes that do not exist, or that the buyer may not have."""
    for key, written in (("offered", buyer.offered or ()), ("withheld", buyer.withheld)):
        for number, code in enumerate(written):
            yield from id_faults((*at, key, number), code, codes)
            if made_for.get(code) not in (None, buyer.id):
                yield Fault(
                    path=(*at, key, number),
                    what=f"{code} carries the own label of '{made_for[code]}'",
                    why="no other buyer is shown it",
                    fix="use another stock code, or delete it here",
                )
    for code in buyer.offered or ():
        if code in buyer.withheld:
            yield warning(
                path=(*at, "withheld", buyer.withheld.index(code)),
                what=f"{code} is both offered and withheld",
                why="the buyer's sheet leaves it out, whichever you meant",
                fix="keep the code in one of the two lists",
                check=check_of("withheld", code),
            )


def _smallest_orders(at: Path, buyer: Buyer, shop: Shop) -> Iterator[Fault]:
    for key, field in _MONEY_TERMS.items():
        own: Money | None = getattr(buyer, field)
        if own is not None and own.currency not in (None, buyer.currency):
            yield Fault(
                path=(*at, key),
                what=f"{key} is in {own.currency}, but the buyer pays in {buyer.currency}",
                why=(
                    "prices are never converted, so the sheet could not say how much is missing "
                    "to the minimum"
                ),
                fix=f"{key}: the amount in {buyer.currency}",
            )
        general: Money | None = getattr(shop.terms, field, None)
        meant = (general.currency or shop.maker.currency) if general else buyer.currency
        if own is None and general is not None and meant != buyer.currency:
            yield warning(
                path=at,
                what=f"'{buyer.id}' pays in {buyer.currency}, but the terms give {key} only in {meant}",
                why="prices are never converted, so the buyer's sheet cannot state a minimum order",
                fix=f"{key}: the amount in {buyer.currency}",
                check=check_of("no-smallest-order", key),
            )


def _own_labels(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    buyers = Folder(
        name="buyer",
        where=f"content/{_BUYERS}",
        ids={id_: buyer.name for id_, buyer in shop.buyers.items()},
        why="the candle would be on no one's sheet",
        kinds=("buyer",),
        is_broken=is_broken,
    )
    for at, _, size, _ in sizes(shop):
        if size.made_for is None:
            keys = ("brand", "responsible", "public")
            yield from (_for_nobody(at, size.stock_code, key) for key in keys if getattr(size, key))
            continue
        yield from id_faults((*at, "made_for"), size.made_for, buyers)
        for key, example in _OWN_LABEL.items():
            if getattr(size, key) is None:
                yield Fault(
                    path=(*at, "made_for"),
                    what=f"{size.stock_code} is made for '{size.made_for}', but has no {key}",
                    why="its label and safety sheet must say whose candle it is and who answers for it",
                    fix=f"{key}: {example}",
                )


_OWN_LABEL: Final[Mapping[str, str]] = {
    "brand": "...",
    "responsible": "{name: ..., address: [..., ...]}",
}


def _for_nobody(at: Path, code: str, key: str) -> Fault:
    return Fault(
        path=(*at, key),
        what=f"{code} has {key}, but no made_for",
        why="only a candle made for one buyer carries another name",
        fix=f"made_for: ... (a key of content/{_BUYERS}), or delete {key}",
    )


def _without_prices(shop: Shop) -> Iterator[Fault]:
    """Buyers whose sheet would be empty or have gaps; candles are named as far as they fit on a line.

    A price that comes from a missing or faulty format is reported with that.
    """
    unpriced = unpriced_by_buyer(shop)
    untold = {
        size.stock_code
        for _, _, size, _ in sizes(shop)
        if size.format is not None and size.format not in shop.formats
    }
    for id_, buyer in shop.buyers.items():
        yield from _list_out_of_date(buyer, shop)
        lacking = tuple(code for code in unpriced[id_] if code not in untold)
        if lacking:
            at_home = buyer.currency == shop.maker.currency
            yield _gap(
                buyer, lacking, all_of_them=not untold and not prices_for(shop, buyer), at_home=at_home
            )


def _gap(buyer: Buyer, lacking: tuple[str, ...], *, all_of_them: bool, at_home: bool) -> Fault:
    named = ", ".join(lacking[:_MOST_NAMED]) + (" ..." if len(lacking) > _MOST_NAMED else "")
    return warning(
        path=(_BUYERS, buyer.id, "currency"),
        what=f"'{buyer.id}' has no prices in {buyer.currency}" + ("" if all_of_them else f" for {named}"),
        why=f"prices are never converted, so the buyer's sheet {'is empty' if all_of_them else 'leaves them out'}",
        fix=(
            "add trade: {price: ..., case: ..., minimum: ...} to each of those sizes; or " if at_home else ""
        )
        + (
            f"add rows in {buyer.currency} to prices.csv, in the lists trade and retail or in the buyer's own"
        ),
        check="unpriced",
    )


def _list_out_of_date(buyer: Buyer, shop: Shop) -> Iterator[Fault]:
    """A buyer's list whose prices in its currency all ended, or have yet to begin."""
    day = shop.as_of
    own = [row for row in shop.prices if (row.list, row.currency) == (buyer.price_list, buyer.currency)]
    if own and not any(row.holds_on(day) for row in own):
        yield warning(
            path=(_BUYERS, buyer.id, "price_list"),
            what=f"no price of list '{buyer.price_list}' in {buyer.currency} is valid on {day}",
            why="the buyer would be shown prices other than those agreed",
            fix=f"add rows to prices.csv whose from and until include {day}",
            check="list-day",
        )
