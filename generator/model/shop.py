"""The whole shop as recorded: every entry by its id, nothing resolved yet."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from generator.model.burn_tests import BurnTest
from generator.model.candle import Candle
from generator.model.formats import Format
from generator.model.label_stock import LabelStock
from generator.model.ledger import Ledger
from generator.model.lots import Lot, PouredFormula, Recall
from generator.model.maker import Collection, Maker
from generator.model.materials import Additive, Dye, Fragrance, Wax, Wick
from generator.model.notified import MadeUfi
from generator.model.publish_targets import Target
from generator.model.sizes import Status
from generator.model.trade import Buyer, LinkVersion, PriceRow, Terms
from generator.model.vessel import Vessel
from generator.problems import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page the maker writes in Markdown; the lines of ``markdown`` are numbered as in its file."""

    id: str
    title: str
    markdown: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """Everything under content/, by id.

    ``photos`` and ``artwork`` are the names of files that are there. ``links`` has every row of the book of trade
    links, the first one first. ``as_of`` is the day for which everything is worked out: the maker's fixed one, or the
    one on which the shop was read.
    """

    maker: Maker
    as_of: date
    collections: Mapping[str, Collection]
    waxes: Mapping[str, Wax]
    fragrances: Mapping[str, Fragrance]
    additives: Mapping[str, Additive]
    dyes: Mapping[str, Dye]
    wicks: Mapping[str, Wick]
    vessels: Mapping[str, Vessel]
    formats: Mapping[str, Format]
    candles: Mapping[str, Candle]
    burn_tests: Mapping[str, BurnTest]
    pages: Mapping[str, Page]
    photos: frozenset[str]
    ledgers: Mapping[str, Ledger] = field(default_factory=dict)
    lots: tuple[Lot, ...]
    poured: Mapping[str, PouredFormula] = field(default_factory=dict)
    recalls: Mapping[str, Recall]
    made_ufis: tuple[MadeUfi, ...] = ()
    label_stock: Mapping[str, LabelStock] = field(default_factory=dict)
    artwork: frozenset[str] = frozenset()
    terms: Terms | None = None
    buyers: Mapping[str, Buyer] = field(default_factory=dict)
    links: tuple[LinkVersion, ...] = ()
    prices: tuple[PriceRow, ...] = ()
    targets: Mapping[str, Target] = field(default_factory=dict)

    @property
    def ingredients(self) -> Mapping[str, Wax | Fragrance | Additive]:
        """Everything a formula may name, by id."""
        return {**self.waxes, **self.fragrances, **self.additives, **self.dyes}

    def photos_shown(self) -> Mapping[str, Path]:
        """The existing photos that pages show, each with the first place that names it."""
        shown: dict[str, Path] = {}
        for candle in self.candles.values():
            for number, size in enumerate(candle.sizes):
                # Only its buyer sees an own label, and nobody a trial.
                if size.made_for is not None or (size.status or candle.status) is Status.TRIAL:
                    continue
                for at, photo in enumerate(size.photos):
                    if photo in self.photos:
                        shown.setdefault(photo, (f"candles/{candle.id}.yaml", "sizes", number, "photos", at))
        return dict(sorted(shown.items()))
