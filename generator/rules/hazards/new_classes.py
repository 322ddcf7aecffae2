"""The classes of Regulation (EU) 2023/707: hormones, and what stays in nature; not in Great Britain."""

from typing import Final

from generator.model.hazard_classes import CODES, HazardClass
from generator.rules.hazards.findings import Ladder, alone, own_or
from generator.rules.hazards.mixture import Mixture
from generator.rules.hazards.ruleset import RuleSet

ENDPOINTS: Final = (
    ("ED HH 1", "ED HH 2"),
    ("ED ENV 1", "ED ENV 2"),
    ("PBT",),
    ("vPvB",),
    ("PMT",),
    ("vPvM",),
)


def new_classes(candle: Mixture, rules: RuleSet) -> tuple[Ladder, ...]:
    """CLP Annex I 3.11 and 4.2 to 4.4: each substance by itself, none added up."""
    if not rules.new_classes:
        return ()
    return tuple(
        tuple(
            alone(HazardClass(name, CODES[name][0]), own_or(rules.limits[name], substance, name), substance)
            for name in names
            for substance in candle.having(name)
        )
        for names in ENDPOINTS
    )
