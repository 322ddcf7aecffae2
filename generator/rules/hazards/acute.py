"""Acute toxicity by route of exposure: one estimate for the whole candle."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.model.sheet_values import Dose
from generator.rules.hazards.findings import (
    Counted,
    DoseLimit,
    Finding,
    Ladder,
    against,
    counted_part,
    sum_of_parts,
)
from generator.rules.hazards.mixture import Mixture, Present
from generator.rules.hazards.ruleset import DoseBand, Limit, RuleSet, Way

STATEMENTS: Final[dict[Way, tuple[str, ...]]] = {
    "oral": ("H300", "H300", "H301", "H302"),
    "dermal": ("H310", "H310", "H311", "H312"),
    "gas": ("H330", "H330", "H331", "H332"),
    "vapour": ("H330", "H330", "H331", "H332"),
    "dust": ("H330", "H330", "H331", "H332"),
}
UNITS: Final[dict[Way, str]] = {
    "oral": "mg/kg",
    "dermal": "mg/kg",
    "gas": "ppmV",
    "vapour": "mg/l",
    "dust": "mg/l",
}
ENTRIES: Final[tuple[tuple[Way, ...], ...]] = (("oral",), ("dermal",), ("gas", "vapour", "dust"))
"""Routes that lead to the same statements: mouth, skin, air."""

CATEGORIES: Final = ("Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Acute Tox. 4")


def acute_toxicity_estimate(
    doses: Iterable[tuple[Fraction, Fraction]], unknown_percent: Fraction = Fraction(0)
) -> Fraction | None:
    """Acute toxicity estimate of a mixture, in the unit of the doses; None where no ingredient counts.

    ATE = (100 - unknown) / sum(share / dose)

    doses: pairs of an ingredient's share, %, and its own estimate, mg/kg (ppmV or mg/l by air).
    unknown_percent: share of ingredients of unknown toxicity, %; give it only where it is above 10 %.
    Holds for ingredients whose doses lie inside the law's categories (oral up to 2000 mg/kg and so on).
    Source: CLP Annex I 3.1.3.6.1 and 3.1.3.6.2.3 (FOUND).

    >>> acute_toxicity_estimate([(Fraction(25), Fraction(500))])
    Fraction(2000, 1)
    """
    total = sum((share / dose for share, dose in doses), Fraction(0))
    return (100 - unknown_percent) / total if total else None


def acute_toxicity(candle: Mixture, rules: RuleSet) -> tuple[Ladder, ...]:
    """CLP Annex I Tables 3.1.1 and 3.1.2 with 3.1.3.6: one ladder each for mouth, skin and air.

    A dose beyond category 4 does not count, where the UN would still count its category 5. A class without
    a dose counts with the law's converted estimate; by air as vapour and as dust, where the sheet leaves it
    open (CHOICE).
    """
    harmful = _harmful(candle)
    if not harmful:
        return ()
    unknown_percent = _unknown_percent(candle, rules)
    return tuple(
        _severest_first(f for way in ways for f in _rungs(harmful, rules, way, unknown_percent))
        for ways in ENTRIES
    )


def _severest_first(findings: Iterable[Finding]) -> Ladder:
    return tuple(sorted(findings, key=lambda finding: finding.outcome.name))


def _rungs(
    harmful: tuple[Present, ...], rules: RuleSet, way: Way, unknown_percent: Fraction
) -> Iterator[Finding]:
    """Each category of one route: the estimate is at most its dose where sum(share / dose) >= known / dose."""
    sum_ = sum_of_parts(_parts(harmful, rules, way))
    if not sum_.counted and not sum_.left_out:
        return
    known_percent = 100 - unknown_percent
    for band in rules.bands[way]:
        limit = Limit(known_percent / band.most, "CLP Annex I Table 3.1.1", "FOUND")
        yield against(_outcome(way, band), limit, sum_, DoseLimit(band.most, UNITS[way], unknown_percent))


def _outcome(way: Way, band: DoseBand) -> HazardClass:
    return HazardClass(CATEGORIES[band.category - 1], STATEMENTS[way][band.category - 1])


def _harmful(candle: Mixture) -> tuple[Present, ...]:
    """The substances with a class of acute toxicity or a dose."""
    with_a_dose = (s for s in candle.substances if s.doses and not any(map(s.is_, CATEGORIES)))
    return (*candle.having(*CATEGORIES), *with_a_dose)


def _parts(harmful: tuple[Present, ...], rules: RuleSet, way: Way) -> Iterator[Counted]:
    """The substances that count by this route, each over its dose."""
    bands = rules.bands[way]
    for substance in harmful:
        dose = _dose(substance, way, bands)
        if dose is not None:
            category_4 = dose > bands[-2].most
            relevant = "relevant, category 4" if category_4 else "relevant, categories 1 to 3"
            yield counted_part(substance, 1 / dose, rules.limits[relevant].percent)


def _dose(substance: Present, way: Way, bands: tuple[DoseBand, ...]) -> Fraction | None:
    """The dose a substance counts with: its sheet's, else the converted one of its category, else none."""
    own = substance.doses.get(way)
    if own is not None and _inside(own, bands[-1].most):
        return Fraction(own.value)
    if way == "gas" or _other_air(substance, way):
        return None
    return _converted(substance, way, bands)


def _inside(dose: Dose, most: Fraction) -> bool:
    return dose.value < most or (dose.value == most and not dose.above)


def _other_air(substance: Present, way: Way) -> bool:
    """Whether the sheet gives its dose for another form (vapour, dust) than this one."""
    air = ENTRIES[-1]
    return way in air and way not in substance.doses and any(other in substance.doses for other in air)


def _converted(substance: Present, way: Way, bands: tuple[DoseBand, ...]) -> Fraction | None:
    """What the substance's own category counts as, the severest if sheets differ."""
    categories = [int(h.name[-1]) for h in substance.hazards if h.code in STATEMENTS[way]]
    return bands[min(categories) - 1].converted if categories else None


def _unknown_percent(candle: Mixture, rules: RuleSet) -> Fraction:
    """The undisclosed share, if it is more than the law ignores."""
    passes = rules.limits["unknown acute toxicity counted"].percent
    return candle.unknown_percent if candle.unknown_percent > passes else Fraction(0)
