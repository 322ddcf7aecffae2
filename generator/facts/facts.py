"""Every figure any paper may print, once per stock code, and how each was worked out."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, NamedTuple

from generator.facts.hazard_facts import HazardFacts
from generator.model.burn_safety import BurnAdvice, BurnHours, DeclaredStatus, WeightBasis
from generator.model.kinds import Kind
from generator.model.markets import Market
from generator.model.recorded import Role
from generator.problems import Path

Shown = Literal["public", "private"]


# A candle has dozens of these, so they are tuples: a frozen dataclass takes 2.5 times as long to make.
class Input(NamedTuple):
    """One number that a figure was worked out from; ``origin`` is the recorded field it came from, if any.

    A public figure may depend on private numbers, which the public page leaves out.
    """

    name: str
    value: float
    unit: str
    origin: Path | None = None
    shown: Shown = "public"


class Figure(NamedTuple):
    """One figure with its derivation: ``formula`` is arithmetic over the names of ``inputs``.

    Written with + - * / ^ ( ) and pi, sqrt, asin, floor, min, max; worked out from the inputs as printed, it
    gives ``value``. ``label`` and ``source`` name sentences among the words of each language, under
    ``figure_labels`` and ``figure_sources``. ``shown`` says whether the public page may print it (never recorded
    amounts, shares, densities or costs).
    """

    name: str
    label: str
    value: float
    unit: str
    formula: str
    inputs: tuple[Input, ...]
    source: str
    shown: Shown = "public"


@dataclass(frozen=True, slots=True, kw_only=True)
class ContainerFacts:
    """What the wax is sold in, as any paper may print it."""

    id: str
    name: str
    material: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeFacts:
    """The measurements of the wax's shape as any paper may print them."""

    brimful_ml: float
    diameter_mm: float
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WickFacts:
    """The wicks: id and name, total number, and how far to trim them."""

    id: str
    name: str
    count: int
    trim_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFacts:
    """One material of the blend with its share on both bases; for the workshop only."""

    id: str
    name: str
    role: Role
    of_wax_percent: Decimal
    of_total_percent: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class TestFacts:
    """The results of the recorded burn tests, and what has changed since."""

    __test__ = False  # Its name begins like a test's, for pytest's collector.

    files: tuple[str, ...]
    pieces: int
    sessions: int
    coverage: float | None
    excluded: tuple[str, ...]
    matches: bool
    moved: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """One piece of a burn test: wax left in grams after so many hours, at the net weight before the first."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnTrack:
    """Every piece that counts, the fitted rate, what stays in the vessel, and the hours claimed."""

    net_g: float
    heel_g: float
    rate_g_per_h: float
    claim_h: int
    tracks: tuple[Track, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Everything worked out for one stock code. Absent is None; numbers are unrounded; money is exact."""

    stock_code: str
    candle: str
    kind: Kind
    margin_percent: Decimal | None
    minimum_cartons: int | None
    hs_heading: str | None
    site_path: str
    safety_path: str

    container: ContainerFacts | None
    shape: ShapeFacts
    wick: WickFacts | None

    fill_volume_ml: float
    level_set_mm: float | None
    net_weight_g: float
    net_weight_basis: WeightBasis
    net_weight_error_percent: float
    weighed_n: int
    declared: Mapping[Market, str | None]
    """The net quantity a paper of that market prints; None where the weight is only estimated."""
    estimated: Mapping[Market, str]
    """The best estimate as a quantity; a paper that prints it marks it as one."""
    declared_status: DeclaredStatus
    declared_g: int | None
    """The whole grams declared or estimated; None from a kilogram on."""

    density_set_g_per_ml: float
    density_molten_g_per_ml: float
    fragrance_of_wax_percent: float
    fragrance_of_total_percent: float
    heel_g: float | None
    burnable_g: float | None
    lhv_mj_per_kg: float
    heat_w: float | None
    gross_g: float | None
    case_g: float | None

    rate_g_per_h: float | None
    rate_high_g_per_h: float | None
    burn_hours: BurnHours | None
    burn_test: TestFacts
    burn_track: BurnTrack | None
    """What the burn tests weighed; None without one that gives a rate and hours."""
    first_burn_h: float | None
    session_limit_h: float | None
    stop_depth_mm: float | None
    advice: Mapping[Market, BurnAdvice]

    hazards: Mapping[Market, HazardFacts | None]
    outline_mm: tuple[tuple[float, float], ...]
    """The inside from base to rim as (radius, height), for drawings."""
    contains: tuple[str, ...]
    parts: tuple[PartFacts, ...]
    figures: tuple[Figure, ...]
    sources: Mapping[str, str]
