"""Sensitisation of skin and airways: each substance by itself, never added up."""

from collections.abc import Iterable
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.findings import Finding, Ladder, alone, own_or
from generator.rules.hazards.mixture import Mixture, Present
from generator.rules.hazards.ruleset import Limit, RuleSet

SKIN: Final = ("Skin Sens. 1A", "Skin Sens. 1", "Skin Sens. 1B")
_AIRWAYS: Final = ("Resp. Sens. 1A", "Resp. Sens. 1", "Resp. Sens. 1B")
NAMING: Final = HazardClass("EUH208", "EUH208")

_STATEMENTS: Final = {**dict.fromkeys(SKIN, "H317"), **dict.fromkeys(_AIRWAYS, "H334")}


def skin_sensitisation(candle: Mixture, rules: RuleSet) -> Ladder:
    """CLP Annex I Table 3.4.5: one ingredient at its own limit is enough."""
    return _ladder(candle, rules, SKIN)


def respiratory_sensitisation(candle: Mixture, rules: RuleSet) -> Ladder:
    """CLP Annex I Table 3.4.5, the airways (solids and liquids)."""
    return _ladder(candle, rules, _AIRWAYS)


def sensitisers_to_name(candle: Mixture, rules: RuleSet) -> tuple[Finding, ...]:
    """CLP Annex I Table 3.4.6 with its Note 1: who is named below the class limit.

    A substance with a specific limit is named from one tenth of it.
    """
    return tuple(
        alone(NAMING, _naming_limit(substance, rules.limits[f"naming {name}"], family), substance)
        for family in (SKIN, _AIRWAYS)
        for name, substance in _by_strictest(candle, family)
    )


def _ladder(candle: Mixture, rules: RuleSet, family: tuple[str, ...]) -> Ladder:
    return tuple(
        alone(HazardClass(name, _STATEMENTS[name]), own_or(rules.limits[name], substance, *family), substance)
        for name in family
        for substance in candle.having(name)
    )


def _by_strictest(candle: Mixture, family: tuple[str, ...]) -> Iterable[tuple[str, Present]]:
    """Each sensitiser once, with the strictest subcategory."""
    return {id(s): (name, s) for name in reversed(family) for s in candle.having(name)}.values()


def _naming_limit(substance: Present, general: Limit, family: tuple[str, ...]) -> Limit:
    own = substance.own_limit(*family)
    return general if own is None else Limit(own / 10, "CLP Annex I Table 3.4.6, Note 1", "FOUND")
