"""Limits of the law as data, each with its table and mark, in sets valid for a market from a day on."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import Final, Literal, TypeVar

from generator.model.hazard_classes import CODES
from generator.model.markets import LAWS, MARKETS, LawKey, Market, named_on

SourceMark = Literal["FOUND", "FOUND-2nd", "MEMORY", "COMPUTED", "PRACTICE", "CHOICE", "SHEET"]
"""How a figure is known; SHEET is a supplier's own specific limit."""

Solved = TypeVar("Solved")

Way = Literal["oral", "dermal", "gas", "vapour", "dust"]


@dataclass(frozen=True, slots=True)
class Limit:
    """The percentage of the finished mixture from which something applies, inclusive."""

    percent: Fraction
    source: str
    mark: SourceMark


@dataclass(frozen=True, slots=True)
class DoseBand:
    """One category of acute toxicity: doses up to ``most``; without a dose, ``converted`` counts."""

    category: int
    most: Fraction
    converted: Fraction


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RuleSet:
    """The rules of one market from a day on; `rule_set` returns the same object again, so each equals only itself."""

    market: Market
    law: str
    limits: Mapping[str, Limit]
    bands: Mapping[Way, tuple[DoseBand, ...]]
    new_classes: bool
    formula_identifier: bool
    oldest_sheet: date


OLDEST_SHEET_YEARS: Final = 5
"""A safety data sheet older than this says too little to classify by (CHOICE; the law names no age)."""

FRESH_SHEET_YEARS: Final = 3
"""A safety data sheet older than this is asked for anew (CHOICE; the law names no age)."""


def _limits(rows: tuple[tuple[str, str, str, SourceMark], ...]) -> dict[str, Limit]:
    return {
        name: Limit(Fraction(percent), f"CLP Annex I {where}", mark) for name, percent, where, mark in rows
    }


