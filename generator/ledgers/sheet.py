"""What a candle's sheet says today, and which of it is also on labels."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import ceil
from typing import Final

from generator.facts.facts import Facts, WickFacts
from generator.model.burn_safety import (
    Answerable,
    BurnHours,
    Cautions,
    Sheet,
    SheetDrawing,
    SheetVessel,
    SheetWicks,
)
from generator.model.canonical import Plain
from generator.model.kinds import KINDS, Kind
from generator.model.maker import Contact, Maker
from generator.model.markets import MARKETS
from generator.model.recorded import Recorded
from generator.model.sizes import OwnLabel

_LABELLED: Final = frozenset({"scent", "size", "stock_code", "kind", "net_quantity", "net_quantity_basis", "hazards",
                             "ufi", "stop", "snuffing_lid", "brand", "responsible", "maker", "contacts"})  # fmt: skip
_ADVICE_ON_LABELS: Final = frozenset({"longest_session", "trim"})

_FIGURED: Final = frozenset({"trim", "session", "apart"})
"""Signs whose sentence contains a figure of the advice."""


def sheet_value(recorded: Recorded, facts: Facts, maker: Maker) -> Sheet:
    """What the sheet of one stock code says; nothing of a flame where nothing burns."""
    declared = {market: text for market, text in facts.declared.items() if text}
    is_proven = facts.declared_status == "proven" and len(declared) == len(facts.declared)
    container, lid, wick, stop_mm = facts.container, recorded.build.lid, facts.wick, facts.stop_depth_mm
    burns = KINDS[facts.kind].has_flame
    said = Sheet(
        language=maker.language,
        stock_code=facts.stock_code,
        scent=recorded.scent,
        size=recorded.size_name,
        kind=facts.kind,
        markets=maker.markets,
        net_quantity=declared if is_proven else facts.estimated,
        net_quantity_basis="proven" if is_proven else facts.net_weight_basis,
        vessel=SheetVessel(name=container.name, material=container.material) if container else None,
        wick=SheetWicks(name=wick.name, count=wick.count) if burns and wick else None,
        burn_hours=_hours(facts.burn_hours) if burns else None,
        stop_mm=ceil(stop_mm) if burns and stop_mm is not None else None,
        advice=facts.advice if burns else {},
        snuffing_lid=lid.name if burns and lid and lid.snuffs else None,
        drawing=_drawing(recorded, facts, wick) if burns else None,
        warnings=warnings(facts.kind, figured=maker.markets[0] in facts.advice),
        hazards={market: found.label for market, found in facts.hazards.items() if found},
        ufi=recorded.ufi,
        maker=_person(maker, maker.web),
        contacts={market: _person(contact) for market, contact in maker.contacts_by_market().items()},
    )
    return _as_own_label(said, recorded.own_label, maker) if recorded.own_label else said


def warnings(kind: Kind, *, figured: bool) -> Cautions:
    """The keys of such a candle's sentences and signs; those with a figure only where there is one."""
    row = KINDS[kind]
    return Cautions(
        core=row.core,
        signs=tuple(sign for sign in row.signs if figured or sign not in _FIGURED),
        emergencies=row.emergencies,
        first_aid=row.first_aid,
    )


def is_on_labels(way: Sequence[str]) -> bool:
    """Whether a label also prints a text of the sheet, so that changing it makes labels untrue."""
    match way:
        case ("advice", market, "stop_at"):
            return MARKETS[market].length_unit == "in"
        case ("advice", _, name):
            return name in _ADVICE_ON_LABELS
        case ("warnings", part):
            return part == "core"
        case ("hazards", _, "law" | "near"):
            return False
    return way[0] in _LABELLED


def flattened(value: Plain, at: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    """Every text in a value with the keys that lead to it; a list of texts is one text."""
    if isinstance(value, str):
        yield at, value
    elif isinstance(value, Mapping):
        for key, below in value.items():
            yield from flattened(below, (*at, key))
    elif all(isinstance(each, str) for each in value):
        yield at, ", ".join(str(each) for each in value)
    else:
        for number, below in enumerate(value, start=1):
            yield from flattened(below, (*at, str(number)))


def _hours(burn: BurnHours | None) -> BurnHours | None:
    if burn is None or burn.whole_h is None:
        return None
    return BurnHours(claim=burn.whole_h, basis=burn.basis)


def _drawing(recorded: Recorded, facts: Facts, wick: WickFacts | None) -> SheetDrawing:
    build = recorded.build
    return SheetDrawing(
        shape=build.shape.inside.shape,
        inside_mm=tuple((round(radius, 1), round(height, 1)) for radius, height in facts.outline_mm),
        wall_mm=_tenths(build.wall_mm),
        wax_mm=_tenths(facts.level_set_mm),
        stop_mm=_tenths(facts.stop_depth_mm),
        wick_mm=_tenths(wick.trim_mm if wick else None),
    )


def _tenths(length_mm: float | None) -> float | None:
    return None if length_mm is None else round(length_mm, 1)


def _as_own_label(said: Sheet, own_label: OwnLabel, maker: Maker) -> Sheet:
    """The sheet with those of an own label's people who may be shown."""
    if "brand" in own_label.public:
        said = replace(said, brand=own_label.brand)
    if "responsible" in own_label.public:
        # The site's address stays, because the sheet's permanent address is built on it.
        responsible = _person(own_label.responsible)
        said = replace(said, responsible=responsible, maker=Answerable(web=maker.web), contacts={})
    return said


def _person(who: Contact | Maker, web: str | None = None) -> Answerable:
    return Answerable(name=who.name, address=who.address, email=who.email, phone=who.phone, web=web)
