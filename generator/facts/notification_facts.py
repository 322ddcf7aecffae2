"""The figures that a notification to poison centres asks for, of one stock code. They hold its recipe: private."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from generator.facts.facts import Facts
from generator.facts.hazard_facts import HazardFacts
from generator.model.markets import law_of
from generator.model.notified import NotedShare, Notified
from generator.model.recorded import Recorded, Role
from generator.model.shop import Shop
from generator.rules.hazards.mixture import composition, mixture
from generator.rules.hazards.notification import (
    Component,
    components_of,
    notifiable_range,
    percent_text,
    shares_due,
    span_text,
)
from generator.rules.hazards.recorded_ufis import Notifier, notifier, ufi_of_code
from generator.rules.wax.blend import blend_of

_RECORD: Final = ("notified:", "  by: ...", "  countries: [...]", "  on: year-month-day", "  shares:")


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentFacts:
    """One component to type in: ``share`` and ``range`` in percent, as text; ``hazards`` None where unknown."""

    name: str
    key: str
    share: str
    range: str
    hazards: tuple[str, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class NotificationFacts:
    """What is typed into a notification, and what of it nobody recorded.

    ``hazards`` are those of the first market whose law asks for a UFI, None where the shop sells to none. ``sheets``
    are the materials whose safety data sheets say the toxicology, with the sheet's day. ``unknown_percent`` is the part
    that sheets do not disclose. ``record`` are the lines that tie the recipe to its UFI.
    """

    notifier: Notifier
    ufi: str | None
    notified: Notified | None
    hazards: HazardFacts | None
    constituents: tuple[ComponentFacts, ...]
    materials: tuple[ComponentFacts, ...]
    without_composition: tuple[str, ...]
    unknown_percent: str | None
    sheets: tuple[tuple[str, date | None], ...]
    record: tuple[str, ...]


def notification_facts(shop: Shop, recorded: Recorded, facts: Facts) -> NotificationFacts:
    """Everything of a stock code; what is not recorded is told as unknown and never guessed."""
    parts = blend_of(recorded.build.formula).parts
    found, whole = components_of(recorded.build.formula), mixture(parts)
    due = [each for each in found if each.is_due]
    known = ufi_of_code(shop, recorded.stock_code)
    return NotificationFacts(
        notifier=notifier(shop.maker),
        ufi=known.ufi if known else None,
        notified=known.notified if known else None,
        hazards=next(_hazards(facts), None),
        constituents=tuple(_component(each) for each in due if not each.is_material),
        materials=tuple(_component(each) for each in due if each.is_material),
        without_composition=tuple(
            part.material.name for part in parts if part.role is not Role.WAX and composition(part) is None
        ),
        unknown_percent=percent_text(whole.unknown_percent) if whole.unknown_percent else None,
        sheets=tuple(
            (one.material.name, one.material.sheet_dated) for one in recorded.build.formula.stirred_in
        ),
        record=(*_RECORD, *(f"    {NotedShare(key, share)}" for key, share in shares_due(found).items())),
    )


def _hazards(facts: Facts) -> Iterator[HazardFacts]:
    for market, found in facts.hazards.items():
        law = law_of(market)
        if found and law and law.formula_identifier:
            yield found


def _component(component: Component) -> ComponentFacts:
    low, high = notifiable_range(component.percent, major=component.is_major)
    hazards = component.hazards
    return ComponentFacts(
        name=component.name,
        key=component.key,
        share=percent_text(component.percent),
        range=span_text(low, high),
        hazards=None if hazards is None else tuple(map(str, hazards)),
    )