_SENSITISERS: Final = _limits((
    ("Skin Sens. 1", "1.0", "Table 3.4.5", "FOUND"),
    ("Skin Sens. 1B", "1.0", "Table 3.4.5", "FOUND"),
    ("Skin Sens. 1A", "0.1", "Table 3.4.5", "FOUND"),
    ("Resp. Sens. 1", "1.0", "Table 3.4.5", "FOUND"),
    ("Resp. Sens. 1B", "1.0", "Table 3.4.5", "FOUND"),
    ("Resp. Sens. 1A", "0.1", "Table 3.4.5", "FOUND"),
    ("naming Skin Sens. 1", "0.1", "Table 3.4.6", "MEMORY"),
    ("naming Skin Sens. 1B", "0.1", "Table 3.4.6", "MEMORY"),
    ("naming Skin Sens. 1A", "0.01", "Table 3.4.6", "MEMORY"),
    ("naming Resp. Sens. 1", "0.1", "Table 3.4.6", "MEMORY"),
    ("naming Resp. Sens. 1B", "0.1", "Table 3.4.6", "MEMORY"),
    ("naming Resp. Sens. 1A", "0.01", "Table 3.4.6", "MEMORY"),
))  # fmt: skip
_SKIN_AND_EYES: Final = _limits((
    ("Skin Corr. 1", "5", "Table 3.2.3", "FOUND"),
    ("Skin Irrit. 2 by corrosives", "1", "Table 3.2.3", "FOUND"),
    ("Skin Irrit. 2", "10", "Table 3.2.3", "FOUND"),
    ("Eye Dam. 1", "3", "Table 3.3.3", "FOUND"),
    ("Eye Irrit. 2 by corrosives", "1", "Table 3.3.3", "FOUND"),
    ("Eye Irrit. 2", "10", "Table 3.3.3", "FOUND"),
    ("relevant to skin and eyes", "1", "3.2.3.3.1", "FOUND"),
))  # fmt: skip
_ACUTE: Final = _limits((
    ("relevant, categories 1 to 3", "0.1", "Table 1.1", "MEMORY"),
    ("relevant, category 4", "1", "Table 1.1", "MEMORY"),
    ("unknown acute toxicity said", "1", "3.1.3.6.2.2", "MEMORY"),
    ("unknown acute toxicity counted", "10", "3.1.3.6.2.3", "FOUND"),
))  # fmt: skip
_ALONE: Final = _limits((
    ("Muta. 1A", "0.1", "Table 3.5.2", "FOUND"),
    ("Muta. 1B", "0.1", "Table 3.5.2", "FOUND"),
    ("Muta. 2", "1.0", "Table 3.5.2", "FOUND"),
    ("Carc. 1A", "0.1", "Table 3.6.2", "FOUND"),
    ("Carc. 1B", "0.1", "Table 3.6.2", "FOUND"),
    ("Carc. 2", "1.0", "Table 3.6.2", "FOUND"),
    ("Repr. 1A", "0.3", "Table 3.7.2", "FOUND"),
    ("Repr. 1B", "0.3", "Table 3.7.2", "FOUND"),
    ("Repr. 2", "3.0", "Table 3.7.2", "FOUND"),
    ("Lact.", "0.3", "Table 3.7.2", "FOUND"),
    ("STOT SE 1", "10", "Table 3.8.3", "FOUND"),
    ("STOT SE 2 by category 1", "1", "Table 3.8.3", "FOUND"),
    ("STOT SE 2", "10", "Table 3.8.3", "FOUND"),
    ("STOT RE 1", "10", "Table 3.9.4", "FOUND"),
    ("STOT RE 2 by category 1", "1", "Table 3.9.4", "FOUND"),
    ("STOT RE 2", "10", "Table 3.9.4", "FOUND"),
    ("STOT SE 3", "20", "3.8.3.4.5", "FOUND"),
    ("relevant to STOT SE 3", "1", "Table 1.1", "MEMORY"),
    ("Asp. Tox. 1", "10", "3.10.3.3.1", "FOUND"),
    ("relevant to aspiration", "1", "3.10.3.3.1.1", "FOUND"),
))  # fmt: skip
_AQUATIC: Final = _limits((
    ("Aquatic Acute 1", "25", "Table 4.1.1", "FOUND"),
    ("Aquatic Chronic 1", "25", "Table 4.1.2", "FOUND"),
    ("Aquatic Chronic 2", "25", "Table 4.1.2", "FOUND"),
    ("Aquatic Chronic 3", "25", "Table 4.1.2", "FOUND"),
    ("Aquatic Chronic 4", "25", "Table 4.1.2", "FOUND"),
    ("relevant to water, category 1", "0.1", "4.1.3.1", "FOUND"),
    ("relevant to water, categories 2 to 4", "1", "4.1.3.1", "FOUND"),
    ("unknown aquatic toxicity said", "1", "4.1.3.6.1", "MEMORY"),
))  # fmt: skip
_NEW_CLASSES: Final = _limits((
    ("ED HH 1", "0.1", "3.11 (Reg. (EU) 2023/707)", "MEMORY"),
    ("ED HH 2", "1", "3.11 (Reg. (EU) 2023/707)", "MEMORY"),
    ("ED ENV 1", "0.1", "4.2 (Reg. (EU) 2023/707)", "MEMORY"),
    ("ED ENV 2", "1", "4.2 (Reg. (EU) 2023/707)", "MEMORY"),
    ("PBT", "0.1", "4.3 (Reg. (EU) 2023/707)", "MEMORY"),
    ("vPvB", "0.1", "4.3 (Reg. (EU) 2023/707)", "MEMORY"),
    ("PMT", "0.1", "4.4 (Reg. (EU) 2023/707)", "MEMORY"),
    ("vPvM", "0.1", "4.4 (Reg. (EU) 2023/707)", "MEMORY"),
))  # fmt: skip
_COMMON: Final = _SENSITISERS | _SKIN_AND_EYES | _ACUTE | _ALONE | _AQUATIC


def _bands(*rows: tuple[str, str]) -> tuple[DoseBand, ...]:
    return tuple(
        DoseBand(n, Fraction(most), Fraction(counts)) for n, (most, counts) in enumerate(rows, start=1)
    )


