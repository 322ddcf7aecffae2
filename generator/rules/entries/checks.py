"""Checks that need more than one entry; a new one is a function and a line in ``CHECKS``."""

from collections.abc import Callable, Iterator, Mapping
from typing import Final

from generator.model.accepted import check_of
from generator.model.candle import Candle
from generator.model.formats import Shared
from generator.model.kinds import KINDS, KindTraits
from generator.model.shop import Shop
from generator.model.sizes import BurnTime, Like, Size, Status
from generator.problems import Fault, Path, warning
from generator.rules.burning.wicks import wick_faults
from generator.rules.entries.food_shapes import food_shape_faults
from generator.rules.entries.maker_checks import the_maker
from generator.rules.entries.plausible_entries import idle_limits, odd_prices, same_scents
from generator.rules.entries.taken_names import (
    repeated_barcodes,
    repeated_stock_codes,
    shared_ids,
    taken_addresses,
)
from generator.rules.hazards.compositions import composition_faults
from generator.rules.hazards.supplier import supplier_faults
from generator.rules.references import formats_and_sizes, sizes
from generator.rules.trade.tax_numbers import tax_number_faults

_POURED_NO_MORE: Final = frozenset({Status.DISCONTINUED, Status.LAST_FEW})


def shop_faults(shop: Shop) -> Iterator[Fault]:
    """Every fault that shows only when entries are compared."""
    for check in CHECKS:
        yield from check(shop)


def _with_formats(shop: Shop) -> Iterator[tuple[Path, Candle, Size, Shared]]:
    """The same without those whose format is missing or has faults, which is reported elsewhere."""
    yield from (one for one in sizes(shop) if one[2].format is None or one[2].format in shop.formats)


def _traits(size: Size, given: Shared) -> KindTraits | None:
    """A size's kind; None where it is missing or has no rules, which is reported elsewhere."""
    kind = size.kind or given.kind
    return KINDS.get(kind) if kind else None


def missing_keys(shop: Shop) -> Iterator[Fault]:
    """A size that lacks a required key which its format does not have either."""
    for at, _, size, given in _with_formats(shop):
        traits = _traits(size, given)
        needed = {
            "kind": ("papers for candles and melts differ", "kind: container"),
            "vessel": ("there would be no net weight", "vessel: ... (the name of a file in content/vessels)"),
            "fill": ("there would be no net weight", "fill: {to: ... mm, level: set or poured}"),
        }
        if traits is not None and traits.takes_wick:
            needed["wick"] = (
                "there would be no burn hours",
                "wick: ... (the name of a file in content/wicks)",
            )
        for key, (why, fix) in needed.items():
            if not getattr(size, key) and not getattr(given, key):
                where = f", and neither does format '{size.format}'" if size.format else ""
                yield Fault(path=at, what=f"{size.stock_code} has no {key}{where}", why=why, fix=fix)


def kinds(shop: Shop) -> Iterator[Fault]:
    """Sizes of a kind that has no rules yet."""
    for at, entry in formats_and_sizes(shop):
        if entry.kind is not None and entry.kind not in KINDS:
            yield Fault(
                path=(*at, "kind"),
                what=f"kind '{entry.kind.value}' is not supported yet",
                why="its weight, hours and warnings follow other rules than those of a container",
                fix=", or ".join(kind.value for kind in KINDS),
            )


def flameless(shop: Shop) -> Iterator[Fault]:
    """A kind without a flame that has a wick, or anything else that belongs to one."""
    for at, _, size, given in sizes(shop):
        kind, traits = size.kind or given.kind, _traits(size, given)
        if kind is None or traits is None or traits.has_flame:
            continue
        written = {
            "wick": size.wick or given.wick,
            "burn_time": size.burn_time,
            "claim_hours": size.claim_hours,
            "longest_session": size.longest_session_h,
        }
        for key, value in written.items():
            if value is None or value == {}:
                continue
            yield Fault(
                path=at if key == "wick" and not size.wick else (*at, key),
                what=f"{size.stock_code} is a {kind.value}, but has a {key}",
                why=f"a {kind.value} is warmed and never lit, so its papers do not mention a flame",
                fix=f"kind: container, or delete {key}",
            )


def borrowed_tests(shop: Shop) -> Iterator[Fault]:
    """A size that borrows its burn tests from one without its own tests, or from itself."""
    written = {size.stock_code: size.burn_time for _, _, size, _ in sizes(shop)}
    for at, _, size, _ in sizes(shop):
        if not isinstance(size.burn_time, Like) or size.burn_time.like not in written:
            continue
        lender = size.burn_time.like
        lent = written[lender]
        if lent is not None and not isinstance(lent, Like):
            continue
        of_its_own = f"itself borrows those of {lent.like}" if lent else "has none of its own"
        own = f"burn_time: burn-tests/{size.stock_code}.csv, once it is tested"
        yield Fault(
            path=(*at, "burn_time", "like"),
            what=f"{size.stock_code} borrows the burn tests of {lender}, which {of_its_own}",
            why="its hours would be printed as untested",
            fix=", or ".join((*(f"burn_time: {{like: {code}}}" for code in _tested(written, lender)), own)),
        )


