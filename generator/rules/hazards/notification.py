"""What a notification to poison centres asks of a candle, and how far its recipe may move before it needs another.

Source: CLP Annex VIII Part B 3.3, 3.4, 3.8 and 4.1 (FOUND, consolidated 1 September 2025), unless marked otherwise.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import Final

from generator.model.hazard_classes import UNKNOWN, HazardClass
from generator.model.recorded import Formula, Role
from generator.model.sheet_values import ShareRange
from generator.rules.hazards.mixture import composition, mixture
from generator.rules.wax.blend import FORMULAS_KEPT, blend_of
from generator.rules.wax.portions import Ingredient

DUE_PERCENT: Final = Fraction(1, 10)
"""From this share on a component with a health or physical hazard is notified (3.3 (a))."""

DUE_HARMLESS_PERCENT: Final = Fraction(1)
"""From this share on any other component is notified (3.3 (b))."""

_NOT_BODILY: Final = ("Aquatic", "Ozone", "ED ENV", "PBT", "vPvB", "PMT", "vPvM", "EUH066")
"""Classes that are neither health nor physical ones; EUH066 is no class."""

_TABLE_4: Final = ((25, Fraction(5, 100)), (10, Fraction(10, 100)), (Fraction(5, 2), Fraction(20, 100)))
_TABLE_4_REST: Final = Fraction(30, 100)
"""How far a share that was notified exactly may move, as a part of itself, above so many percent (4.1 Table 4)."""

_MAJOR: Final = (
    "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "STOT SE 1", "STOT SE 2", "STOT RE 1", "STOT RE 2",
    "Skin Corr. 1", "Skin Corr. 1A", "Skin Corr. 1B", "Skin Corr. 1C", "Eye Dam. 1",
)  # fmt: skip
"""Classes of major concern for emergencies (3.4.1, FOUND-2nd)."""

_Band = tuple[Fraction, Fraction, Fraction]


def _bands(*rows: tuple[str, str, str]) -> tuple[_Band, ...]:
    return tuple((Fraction(low), Fraction(high), Fraction(width)) for low, high, width in rows)


_WIDTHS_MAJOR: Final = _bands(
    ("25", "100", "5"), ("10", "25", "3"), ("1", "10", "1"), ("0.1", "1", "0.3"), ("0", "0.1", "0.1")
)
_WIDTHS_OTHER: Final = _bands(("25", "100", "20"), ("10", "25", "10"), ("1", "10", "3"), ("0", "1", "1"))
"""Bands of shares and the widest range that may be notified in each, in percentage points: Tables 1 (FOUND-2nd) and 2
(MEMORY) of 3.4."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """A material of the recipe or a constituent of one, with its share of the finished candle.

    ``key`` names it in a record: the material's id, or the constituent's CAS number, else its name. ``hazards`` are
    None where nobody recorded them; those of a material are told by its constituents. ``is_major`` where one of them
    is of major concern for emergencies, or may be; ``is_due`` where a notification names it.
    """

    key: str
    name: str
    percent: Fraction
    hazards: tuple[HazardClass, ...] | None
    is_major: bool
    is_material: bool
    is_due: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedShare:
    """A component that is no longer as it was notified: ``was`` None where it was added, ``now`` where it was dropped.

    ``low`` and ``high`` are how far it may be from what was notified, in percent of the candle.
    """

    name: str
    was: ShareRange | None
    now: Fraction | None
    low: Fraction = Fraction(0)
    high: Fraction = Fraction(0)

    def __str__(self) -> str:
        if self.was is None:
            return f"{self.name} was added ({percent_text(self.now or Fraction(0))} %)"
        was = span_text(Fraction(self.was.low_percent), Fraction(self.was.high_percent))
        if self.now is None:
            return f"{self.name} was dropped (notified with {was} %)"
        allowed = f"{percent_text(self.low)} to {percent_text(self.high)} %"
        return f"{self.name} moved from {was} % to {percent_text(self.now)} % (allowed: {allowed})"


def is_bodily(hazards: Iterable[HazardClass]) -> bool:
    """Whether one of the classes is a health or physical one; an unknown one may be."""
    return any(not hazard.name.startswith(_NOT_BODILY) for hazard in hazards)


@lru_cache(maxsize=FORMULAS_KEPT)
def components_of(formula: Formula) -> tuple[Component, ...]:
    """The `components` of a recipe whose amounts can be true."""
    return components(blend_of(formula).parts)


def components(ingredients: Sequence[Ingredient]) -> tuple[Component, ...]:
    """Every material and every constituent that is recorded, each sort by its share, the greatest first.

    A share that a sheet gives as a range counts as its upper end, as in the classification (PRACTICE).
    """
    used = [each for each in ingredients if each.exact_g > 0]
    total = sum((each.exact_g for each in used), start=Fraction(0))
    materials = [_material(each, 100 * each.exact_g / total) for each in used]
    constituents = [
        Component(
            key=_key(one.cas or one.name),
            name=one.name,
            percent=one.percent,
            hazards=None if UNKNOWN in one.hazards else one.hazards,
            is_major=_is_major(one.hazards),
            is_material=False,
            is_due=_is_due(one.percent, harmless=not is_bodily(one.hazards)),
        )
        for one in mixture(used).substances
    ]
    ordered = sorted(materials, key=lambda each: -each.percent)
    return (*ordered, *sorted(constituents, key=lambda each: -each.percent))


def _material(ingredient: Ingredient, percent: Fraction) -> Component:
    """Waxes are known and harmless; anything else is so only where its whole composition says it."""
    lines = composition(ingredient)
    is_wax = ingredient.role is Role.WAX
    harmless = is_wax or (lines is not None and not any(is_bodily(line.hazards) for line in lines))
    major = not is_wax and (lines is None or any(_is_major(line.hazards) for line in lines))
    return Component(
        key=ingredient.id,
        name=ingredient.material.name,
        percent=percent,
        hazards=() if is_wax else None,
        is_major=major,
        is_material=True,
        is_due=_is_due(percent, harmless=harmless),
    )


def _is_major(hazards: Iterable[HazardClass]) -> bool:
    """Whether one of the classes is of major concern; an unknown one may be."""
    return any(hazard == UNKNOWN or hazard.name in _MAJOR for hazard in hazards)


def _is_due(percent: Fraction, *, harmless: bool) -> bool:
    return percent >= (DUE_HARMLESS_PERCENT if harmless else DUE_PERCENT)


def _key(written: str) -> str:
    """A component's name as it is compared and as a cell of a list may hold it."""
    return " ".join(written.replace(";", ",").split())


