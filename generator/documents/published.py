"""The house as its public pages see it: only what a sheet has been issued for.

A candle whose sheet was never issued is listed without hours; one whose sheet has changed since is listed with the
figures of the sheet in force, so that the catalogue never contradicts the sheet in the box.
"""

from collections.abc import Mapping
from dataclasses import fields, replace
from math import nan
from operator import attrgetter
from typing import Any, Final

from generator.documents.house import House, Scent, SizeOf
from generator.facts.facts import Facts
from generator.ledgers.standing import SheetState
from generator.memory import Remembered, digest
from generator.model.burn_safety import Sheet
from generator.model.recorded import Formula, Recorded

_NO_FORMULA: Final = Formula(waxes=(), fragrances=(), additives=(), dyes=())
_NOT_IN_LISTS: Final[Mapping[str, Any]] = {
    **dict.fromkeys(
        ("make", "declared_g", "declared_oz", "like", "claim_hours", "longest_session_h", "packaging_g")
    ),
    **dict.fromkeys(("weighed", "tests"), ()),
    "cased": None,
    "ufi": None,
}
_NOT_LISTED: Final[Mapping[str, Any]] = {
    **dict.fromkeys(
        (
            "fill_volume_ml", "net_weight_g", "net_weight_error_percent", "density_set_g_per_ml",
            "density_molten_g_per_ml", "fragrance_of_wax_percent", "fragrance_of_total_percent", "lhv_mj_per_kg",
        ),
        nan,
    ),
    **dict.fromkeys(
        (
            "heel_g", "burnable_g", "heat_w", "gross_g", "case_g", "rate_g_per_h", "rate_high_g_per_h", "burn_track",
            "first_burn_h", "session_limit_h",
        )
    ),
    **dict.fromkeys(("figures", "parts"), ()),
    **{name: {} for name in ("advice", "hazards", "sources")},
}  # fmt: skip
"""What no list of candles prints of a record and of facts."""

_listed_facts = attrgetter(*(field.name for field in fields(Facts) if field.name not in _NOT_LISTED))

ListedRecord = tuple[Recorded, str]
"""What a list may print of a record, and its digest."""


def as_published(house: House, shelf: Remembered[SizeOf]) -> House:
    """The same house with the figures that may be published; with drafts it stays as it is."""
    if house.drafts:
        return house

    def published(size: SizeOf) -> SizeOf:
        state = house.sheets[size.facts.stock_code]
        return shelf.remember((size, state), lambda: _size(state, size))

    scents = (replace(scent, sizes=tuple(map(published, scent.sizes))) for scent in house.scents)
    return replace(house, scents=tuple(scents))


def for_everybody(house: House) -> House:
    """The same house without the candles under a buyer's own label, which are only on that buyer's sheet."""
    scents = (
        replace(scent, sizes=tuple(size for size in scent.sizes if size.recorded.own_label is None))
        if any(size.recorded.own_label is not None for size in scent.sizes)
        else scent
        for scent in house.scents
    )
    return replace(house, scents=tuple(scent for scent in scents if scent.sizes))


def for_lists(house: House, scents: Remembered[Scent], records: Remembered[ListedRecord]) -> House:
    """The same house as a list of its candles needs it: what is sold, and nothing of how it was worked out.

    A list is then made again only when something that it shows changes. What it must not show is nan.
    """
    sheets = ((code, state.as_it_was_issued) for code, state in house.sheets.items())
    return replace(
        house,
        scents=tuple(_listed(scent, scents, records) for scent in house.scents),
        sheets={code: state for code, state in sheets if state is not None},
    )


def _listed(scent: Scent, scents: Remembered[Scent], records: Remembered[ListedRecord]) -> Scent:
    inputs = (scent.candle, *(size.key for size in scent.sizes))
    return scents.remember(inputs, lambda: _without_workings(scent, records))


def _without_workings(scent: Scent, records: Remembered[ListedRecord]) -> Scent:
    candle = replace(scent.candle, ingredients={}, make=None, ufi=None, notified=None, notes=None, sizes=())
    return Scent(candle=candle, sizes=tuple(_size_without_workings(size, records) for size in scent.sizes))


def _record_without_workings(recorded: Recorded) -> ListedRecord:
    build = replace(recorded.build, fill=None, formula=_NO_FORMULA, cure_h=None)
    listed = replace(recorded, build=build, **_NOT_IN_LISTS)
    return listed, digest(repr(listed))


def _size_without_workings(size: SizeOf, records: Remembered[ListedRecord]) -> SizeOf:
    facts, hours = size.facts, size.facts.burn_hours
    level_mm = facts.level_set_mm
    # Sizes that differ in what is published of them have one record.
    recorded, key = records.remember((size.recorded,), lambda: _record_without_workings(size.recorded))
    shown = replace(
        facts,
        # No finer than drawings show it.
        level_set_mm=None if level_mm is None else round(level_mm * 2) / 2,
        burn_hours=None if hours is None else replace(hours, low=None, mean=None, high=None),
        **_NOT_LISTED,
    )
    return SizeOf(recorded=recorded, facts=shown, key=digest(key, repr(_listed_facts(shown))))


def _size(state: SheetState, size: SizeOf) -> SizeOf:
    if state.status == "issued":
        return size
    if state.issued is None:
        return replace(
            size, facts=replace(size.facts, burn_hours=None, figures=()), key=digest(size.key, "not issued")
        )
    return replace(
        size,
        facts=_as_issued(size.facts, state.issued.value),
        key=digest(size.key, "as issued", state.issued.seal),
    )


def _as_issued(facts: Facts, said: Sheet) -> Facts:
    """The figures of the sheet in force; how they were worked out is in the workshop, with the record."""
    basis, quantities = said.net_quantity_basis, {**facts.estimated, **said.net_quantity}
    texts = {market: quantities[market] for market in facts.estimated}
    first = said.advice.get(next(iter(facts.advice))) if facts.advice else None
    return replace(
        facts,
        declared={market: text if basis == "proven" else None for market, text in texts.items()},
        estimated=texts,
        net_weight_basis=facts.net_weight_basis if basis == "proven" else basis,
        burn_hours=said.burn_hours,
        session_limit_h=first.longest_session_h if first else None,
        first_burn_h=first.first_burn_h if first else None,
        stop_depth_mm=said.stop_mm,
        advice={market: said.advice[market] for market in facts.advice if market in said.advice},
        figures=(),
    )
