"""What section 3 of a safety data sheet leaves open or cannot mean, reported once, at its place."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Final

from generator.model.accepted import check_of
from generator.model.hazard_classes import UNKNOWN, HazardClass
from generator.model.materials import Additive, Constituent, Fragrance
from generator.model.shop import Shop
from generator.problems import Fault, Path, warning
from generator.rules.hazards.ruleset import OLDEST_SHEET_YEARS, rule_set
from generator.rules.hazards.sheet_age import sheet_age_faults

_SKIN_AND_EYE: Final = ("Skin Corr.", "Skin Irrit.", "Eye Dam.", "Eye Irrit.")
"""Sheets give a corrosive substance limits below which it only irritates, for skin and eyes alike (MEMORY)."""

_WHOLE: Final = Decimal(100)


def composition_faults(shop: Shop) -> Iterator[Fault]:
    """Every sheet that is missing, of a wrong day, or at odds with itself, where EU or GB rules apply."""
    rules = [each for market in shop.maker.markets if (each := rule_set(market, shop.as_of))]
    if not rules:
        return
    oldest = max(each.oldest_sheet for each in rules)
    yield from sheet_age_faults(shop, oldest)
    for folder in ("fragrances", "additives", "dyes"):
        for id_, entry in getattr(shop, folder).items():
            at: Path = (f"{folder}/{id_}.yaml",)
            yield from _faults(at, entry, shop.as_of, oldest)


def _faults(at: Path, entry: Fragrance | Additive, today: date, oldest: date) -> Iterator[Fault]:
    section_3 = entry.composition
    if isinstance(section_3, tuple):
        yield from _age(at, entry, today, oldest)
        yield from _whole(at, entry, section_3)
        yield from _repeated(at, section_3)
        for row, constituent in enumerate(section_3):
            yield from _at_odds((*at, "composition", row), constituent)
    elif isinstance(entry, Fragrance):
        yield warning(
            path=at,
            what=f"{entry.name} has no composition",
            why="the hazards of its candles stay unknown, which is not the same as none",
            fix="composition: the lines of section 3 of the supplier's safety data sheet",
        )


def _age(at: Path, entry: Fragrance | Additive, today: date, oldest: date) -> Iterator[Fault]:
    dated = entry.sheet_dated
    if dated is not None and dated > today:
        yield warning(
            path=(*at, "sheet_dated"),
            what=f"the safety data sheet is dated {dated}, which is after {today}",
            why="a date in the future is a mistake, and hides how old the sheet is",
            fix="sheet_dated: the date printed on the sheet",
        )
    if dated is not None and dated < oldest:
        yield warning(
            path=(*at, "sheet_dated"),
            what=(
                f"the safety data sheet is dated {dated}; sheets from before {oldest} are "
                "too old to classify by"
            ),
            why=(
                f"a sheet older than {OLDEST_SHEET_YEARS} years counts as unknown, and so "
                "do the candle's hazards"
            ),
            fix="update sheet_dated, composition and undisclosed from the supplier's current sheet",
        )


def _whole(at: Path, entry: Fragrance | Additive, section_3: tuple[Constituent, ...]) -> Iterator[Fault]:
    if entry.undisclosed_percent is None:
        yield warning(
            path=at,
            what=f"nothing says whether section 3 lists all of {entry.name}",
            why="what is not disclosed may be hazardous, and labels say how much of the candle that is",
            fix="undisclosed: 0 % if section 3 lists everything, or undisclosed: ... % for the rest",
        )
    least = sum((each.share.low_percent for each in section_3), entry.undisclosed_percent or Decimal(0))
    if least > _WHOLE:
        yield warning(
            path=(*at, "composition"),
            what=f"the shares of {entry.name} add up to at least {least:f} %",
            why="one of them was copied wrongly, and the label is calculated from it",
            fix="correct the shares to those in section 3",
        )


def _repeated(at: Path, section_3: tuple[Constituent, ...]) -> Iterator[Fault]:
    """A substance that is on two lines, by its name or one of its numbers."""
    seen: dict[str, int] = {}
    for row, each in enumerate(section_3):
        names = [name for name in (each.cas, each.ec, each.substance.casefold()) if name is not None]
        first = next((seen[name] for name in names if name in seen), None)
        if first is not None:
            yield warning(
                path=(*at, "composition", row, "substance"),
                what=f"{each.substance} is already in line {first + 1} of the composition",
                why="both shares are added up",
                fix="delete one of the two lines, if section 3 gives it once",
                check=check_of("twice", each.substance),
            )
        for name in names:
            seen.setdefault(name, row)


def _at_odds(at: Path, each: Constituent) -> Iterator[Fault]:
    """Unknown hazards, and limits and factors for a class that the constituent does not have."""
    if UNKNOWN in each.hazards:
        yield warning(
            path=(*at, "hazards"),
            what=f"the hazards of {each.substance} are unknown",
            why="so are those of every candle that contains it, and its label cannot be made",
            fix="enter its classes, which the supplier must tell you if you ask",
        )
        return
    families = {_family(hazard) for hazard in each.hazards}
    for place, limit in enumerate(each.limits):
        if _family(limit.hazard) not in families:
            yield _without_its_class((*at, "limits", place), each, f"a limit for {limit.hazard.name}")
    given = {"acute": each.m and each.m.acute, "chronic": each.m and each.m.chronic}
    for key, factor in given.items():
        name = f"Aquatic {key.capitalize()} 1"
        if factor is not None and name not in {hazard.name for hazard in each.hazards}:
            yield _without_its_class((*at, "m", key), each, f"an M-factor for {name}")


def _family(hazard: HazardClass) -> str:
    return "skin and eye" if hazard.kind in _SKIN_AND_EYE else hazard.kind


def _without_its_class(at: Path, each: Constituent, what: str) -> Fault:
    return warning(
        path=at,
        what=f"{each.substance} has {what}, but its hazards do not include that class",
        why="one of the two is missing or copied wrongly, and without the class it counts for nothing",
        fix="correct both to what section 3 gives",
    )