def shares_due(found: Iterable[Component]) -> Mapping[str, ShareRange]:
    """The components that a notification names, with their shares as a record keeps them: exact to four digits."""
    shares = ((each.key, Decimal(percent_text(each.percent))) for each in found if each.is_due)
    return {key: ShareRange(share, share) for key, share in shares}


def moved_shares(notified: Mapping[str, ShareRange], found: Sequence[Component]) -> tuple[MovedShare, ...]:
    """What of a recipe is no longer as it was notified, materials first.

    A share that was notified exactly may move by Table 4 of 4.1; one that was notified as a range stays within it. A
    component that is due is new where the record names others of its sort, materials or constituents, and not it.

    >>> was = ShareRange(Decimal(8), Decimal(8))
    >>> oil = Component(
    ...     key="fig", name="Fig", percent=Fraction(6), hazards=None, is_major=False, is_material=True, is_due=True
    ... )
    >>> print(*moved_shares({"fig": was}, [oil]))
    Fig moved from 8 % to 6 % (allowed: 6.4 to 9.6 %)
    """
    known = {_key(key).casefold(): share for key, share in notified.items()}
    by_key = {name.casefold(): each for each in reversed(found) for name in (_key(each.name), each.key)}
    met = {name: by_key[name] for name in known if name in by_key}
    sorts = {each.is_material for each in met.values()}
    told = [_beyond(each, known[name]) for name, each in met.items()]
    told += [
        MovedShare(name=each.name, was=None, now=each.percent)
        for each in found
        if each.is_due and each.is_material in sorts and each not in met.values()
    ]
    dropped = (
        MovedShare(name=key, was=share, now=None)
        for key, share in notified.items()
        if _key(key).casefold() not in met
    )
    order = {each.name: place for place, each in enumerate(found)}
    moved = sorted((each for each in told if each is not None), key=lambda each: order[each.name])
    return (*moved, *dropped)


def _beyond(component: Component, was: ShareRange) -> MovedShare | None:
    low, high = allowed_percent(was)
    if low <= component.percent <= high:
        return None
    return MovedShare(name=component.name, was=was, now=component.percent, low=low, high=high)


@lru_cache(maxsize=1024)
def allowed_percent(notified: ShareRange) -> tuple[Fraction, Fraction]:
    """Between which shares a component may be without a new notification, both ends included.

    >>> [f"{float(end):g}" for end in allowed_percent(ShareRange(Decimal(30), Decimal(30)))]
    ['28.5', '31.5']
    """
    low, high = Fraction(notified.low_percent), Fraction(notified.high_percent)
    if low != high:
        return low, high
    part = next((part for above, part in _TABLE_4 if low > above), _TABLE_4_REST)
    return low * (1 - part), low * (1 + part)


def notifiable_range(percent: Fraction, *, major: bool) -> tuple[Fraction, Fraction]:
    """The widest range that may be notified for a share, in percent: about its middle, within its band (CHOICE).

    >>> [f"{float(end):g}" for end in notifiable_range(Fraction("9.8"), major=True)]
    ['9', '10']
    """
    bands = _WIDTHS_MAJOR if major else _WIDTHS_OTHER
    lowest, highest, width = next(band for band in bands if percent >= band[0])
    step = width / 10
    low = max(lowest, step * floor((percent - width / 2) / step))
    return (highest - width, highest) if low + width > highest else (low, low + width)


def percent_text(percent: Fraction) -> str:
    """A share to four significant digits, without an exponent: it must move by a twentieth before it counts.

    >>> percent_text(Fraction(100, 3))
    '33.33'
    """
    text = f"{Decimal(f'{float(percent):.4g}'):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def span_text(low: Fraction, high: Fraction) -> str:
    """A share, or a range of shares."""
    return percent_text(low) if low == high else f"{percent_text(low)}-{percent_text(high)}"


def told_of(moved: Sequence[MovedShare], most: int = 4) -> str:
    """What has moved as a clause, the first few named."""
    named = "; ".join(map(str, moved[:most]))
    return named if len(moved) <= most else f"{named}; and {len(moved) - most} more"
