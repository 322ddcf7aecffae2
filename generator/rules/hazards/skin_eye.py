"""Skin corrosion and irritation, eye damage and irritation: sums over all ingredients."""

from collections.abc import Iterable, Sequence
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.findings import Counted, Ladder, counted_part, weighed
from generator.rules.hazards.mixture import Mixture, Present
from generator.rules.hazards.ruleset import Limit, RuleSet

CORROSIVE: Final = ("Skin Corr. 1A", "Skin Corr. 1B", "Skin Corr. 1C", "Skin Corr. 1")
DAMAGING: Final = (*CORROSIVE, "Eye Dam. 1")
SKIN_CORROSION: Final = tuple(HazardClass(name, "H314") for name in CORROSIVE)
SKIN_IRRITATION: Final = HazardClass("Skin Irrit. 2", "H315")
EYE_DAMAGE: Final = HazardClass("Eye Dam. 1", "H318")
EYE_IRRITATION: Final = HazardClass("Eye Irrit. 2", "H319")


def skin(candle: Mixture, rules: RuleSet) -> Ladder:
    """CLP Annex I Table 3.2.3, as no candle is taken for an acid or a base; subcategories by 3.2.3.3 (MEMORY)."""
    limit = rules.limits["Skin Corr. 1"]
    rungs = enumerate(SKIN_CORROSION, start=1) if candle.having(*CORROSIVE) else ()
    corrosion = (
        found
        for upto, outcome in rungs
        for found in weighed(
            outcome, limit, _parts(candle.having(*CORROSIVE[:upto]), rules, limit, limit, CORROSIVE)
        )
    )
    return (*corrosion, *_irritation(candle, rules, SKIN_IRRITATION, CORROSIVE))


def eyes(candle: Mixture, rules: RuleSet) -> Ladder:
    """CLP Annex I Table 3.3.3, as no candle is taken for an acid or a base.

    What corrodes skin damages eyes, and a substance that does both counts once.
    """
    limit = rules.limits["Eye Dam. 1"]
    damage = weighed(
        EYE_DAMAGE, limit, _parts(candle.having(*DAMAGING), rules, limit, limit, (EYE_DAMAGE.name,))
    )
    return (*damage, *_irritation(candle, rules, EYE_IRRITATION, DAMAGING))


def _irritation(candle: Mixture, rules: RuleSet, outcome: HazardClass, severe: Sequence[str]) -> Ladder:
    """10 x severe + irritant >= 10 %, which also holds from 1 % of severe alone."""
    limit = rules.limits[outcome.name]
    by_severe = rules.limits[f"{outcome.name} by corrosives"]
    own = (outcome.name,)
    severe_ones = candle.having(*severe)
    mild = (s for s in candle.having(outcome.name) if not any(s is other for other in severe_ones))
    parts = (*_parts(severe_ones, rules, by_severe, limit, own), *_parts(mild, rules, limit, limit, own))
    return weighed(outcome, limit, parts)


def _parts(
    substances: Iterable[Present], rules: RuleSet, limit: Limit, whole: Limit, own: Sequence[str]
) -> Iterable[Counted]:
    """Each share over its own limit, times the sum's limit (specific limits in sums: MEMORY, guidance)."""
    relevant = rules.limits["relevant to skin and eyes"].percent
    weight = 1 if limit is whole else whole.percent / limit.percent
    for substance in substances:
        specific = substance.own_limit(*own)
        if specific is None:
            yield counted_part(substance, weight, relevant)
        else:
            yield counted_part(substance, whole.percent / specific, min(relevant, specific))
