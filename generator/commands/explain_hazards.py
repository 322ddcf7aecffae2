"""The hazards part of ``explain``: which constituent at what share met which limit, and how far the next one is."""

from collections.abc import Iterator, Mapping
from typing import TypedDict

from generator.facts.facts import Facts
from generator.facts.hazard_facts import HazardFacts
from generator.model.maker import Market


class Hazard(TypedDict):
    """One market's hazards with the reasons behind each class, and the limits that come next."""

    status: str
    law: str
    classes: list[str]
    reasons: list[str]
    next_limits: list[str]


def hazards_of(facts: Facts) -> dict[Market, Hazard | None]:
    """Every market's hazards; None where the law asks for no such label."""
    return {market: None if found is None else _hazard(found) for market, found in facts.hazards.items()}


def hazard_lines(hazards: Mapping[Market, Hazard | None]) -> Iterator[str]:
    """The same as text, a block for each market."""
    for market, found in hazards.items():
        yield ""
        if found is None:
            yield f"Hazards, {market}: no such label is a duty there"
            continue
        yield f"Hazards, {market}: {', '.join(found['classes']) or found['status']}"
        yield from (f"    {reason}" for reason in found["reasons"])
        yield from (f"    next: {limit}" for limit in found["next_limits"])
        yield f"    law: {found['law']}"


def _hazard(found: HazardFacts) -> Hazard:
    return Hazard(
        status=found.label.status,
        law=found.label.law,
        classes=list(found.classes),
        reasons=list(found.reasons),
        next_limits=list(found.next_limits),
    )