def _tested(written: Mapping[str, BurnTime | None], lender: str) -> tuple[str, ...]:
    """The stock code at the end of a chain of lenders, if it has its own tests; else a few that have some."""
    met = set()
    while lender not in met:
        met.add(lender)
        lent = written.get(lender)
        if isinstance(lent, Like):
            lender = lent.like
        elif lent is not None:
            return (lender,)
    return tuple(
        code for code, tests in written.items() if tests is not None and not isinstance(tests, Like)
    )[:3]


def empty_candles(shop: Shop) -> Iterator[Fault]:
    """A candle without sizes, or whose last day of sale comes before its first."""
    for id_, candle in shop.candles.items():
        if not candle.sizes:
            yield Fault(
                path=(f"candles/{id_}.yaml", "sizes"),
                what=f"{candle.scent} has no sizes",
                why="its page would have nothing to buy and no safety sheet",
                fix="sizes: [{stock_code: ..., format: ...}]",
            )
        sold = candle.sold
        if sold and sold.from_ and sold.until and sold.until < sold.from_:
            yield Fault(
                path=(f"candles/{id_}.yaml", "sold", "until"),
                what=f"until {sold.until} is before from {sold.from_}",
                why="the candle would never be on sale",
                fix=f"until: a day after {sold.from_}",
            )


def discontinued_materials(shop: Shop) -> Iterator[Fault]:
    """A candle still made from something that can no longer be bought."""
    supplies = {
        id_: f"content/{folder}/{id_}.yaml"
        for folder in ("waxes", "fragrances", "additives", "dyes", "vessels", "wicks")
        for id_, entry in getattr(shop, folder).items()
        if entry.discontinued
    }
    for at, candle, size, given in sizes(shop):
        if (size.status or candle.status) in _POURED_NO_MORE:
            continue
        own = size.ingredients or {}
        poured = [id_ for id_, amount in {**candle.ingredients, **own}.items() if amount.value]
        used = (
            *(((*(at if id_ in own else at[:1]), "ingredients", id_), id_) for id_ in poured),
            *(((*at, "wick"), id_) for id_ in size.wick or given.wick or ()),
            ((*at, "vessel"), size.vessel or given.vessel or ""),
        )
        for path, id_ in used:
            if id_ in supplies:
                yield warning(
                    path=path,
                    what=f"{size.stock_code} needs '{id_}', which is discontinued in {supplies[id_]}",
                    why="the next batch cannot be poured",
                    fix="name what replaces it, or status: last few",
                    check=check_of("discontinued", id_),
                )


def wick_cores(shop: Shop) -> Iterator[Fault]:
    """Wicks that must not be burnt at all."""
    for wick in shop.wicks.values():
        yield from wick_faults(wick)


def missing_prices(shop: Shop) -> Iterator[Fault]:
    """A candle on the shelves without a price."""
    for at, candle, size, given in _with_formats(shop):
        on_sale = (size.status or candle.status) in (Status.CURRENT, Status.LAST_FEW, Status.MADE_TO_ORDER)
        if on_sale and size.price is None and given.price is None:
            yield warning(
                path=at,
                what=f"{size.stock_code} has no price",
                why="the catalogue lists it without one, and the trade sheet without a margin",
                fix="price: ...",
                check="no-price",
            )


def broken_cases(shop: Shop) -> Iterator[Fault]:
    """A minimum order that would break up a case."""
    for at, entry in formats_and_sizes(shop):
        trade = entry.trade
        if trade and trade.case and trade.minimum and trade.minimum % trade.case:
            whole = -(-trade.minimum // trade.case) * trade.case
            yield warning(
                path=(*at, "trade", "minimum"),
                what=f"minimum {trade.minimum} is not a whole number of cases of {trade.case}",
                why="the smallest order would split a case",
                fix=f"minimum: {whole}",
                check="broken-case",
            )


CHECKS: Final[tuple[Callable[[Shop], Iterator[Fault]], ...]] = (
    the_maker,
    missing_keys,
    kinds,
    flameless,
    food_shape_faults,
    borrowed_tests,
    repeated_stock_codes,
    taken_addresses,
    repeated_barcodes,
    empty_candles,
    shared_ids,
    wick_cores,
    discontinued_materials,
    missing_prices,
    odd_prices,
    same_scents,
    idle_limits,
    broken_cases,
    composition_faults,
    supplier_faults,
    tax_number_faults,
)
