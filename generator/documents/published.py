"""The house as its public pages see it: what a sheet has been issued for, and no more.

A candle whose sheet was never issued is listed without hours; one whose sheet has changed since is listed with the
figures of the sheet in force, so that the catalogue never says what the sheet in the box does not.
"""

from dataclasses import replace
from typing import Final

from generator.documents.house import House, Scent, SizeOf
from generator.facts.facts import Advice, Facts, Hours, HoursBasis, WeightBasis
from generator.ledgers.sheet import Sheet, part_of, text_of
from generator.ledgers.standing import SheetState

_BASES: Final[tuple[HoursBasis, ...]] = ("tested", "provisional", "thin test", "untested")
_WEIGHED: Final[tuple[WeightBasis, ...]] = ("weighed", "poured to weight", "water", "geometry")
_ADVICE: Final = ("trim", "longest_session", "stop_at", "apart", "first_burn", "cool_down")


def as_published(house: House) -> House:
    """The same house with the figures that may be published; with drafts it stays as it is."""
    if house.drafts:
        return house
    return replace(house, scents=tuple(_scent(house, scent) for scent in house.scents))


def for_everybody(house: House) -> House:
    """The same house without the candles that bear a buyer's own label, which stand on that buyer's sheet alone."""
    scents = (
        replace(scent, sizes=tuple(size for size in scent.sizes if size.recorded.own_label is None))
        for scent in house.scents
    )
    return replace(house, scents=tuple(scent for scent in scents if scent.sizes))


def _scent(house: House, scent: Scent) -> Scent:
    return replace(
        scent, sizes=tuple(_size(house.sheets[size.facts.stock_code], size) for size in scent.sizes)
    )


def _size(state: SheetState, size: SizeOf) -> SizeOf:
    if state.status == "issued":
        return size
    issued = state.issued
    facts = _without_hours(size.facts) if issued is None else _as_issued(size.facts, issued.value)
    return replace(size, facts=facts)


def _without_hours(facts: Facts) -> Facts:
    return replace(facts, burn_hours=None, figures=())


def _as_issued(facts: Facts, said: Sheet) -> Facts:
    """The figures of the sheet in force; how they were worked out stands in the workshop, with the record."""
    quantity, advice = part_of(said, "net_quantity"), part_of(said, "advice")
    basis = text_of(said, "net_quantity_basis")
    texts = {market: text_of(quantity, market) or facts.estimated[market] for market in facts.estimated}
    first = part_of(advice, next(iter(facts.advice), "")) if facts.advice else {}
    return replace(
        facts,
        declared={market: text if basis == "proven" else None for market, text in texts.items()},
        estimated=texts,
        net_weight_basis=next((known for known in _WEIGHED if known == basis), facts.net_weight_basis),
        burn_hours=_hours(said),
        session_limit_h=_h(first, "longest_session"),
        first_burn_h=_h(first, "first_burn"),
        stop_depth_mm=_mm(said, "stop"),
        advice={market: _advice(part_of(advice, market)) for market in facts.advice if market in advice},
        figures=(),
    )


def _hours(said: Sheet) -> Hours | None:
    burn = part_of(said, "burn_hours")
    basis = next((basis for basis in _BASES if basis == text_of(burn, "basis")), None)
    if basis is None:
        return None
    return Hours(claim=int(text_of(burn, "claim") or 0), low=None, mean=None, high=None, basis=basis)


def _advice(said: Sheet) -> Advice:
    given = {name: text_of(said, name) or "" for name in _ADVICE}
    return Advice(**given, clear_of=text_of(said, "clear_of"))


def _h(said: Sheet, key: str) -> float | None:
    """A duration of the sheet, such as ``3.5 h``."""
    text = text_of(said, key)
    return None if text is None else float(text.removesuffix(" h"))


def _mm(said: Sheet, key: str) -> float | None:
    text = text_of(said, key)
    return None if text is None else float(text.removesuffix(" mm"))
