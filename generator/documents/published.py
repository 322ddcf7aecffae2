"""The house as its public pages see it: what a sheet has been issued for, and no more.

A candle whose sheet was never issued is listed without hours; one whose sheet has changed since is listed with the
figures of the sheet in force, so that the catalogue never says what the sheet in the box does not.
"""

from dataclasses import replace

from generator.documents.house import House, SizeOf
from generator.facts.facts import Facts
from generator.ledgers.standing import SheetState
from generator.memory import digest
from generator.model.burn_safety import Sheet


def as_published(house: House) -> House:
    """The same house with the figures that may be published; with drafts it stays as it is."""
    if house.drafts:
        return house
    scents = (
        replace(scent, sizes=tuple(_size(house.sheets[size.facts.stock_code], size) for size in scent.sizes))
        for scent in house.scents
    )
    return replace(house, scents=tuple(scents))


def for_everybody(house: House) -> House:
    """The same house without the candles that bear a buyer's own label, which stand on that buyer's sheet alone."""
    scents = (
        replace(scent, sizes=tuple(size for size in scent.sizes if size.recorded.own_label is None))
        for scent in house.scents
    )
    return replace(house, scents=tuple(scent for scent in scents if scent.sizes))


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
    """The figures of the sheet in force; how they were worked out stands in the workshop, with the record."""
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
