"""Hazards to aquatic life: sums with multiplying factors."""

from collections.abc import Iterator
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.findings import Counted, Ladder, counted_part, weighed
from generator.rules.hazards.mixture import Mixture, Present
from generator.rules.hazards.ruleset import RuleSet

ACUTE: Final = HazardClass("Aquatic Acute 1", "H400")
CHRONIC: Final = (
    HazardClass("Aquatic Chronic 1", "H410"),
    HazardClass("Aquatic Chronic 2", "H411"),
    HazardClass("Aquatic Chronic 3", "H412"),
    HazardClass("Aquatic Chronic 4", "H413"),
)
_TIMES: Final = ((1,), (10, 1), (100, 10, 1), (1, 1, 1, 1))
"""How many times chronic 1, 2, 3, 4 count towards chronic 1, 2, 3, 4 (CLP Annex I Table 4.1.2, FOUND)."""


def aquatic_acute(candle: Mixture, rules: RuleSet) -> Ladder:
    """CLP Annex I Table 4.1.1: M x acute 1 >= 25 %."""
    parts = (_very_toxic(s, s.m_acute or 1, 1, rules) for s in candle.having(ACUTE.name))
    return weighed(ACUTE, rules.limits[ACUTE.name], parts)


def aquatic_chronic(candle: Mixture, rules: RuleSet) -> Ladder:
    """CLP Annex I Table 4.1.2: the severest sum that reaches 25 % decides; chronic 4 counts without M."""
    if not candle.having(*(outcome.name for outcome in CHRONIC)):
        return ()
    return tuple(
        found
        for outcome, times in zip(CHRONIC, _TIMES, strict=True)
        for found in weighed(outcome, rules.limits[outcome.name], _toxic(candle, rules, times))
    )


def without_m_factor(candle: Mixture) -> tuple[str, ...]:
    """Substances very toxic to aquatic life whose sheets give no factor, which then counts as 1."""
    acute = {s.name for s in candle.having(ACUTE.name) if s.m_acute is None}
    chronic = {s.name for s in candle.having(CHRONIC[0].name) if s.m_chronic is None}
    return tuple(sorted(acute | chronic))


def _toxic(candle: Mixture, rules: RuleSet, times: tuple[int, ...]) -> Iterator[Counted]:
    """Every substance once, in its severest class."""
    seen: set[int] = set()
    with_m = len(times) < len(CHRONIC)
    for outcome, weight in zip(CHRONIC, times, strict=False):
        for substance in candle.having(outcome.name):
            if id(substance) in seen:
                continue
            seen.add(id(substance))
            if outcome == CHRONIC[0]:
                yield _very_toxic(substance, substance.m_chronic or 1, weight, rules, with_m=with_m)
            else:
                yield counted_part(
                    substance, weight, rules.limits["relevant to water, categories 2 to 4"].percent
                )


def _very_toxic(substance: Present, m: int, times: int, rules: RuleSet, *, with_m: bool = True) -> Counted:
    relevant = rules.limits["relevant to water, category 1"].percent
    return counted_part(substance, times * m if with_m else times, relevant if m == 1 else relevant / m)
