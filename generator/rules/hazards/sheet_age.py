"""Suppliers' sheets that may not say all that a candle is classified by: old, overtaken by law, or of another law."""

from collections.abc import Iterator, Mapping
from datetime import date

from generator.model.markets import Market, law_of
from generator.model.materials import Additive, Fragrance
from generator.model.shop import Shop
from generator.problems import Fault, Path, warning
from generator.rules.hazards.ruleset import FRESH_SHEET_YEARS, new_classes_from, years_before


def sheet_age_faults(shop: Shop, oldest: date) -> Iterator[Fault]:
    """Every sheet to ask for anew; of one before ``oldest``, which counts for nothing, more is told elsewhere.

    Of the changes of law only those count that may add a class to any substance. A list of substances that are
    classified anew (the 22nd ATP from 2026-05-01, the 23rd from 2027-02-01, FOUND-2nd) is none: nobody has yet
    told which of them are in fragrance oils.
    """
    today = shop.as_of
    asked = years_before(today, FRESH_SHEET_YEARS)
    in_force = _changes_by_material(shop)
    for folder in ("fragrances", "additives", "dyes"):
        for id_, entry in getattr(shop, folder).items():
            at: Path = (f"{folder}/{id_}.yaml",)
            if entry.sheet_for is not None and law_of(entry.sheet_for) is None:
                yield _of_no_law(at, entry, shop.maker.markets)
            if entry.sheet_dated is None or not isinstance(entry.composition, tuple):
                continue
            if oldest <= entry.sheet_dated < asked:
                yield _old(at, entry.sheet_dated)
            overtaken = {
                market: day for market, day in in_force.get(id_, {}).items() if entry.sheet_dated < day
            }
            if overtaken and entry.sheet_dated >= oldest:
                yield _overtaken(at, entry, overtaken)


def _changes_by_material(shop: Shop) -> Mapping[str, Mapping[Market, date]]:
    """For each material the days from which new classes count for a candle that holds it, the last by market."""
    found: dict[str, dict[Market, date]] = {}
    for market in shop.maker.markets:
        law = law_of(market)
        if law is None or law.new_classes is None:
            continue
        for candle in shop.candles.values():
            day = new_classes_from(law.new_classes, candle.added)
            if day > shop.as_of:
                continue
            formulas = (candle.ingredients, *(size.ingredients or {} for size in candle.sizes))
            for id_ in (id_ for formula in formulas for id_ in formula):
                days = found.setdefault(id_, {})
                days[market] = max(days.get(market, day), day)
    return found


def _of_no_law(at: Path, entry: Fragrance | Additive, markets: tuple[Market, ...]) -> Fault:
    """A US sheet (29 CFR 1910.1200) has no classes for water, and other limits for sensitisers (FOUND-2nd)."""
    asked = " or ".join(market for market in markets if law_of(market) is not None)
    return warning(
        path=(*at, "sheet_for"),
        what=f"the data sheet of {entry.name} is for the {entry.sheet_for} and cannot classify a candle for {asked}",
        why="it omits hazards to water and uses other limits, so the hazards of its candles stay unknown",
        fix=f"update composition, sheet_dated and sheet_for from the supplier's sheet for {asked}",
    )


def _old(at: Path, dated: date) -> Fault:
    return warning(
        path=(*at, "sheet_dated"),
        what=f"the safety data sheet is dated {dated}, more than {FRESH_SHEET_YEARS} years ago",
        why="suppliers change their oils and sheets, and the label is worked out from this one",
        fix="ask the supplier for the current sheet, then update sheet_dated and composition",
        check="old-sheet",
    )


def _overtaken(at: Path, entry: Fragrance | Additive, overtaken: Mapping[Market, date]) -> Fault:
    """New classes are those for hormones and for what stays in nature (Reg. (EU) 2023/707; days: ``model.markets``)."""
    day = max(overtaken.values())
    return warning(
        path=(*at, "sheet_dated"),
        what=f"the safety data sheet is dated {entry.sheet_dated}; new hazard classes apply from {day}",
        why="it may lack a class of Regulation (EU) 2023/707 that a label "
        f"in the {' and the '.join(overtaken)} has had to show since then",
        fix="ask the supplier whether these classes apply, then update sheet_dated and composition",
        check="sheet-before-new-classes",
    )
