"""What goes into a candle: waxes, fragrances, additives, dyes and wicks.

``discontinued`` marks what can no longer be bought, so that a batch which needs it is noticed before the pour.
"""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Tag, WithJsonSchema

from generator.model.amounts import ShareOf
from generator.model.dates import Day
from generator.model.entry import BY_FORM, ENTRY
from generator.model.hazards import HazardClasses
from generator.model.identifiers import CasNumber, EcNumber
from generator.model.money import Price, PriceByWeight
from generator.model.quantities import Celsius, Flash, GPerMl, Grams, MjPerKg, Mm, MoltenDensity, wrong
from generator.model.sheet_values import Ate, ExactPercent, MFactors, ShareRangeOf, SpecificLimitOf
from generator.model.words import FileName, FreeText, Id, Text, YesNo


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxDensity:
    """Density of a wax, set (cold, solid) and molten at a temperature."""

    __pydantic_config__ = ENTRY

    set_g_per_ml: GPerMl
    molten: MoltenDensity


@dataclass(frozen=True, slots=True, kw_only=True)
class Wax:
    """A wax or ready blend, as bought."""

    __pydantic_config__ = ENTRY

    id: Id
    name: Text
    density: WaxDensity
    melts_at_c: Celsius | None = None
    most_fragrance: ShareOf | None = None
    declared_as: tuple[Text, ...] = ()
    heat_mj_per_kg: MjPerKg | None = None
    price: PriceByWeight | None = None
    discontinued: YesNo = False
    notes: FreeText | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Constituent:
    """One line of section 3 of a safety data sheet."""

    __pydantic_config__ = ENTRY

    substance: Text
    cas: CasNumber | None = None
    ec: EcNumber | None = None
    share: ShareRangeOf
    hazards: HazardClasses = ()
    limits: tuple[SpecificLimitOf, ...] = ()
    m: MFactors | None = None
    ate: Ate | None = None


Composition = Annotated[
    Annotated[tuple[Constituent, ...], Tag("list")] | Annotated[FileName, Tag("text")], BY_FORM
]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnClassification:
    """What the supplier's sheet itself says of a candle that holds the oil at a stated load."""

    __pydantic_config__ = ENTRY

    at: ShareOf
    classes: HazardClasses = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fragrance:
    """A fragrance oil; without a composition its hazards are unknown, never none."""

    __pydantic_config__ = ENTRY

    id: Id
    name: Text
    density_g_per_ml: GPerMl | None = None
    flash_point: Flash | None = None
    ifra_category_12: ShareOf | Literal["no restriction"] | None = None
    sheet_dated: Day | None = None
    composition: Composition | None = None
    undisclosed_percent: ExactPercent | None = None
    own_classification: OwnClassification | None = None
    price: PriceByWeight | None = None
    discontinued: YesNo = False
    notes: FreeText | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive:
    """Anything stirred in besides wax, fragrance and dye."""

    __pydantic_config__ = ENTRY

    id: Id
    name: Text
    teaspoon_g: Grams | None = None
    drop_g: Grams | None = None
    block_g: Grams | None = None
    density_g_per_ml: GPerMl | None = None
    sheet_dated: Day | None = None
    composition: Composition | None = None
    undisclosed_percent: ExactPercent | None = None
    price: PriceByWeight | None = None
    discontinued: YesNo = False
    notes: FreeText | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dye(Additive):
    """A colour for wax, counted in drops or blocks or weighed."""

    __pydantic_config__ = ENTRY


_CORES: Final = ("none", "paper", "zinc", "tin", "wood")
_LEAD: Final = "lead"
"""It is understood so that the rules can refuse it with their reason, and never offered."""


def core(written: object) -> object:
    """One of the words for a wick's core."""
    text = str(written).strip()
    if text in (*_CORES, _LEAD):
        return text
    raise wrong(
        f"is '{text}', not one of its words" if text else "is empty, not one of its words",
        "a core that holds lead must never burn",
        "none (plain cotton braid), paper, zinc, tin or wood",
    )


Core = Annotated[
    Literal["none", "paper", "zinc", "tin", "lead", "wood"],
    BeforeValidator(core),
    WithJsonSchema({"enum": list(_CORES)}),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wick:
    """A wick of one series and size; it weighs what one does with its holder."""

    __pydantic_config__ = ENTRY

    id: Id
    name: Text
    core: Core
    trim_mm: Mm
    holder_neck_mm: Mm | None = None
    weight_g: Grams | None = None
    price: Price | None = None
    discontinued: YesNo = False
    notes: FreeText | None = None
