"""Whether each candle that needs a UFI has one, and whether it still is the mixture that was notified."""

from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from typing import Any, Final

from generator.facts.facts import Facts
from generator.facts.gather import Gathered
from generator.memory import Remembered
from generator.model.markets import law_of
from generator.model.recorded import Recorded
from generator.model.sheet_values import ShareRange
from generator.model.shop import Shop
from generator.problems import Fault, Path, warning
from generator.rules.hazards.label import identifier_due
from generator.rules.hazards.notification import (
    MovedShare,
    components_of,
    moved_shares,
    shares_due,
    told_of,
)
from generator.rules.hazards.recorded_ufis import (
    UfiOfCode,
    each_size,
    made_by_ufi,
    ufi_of_size,
    ways_to_notify,
)

WHY_MOVED: Final = (
    "a recipe that has moved beyond the allowed widths must be notified again, under a new UFI, before it is sold "
    "(CLP Annex VIII part B 4.1, FOUND; the new UFI FOUND-2nd)"
)
_WHY_UFI: Final = (
    "a poison centre finds the recipe by it; a mixture classified for health hazards must be notified"
)
_BOOK: Final = "ufi.csv"


def notification_faults(
    shop: Shop, sizes: Iterable[tuple[Gathered, Facts]], shelf: Remembered[Any] | None = None
) -> Iterator[Fault]:
    """UFIs that are missing, that say another recipe than is poured, and that two recipes bear.

    With the shelf of an earlier time, only recipes and records that have changed are compared.
    """
    shelf = shelf or Remembered()
    made = made_by_ufi(shop)
    identified: dict[str, tuple[UfiOfCode, Path]] = {
        size.stock_code: (found, _path(candle.id, number, own=bool(size.ufi or size.ingredients)))
        for candle, number, size in each_size(shop)
        if (found := ufi_of_size(made, candle, size)) is not None
    }
    recipes: dict[str, Recorded] = {}
    for gathered, facts in sizes:
        code, due = facts.stock_code, tuple(_markets_that_ask(facts))
        if code in identified:
            recipes[code] = gathered.recorded
            found, path = identified[code]
            inputs = ("moved", gathered.recorded, found.notified, found.made)
            moved = shelf.remember(inputs, partial(moved_from_notified, gathered.recorded, found))
            yield from _of_recipe(gathered.recorded, found, path, moved, is_due=bool(due))
        elif due:
            yield _missing(shop, gathered, due[0])
    yield from _without_ufi(shop)
    yield from _borne_twice(identified, recipes)
    yield from _made_twice(shop)


def _path(candle: str, number: int, *, own: bool) -> Path:
    file = f"candles/{candle}.yaml"
    return (file, "sizes", number) if own else (file,)


def _markets_that_ask(facts: Facts) -> Iterator[str]:
    for market, found in facts.hazards.items():
        law = law_of(market)
        if found and law and law.formula_identifier and identifier_due(found.label.codes):
            yield market


def _missing(shop: Shop, gathered: Gathered, market: str) -> Fault:
    return warning(
        path=gathered.origin(("ufi",)),
        what=f"{gathered.recorded.scent} has no ufi, and its label in the {market} needs one",
        why=_WHY_UFI,
        fix=ways_to_notify(shop.maker, "STOCK_CODE"),
    )


def shares_of_recipe(recorded: Recorded) -> Mapping[str, ShareRange]:
    """The components of today's recipe that a notification names, as a record keeps them."""
    return shares_due(components_of(recorded.build.formula))


def moved_from_notified(recorded: Recorded, found: UfiOfCode) -> tuple[MovedShare, ...]:
    """What of today's recipe is no longer as its UFI was notified with, or made for; nothing where nobody knows."""
    if not found.shares:
        return ()
    return moved_shares(found.shares, components_of(recorded.build.formula))


def _of_recipe(
    recorded: Recorded, found: UfiOfCode, path: Path, moved: tuple[MovedShare, ...], *, is_due: bool
) -> Iterator[Fault]:
    at = (*path, "notified") if found.notified and found.notified.shares else (*path, "ufi")
    if moved:
        yield warning(
            path=at,
            what=f"{recorded.scent} is no longer the mixture of UFI {found.ufi}: {told_of(moved)}",
            why=WHY_MOVED,
            fix="restore the recipe; or have today's notified under a new UFI, and record its shares under notified",
        )
    elif is_due and not found.shares:
        yield warning(
            path=at,
            what=f"the shares that UFI {found.ufi} was notified with are not recorded",
            why="without them you are not warned when the recipe moves so far that it must be notified again",
            fix="notified: {by: ..., countries: [...], on: year-month-day, shares: {...: ... %}}; "
            "`wickwright papers notification STOCK_CODE` has the lines",
            check="notified-shares",
        )


def _borne_twice(
    identified: Mapping[str, tuple[UfiOfCode, Path]], recipes: Mapping[str, Recorded]
) -> Iterator[Fault]:
    """One UFI on two recipes, of which none knows what was notified, or the two records differ."""
    first: dict[str, str] = {}
    for code, recorded in recipes.items():
        found, path = identified[code]
        before = first.setdefault(found.ufi, code)
        formulas = recipes[before].build.formula, recorded.build.formula
        if before == code or formulas[0] == formulas[1]:
            continue
        other = identified[before][0].shares
        known = other or shares_of_recipe(recipes[before])
        moved = moved_shares(known, components_of(formulas[1]))
        if (moved and other != found.shares) or (moved and not other):
            yield warning(
                path=(*path, "ufi"),
                what=f"UFI {found.ufi} is also on {before}, which has a different recipe: {told_of(moved)}",
                why="a poison centre looks up one recipe by it, and could treat someone for the wrong one",
                fix="give each recipe its own UFI",
            )


def _without_ufi(shop: Shop) -> Iterator[Fault]:
    entries = [
        ((f"candles/{id_}.yaml",), candle.ufi, candle.notified) for id_, candle in shop.candles.items()
    ]
    sizes = ((_path(candle.id, at, own=True), one.ufi, one.notified) for candle, at, one in each_size(shop))
    for path, ufi, notified in (*entries, *sizes):
        if notified is not None and ufi is None:
            yield warning(
                path=(*path, "notified"),
                what="notified has no ufi beside it",
                why="nothing is compared with the notified shares unless the UFI is recorded in the same place",
                fix="ufi: ....-....-....-...., beside notified",
                check="notified-without-ufi",
            )


def _made_twice(shop: Shop) -> Iterator[Fault]:
    rows: dict[str, int] = {}
    for number, made in enumerate(shop.made_ufis):
        if rows.setdefault(made.ufi, number) != number:
            yield Fault(
                path=(_BOOK, number, "ufi"),
                what=f"UFI {made.ufi} is in the book twice",
                why="no UFI may be given to two recipes",
                fix="keep one of the two rows, and make a new UFI for the other recipe",
            )