BANDS: Final[Mapping[Way, tuple[DoseBand, ...]]] = MappingProxyType({
    "oral": _bands(("5", "0.5"), ("50", "5"), ("300", "100"), ("2000", "500")),
    "dermal": _bands(("50", "5"), ("200", "50"), ("1000", "300"), ("2000", "1100")),
    "gas": _bands(("100", "10"), ("500", "100"), ("2500", "700"), ("20000", "4500")),
    "vapour": _bands(("0.5", "0.05"), ("2", "0.5"), ("10", "3"), ("20", "11")),
    "dust": _bands(("0.05", "0.005"), ("0.5", "0.05"), ("1", "0.5"), ("5", "1.5")),
})  # fmt: skip
"""CLP Annex I Tables 3.1.1 and 3.1.2 (FOUND): mg/kg, mg/kg, ppmV, mg/l, mg/l; upper ends count."""

LIMITS_OF_LAW: Final[Mapping[LawKey, Mapping[str, Limit]]] = {"EU CLP": _COMMON, "GB CLP": _COMMON}
"""The limits of each law, besides those of the new classes."""


@cache
def rule_set(market: Market, on: date, sold_since: date | None = None) -> RuleSet | None:
    """The rules that hold on a day; None where a market's law judges the product and not its recipe.

    ``sold_since`` is the day the candle came on the market, where it is known.
    """
    key = MARKETS[market].law
    if key is None:
        return None
    law, limits = LAWS[key], LIMITS_OF_LAW[key]
    new_classes = _new_classes_count(law.new_classes, on, sold_since)
    return RuleSet(
        market=market,
        law=named_on(law.titles, on),
        limits=MappingProxyType({**limits, **_NEW_CLASSES} if new_classes else limits),
        bands=BANDS,
        new_classes=new_classes,
        formula_identifier=law.formula_identifier,
        oldest_sheet=years_before(on, OLDEST_SHEET_YEARS),
    )


def by_market(
    asked: Iterable[RuleSet], held: Collection[str], solve: Callable[[RuleSet], Solved]
) -> dict[Market, Solved]:
    """The result of each rule set for a mixture with these classes.

    Solving takes milliseconds, and two markets seldom differ for one mixture: it is then done once for both.
    """
    solved: dict[RuleSet, Solved] = {}
    found: dict[Market, Solved] = {}
    for rules in asked:
        alike = next((known for known in solved if _alike(known, rules, held)), rules)
        if alike not in solved:
            solved[alike] = solve(rules)
        found[rules.market] = solved[alike]
    return found


def _alike(one: RuleSet, other: RuleSet, held: Iterable[str]) -> bool:
    """Whether two sets say the same of a mixture with these classes: limits of classes it does not hold are nothing."""
    apart = _told_apart_by(one, other)
    return apart <= CODES.keys() and apart.isdisjoint(held)


@cache
def _told_apart_by(one: RuleSet, other: RuleSet) -> frozenset[str]:
    """The limits, and other criteria for a mixture, in which two sets differ."""
    limits = one.limits.keys() | other.limits.keys()
    differing = {name for name in limits if one.limits.get(name) != other.limits.get(name)}
    others = {name for name in ("bands", "oldest_sheet") if getattr(one, name) != getattr(other, name)}
    return frozenset(differing | others)


def _new_classes_count(days: tuple[date, date] | None, on: date, sold_since: date | None) -> bool:
    """Whether the new classes count for this candle on such a day."""
    return days is not None and on >= new_classes_from(days, sold_since)


def new_classes_from(days: tuple[date, date], sold_since: date | None) -> date:
    """The day from which the new classes count for a candle; one without a first day counts as new."""
    for_new, for_all = days
    return for_new if sold_since is None or sold_since >= for_new else for_all


def years_before(on: date, years: int) -> date:
    """The same day so many years before."""
    # The last of February stands in for a 29th that the earlier year did not have.
    return on.replace(year=on.year - years, day=28 if (on.month, on.day) == (2, 29) else on.day)
