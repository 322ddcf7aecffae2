"""Cancer, genes, reproduction, hormones, what stays in nature, single organs, aspiration: mostly each by itself."""

from collections.abc import Sequence
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.findings import Ladder, alone, counted_part, own_or, weighed
from generator.rules.hazards.mixture import Mixture, Present
from generator.rules.hazards.ruleset import RuleSet

ALONE: Final = (
    ("Muta. 1A", "Muta. 1B", "Muta. 2"),
    ("Carc. 1A", "Carc. 1B", "Carc. 2"),
    ("Repr. 1A", "Repr. 1B", "Repr. 2"),
    ("Lact.",),
)
NEW: Final = (
    ("ED HH 1", "ED HH 2"),
    ("ED ENV 1", "ED ENV 2"),
    ("PBT",),
    ("vPvB",),
    ("PMT",),
    ("vPvM",),
)
"""The classes of Regulation (EU) 2023/707; not in Great Britain."""

ORGANS: Final = (
    (HazardClass("STOT SE 1", "H370"), HazardClass("STOT SE 2", "H371")),
    (HazardClass("STOT RE 1", "H372"), HazardClass("STOT RE 2", "H373")),
)
PASSING: Final = (HazardClass("STOT SE 3", "H335"), HazardClass("STOT SE 3", "H336"))
ASPIRATION: Final = HazardClass("Asp. Tox. 1", "H304")


def cmr(candle: Mixture, rules: RuleSet) -> tuple[Ladder, ...]:
    """CLP Annex I Tables 3.5.2, 3.6.2 and 3.7.2: genes, cancer, reproduction and nursing, never added up."""
    return tuple(_each(candle, rules, names) for names in ALONE)


def new_classes(candle: Mixture, rules: RuleSet) -> tuple[Ladder, ...]:
    """CLP Annex I 3.11 and 4.2 to 4.4: each substance by itself, none added up."""
    return tuple(_each(candle, rules, names) for names in NEW) if rules.new_classes else ()


def target_organs(candle: Mixture, rules: RuleSet) -> tuple[Ladder, ...]:
    """CLP Annex I Tables 3.8.3 and 3.9.4, never added up; category 3 by 3.8.3.4.5, each effect added up."""
    return (
        *(_organs(candle, rules, severe, mild) for severe, mild in ORGANS),
        *(_passing(candle, rules, outcome) for outcome in PASSING),
    )


def aspiration(candle: Mixture, rules: RuleSet) -> Ladder:
    """CLP Annex I 3.10.3.3.1: only for a mixture that is liquid at 40 degC, as hardly any candle is."""
    if not candle.liquid_at_40_c:
        return ()
    relevant = rules.limits["relevant to aspiration"].percent
    parts = (counted_part(s, from_percent=relevant) for s in candle.having("Asp. Tox. 1"))
    return weighed(ASPIRATION, rules.limits["Asp. Tox. 1"], parts)


def _each(candle: Mixture, rules: RuleSet, names: Sequence[str]) -> Ladder:
    return tuple(
        alone(_as_on_sheet(name, substance), own_or(rules.limits[name], substance, name), substance)
        for name in names
        for substance in candle.having(name)
    )


def _as_on_sheet(name: str, substance: Present) -> HazardClass:
    """The class with the statement that the sheet gives it, such as H360Fd; of two the one that says more."""
    given = (hazard for hazard in substance.hazards if hazard.name == name)
    return max(given, key=lambda hazard: (len(hazard.code), hazard.code))


def _organs(candle: Mixture, rules: RuleSet, severe: HazardClass, mild: HazardClass) -> Ladder:
    by_severe = rules.limits[f"{mild.name} by category 1"]
    severe_ones = candle.having(severe.name)
    return (
        *(alone(severe, own_or(rules.limits[severe.name], s, severe.name), s) for s in severe_ones),
        *(alone(mild, own_or(by_severe, s, mild.name), s) for s in severe_ones),
        *(alone(mild, own_or(rules.limits[mild.name], s, mild.name), s) for s in candle.having(mild.name)),
    )


def _passing(candle: Mixture, rules: RuleSet, outcome: HazardClass) -> Ladder:
    limit, relevant = rules.limits[outcome.name], rules.limits["relevant to STOT SE 3"].percent
    parts = []
    for substance in candle.having(outcome.name):
        if outcome in substance.hazards:
            own = own_or(limit, substance, outcome.name).percent
            parts.append(counted_part(substance, limit.percent / own, min(relevant, own)))
    return weighed(outcome, limit, parts)
