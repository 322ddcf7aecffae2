"""The hazard labels that a sheet says: their elements by code and name, a label for each market that knows such."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.ledgers.sheet import Sheet, part_of, text_of, texts_of
from generator.model.markets import Market


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardLabel:
    """Everything that stands on one market's label; two that read alike are equal, by whatever law they are made."""

    law: str = field(compare=False)
    near: bool = field(compare=False)
    status: str
    pictograms: tuple[str, ...]
    signal_word: str | None
    h: tuple[str, ...]
    euh: tuple[str, ...]
    p: tuple[str, ...]
    named_substances: tuple[str, ...]
    sensitisers: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def codes(self) -> tuple[str, ...]:
        """Every statement in the order it is printed in."""
        return (*self.h, *self.euh, *self.p)


def labels_of(said: Sheet) -> Mapping[Market, HazardLabel]:
    """By market, in the order in which the sheet names its markets."""
    found = part_of(said, "hazards")
    return {market: _label(part_of(found, market)) for market in texts_of(said, "markets") if market in found}


def _label(told: Sheet) -> HazardLabel:
    return HazardLabel(
        law=text_of(told, "law") or "",
        near=text_of(told, "near") is not None,
        status=text_of(told, "status") or "",
        pictograms=texts_of(told, "pictograms"),
        signal_word=text_of(told, "signal_word"),
        h=texts_of(told, "h"),
        euh=texts_of(told, "euh"),
        p=texts_of(told, "p"),
        named_substances=texts_of(told, "named_substances"),
        sensitisers=texts_of(told, "sensitisers"),
        unknown=texts_of(told, "unknown"),
    )
