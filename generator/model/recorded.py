"""One stock code, resolved: exactly what its figures depend on, without places in files."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Generic, TypeVar

from generator.model.amounts import Amount
from generator.model.burn_tests import Session
from generator.model.candle import Make
from generator.model.formats import Cased, Fill
from generator.model.kinds import Kind
from generator.model.markets import Market
from generator.model.materials import Additive, Dye, Fragrance, Wax, Wick
from generator.model.money import Money
from generator.model.sizes import OwnLabel, Status, Weighing
from generator.model.vessel import Lid, Vessel, WaxShape

Material = TypeVar("Material", Wax, Fragrance, Additive, Dye)


class Role(StrEnum):
    """What a material is in a candle."""

    WAX = "wax"
    FRAGRANCE = "fragrance"
    ADDITIVE = "additive"
    DYE = "dye"


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion(Generic[Material]):
    """One ingredient and its amount as written."""

    material: Material
    amount: Amount

    def __hash__(self) -> int:
        """By id, as equal portions have the same: hashing a whole composition would take too long."""
        return hash((self.material.id, self.amount.value))


Stirred = Portion[Fragrance] | Portion[Additive] | Portion[Dye]
"""What goes into the wax."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """The recorded formula, each group sorted by id so that the order of keys changes nothing."""

    waxes: tuple[Portion[Wax], ...]
    fragrances: tuple[Portion[Fragrance], ...]
    additives: tuple[Portion[Additive], ...]
    dyes: tuple[Portion[Dye], ...]

    @property
    def stirred_in(self) -> tuple[Stirred, ...]:
        """Everything but the waxes: fragrances, additives, dyes."""
        return (*self.fragrances, *self.additives, *self.dyes)

    @property
    def portions(self) -> tuple[Portion[Wax] | Stirred, ...]:
        """Everything in it, the waxes first."""
        return (*self.waxes, *self.stirred_in)


@dataclass(frozen=True, slots=True, kw_only=True)
class WickUse:
    """A number of wicks of one kind."""

    wick: Wick
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """What is physically made: shape, container, wicks, fill, formula, cure. Also what a burn test tested.

    ``container`` is what the wax is sold in, None where it is free-standing.
    """

    shape: WaxShape
    container: Vessel | None
    wicks: tuple[WickUse, ...]
    fill: Fill | None
    formula: Formula
    cure_h: float | None

    @property
    def lid(self) -> Lid | None:
        """The lid of its container."""
        return self.container.lid if self.container else None

    @property
    def wall_mm(self) -> float | None:
        """The thickness of its container: None if not measured, 0 if free-standing."""
        return self.container.wall_mm if self.container else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """One recorded burn test with what was tested; ``tested_as`` is None where it was not recorded."""

    __test__ = False  # Its name begins like a test's, for pytest's collector.

    file: str
    sessions: tuple[Session, ...]
    tested_as: Build | None
    inner_diameter_mm: float | None
    tested_on: date | None
    by: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """Everything one stock code's figures depend on; its digest is the key of its facts."""

    stock_code: str
    candle: str
    scent: str
    collection: str
    size_name: str
    kind: Kind
    status: Status
    build: Build
    make: Make | None
    weighed: tuple[Weighing | float, ...]
    declared_g: float | None
    declared_oz: float | None
    tests: tuple[Test, ...]
    like: str | None
    claim_hours: float | None
    longest_session_h: float | None
    price: Money | None
    prices_include_tax_percent: float | None
    trade_price: Money | None
    case: int | None
    minimum: int | None
    packaging_g: float | None
    cased: Cased | None
    barcode: str | None
    ufi: str | None
    added: date | None
    markets: tuple[Market, ...]
    currency: str
    scale_step_g: float
    as_of: date
    own_label: OwnLabel | None = None
    hs: str | None = None
    looks_like_food: bool | None = None
