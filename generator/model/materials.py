"""What goes into a candle: waxes, fragrances, additives, dyes and wicks.

``discontinued`` marks what can no longer be bought, so that a batch which needs it is noticed before the pour.
"""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Tag, WithJsonSchema

from generator.model.amounts import ShareOf
from generator.model.dates import Day
from generator.model.entry import BY_FORM, COSTS, DISCONTINUED, NAME, NOTES, WEIGHT, About, Entry, Form
from generator.model.hazard_classes import HazardClasses
from generator.model.identifiers import CasNumber, EcNumber
from generator.model.markets import Market
from generator.model.money import Price, PriceByWeight
from generator.model.quantities import Celsius, Flash, GPerMl, Grams, MjPerKg, Mm, MoltenDensity, wrong
from generator.model.sheet_values import Ate, ExactPercent, MFactors, ShareRangeOf, SpecificLimitOf
from generator.model.words import FileName, FreeText, Id, Text, YesNo

_HAZARDS: Final = "the hazard label is worked out from it"
_AMOUNTS: Final = "amounts that are counted and not weighed are turned into grams by it"
_ADDED_UP: Final = "the same substance is added up by it across all oils of a candle"
_HELD: Final = "what the supplier says is held against what section 3 leads to"
_DATED: Final = "a sheet of more than five years ago is too old to classify by"
_SHEET_FOR: Final = "a sheet for the US cannot classify a candle for Great Britain or the EU"
_REST: Final = "what is not disclosed may be hazardous, and labels say how much of the candle that is"
_COMPOSITION: Final = "[{substance: ..., share: ...-... %, hazards: [...]}], or a table beside this file"


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxDensity(Entry):
    """Density of a wax, set (cold, solid) and molten at a temperature."""

    set_g_per_ml: Annotated[GPerMl, About(WEIGHT)]
    molten: Annotated[MoltenDensity, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wax(Entry):
    """A wax or ready blend, as bought."""

    id: Id
    name: Annotated[Text, About(NAME)]
    density: Annotated[WaxDensity, About(WEIGHT)]
    melts_at_c: Annotated[Celsius | None, About("a line or a pour below it could not be molten")] = None
    most_fragrance: Annotated[
        ShareOf | None, About("a wax that is given more oil than it holds sweats, and may flare")
    ] = None
    declared_as: Annotated[tuple[Text, ...], About("ingredient lists print these names", "[...]")] = ()
    heat_mj_per_kg: Annotated[MjPerKg | None, About("the heat of the flames is worked out from it")] = None
    price: Annotated[PriceByWeight | None, About(COSTS)] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED)] = False
    notes: Annotated[FreeText | None, About(NOTES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Constituent(Entry):
    """One line of section 3 of a safety data sheet; ``hazards`` is empty only where section 3 says that it has none."""

    substance: Annotated[Text, About("the label names the substances that call for it")]
    cas: Annotated[CasNumber | None, About(_ADDED_UP)] = None
    ec: Annotated[EcNumber | None, About(_ADDED_UP)] = None
    share: Annotated[ShareRangeOf, About(_HAZARDS)]
    hazards: Annotated[
        HazardClasses,
        About(
            "unknown is not the same as none, and the label is worked out from them",
            "[...] with its classes as section 3 gives them, [] if it says there are none, or [unknown]",
        ),
    ]
    limits: Annotated[tuple[SpecificLimitOf, ...], About(_HAZARDS, "['...: ... %']")] = ()
    m: Annotated[MFactors | None, About(_HAZARDS, "{acute: ..., chronic: ...}")] = None
    ate: Annotated[Ate | None, About(_HAZARDS, "{oral: ... mg/kg}")] = None


Composition = Annotated[
    Annotated[tuple[Constituent, ...], Tag("list")] | Annotated[FileName, Tag("text")], BY_FORM
]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnClassification(Entry):
    """What the supplier's sheet itself says of a candle that holds the oil at a stated load."""

    at: Annotated[ShareOf, About("the supplier's classification holds for one load only")]
    classes: Annotated[HazardClasses, About(_HELD, "[...]")] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fragrance(Entry):
    """A fragrance oil; without a composition its hazards are unknown, never none."""

    id: Id
    name: Annotated[Text, About(NAME)]
    density_g_per_ml: Annotated[
        GPerMl | None, About("an amount in millilitres is turned into grams by it")
    ] = None
    flash_point: Annotated[
        Flash | None, About("the pour sheet warns of a wax that is too hot for the oil")
    ] = None
    ifra_category_12: Annotated[
        ShareOf | Literal["no restriction"] | None, About("the formula is held against it")
    ] = None
    sheet_dated: Annotated[Day | None, About(_DATED)] = None
    sheet_for: Annotated[Market | None, About(_SHEET_FOR)] = None
    composition: Annotated[Composition | None, About(_HAZARDS, _COMPOSITION)] = None
    undisclosed_percent: Annotated[ExactPercent | None, About(_REST)] = None
    own_classification: Annotated[
        OwnClassification | None, About(_HELD, "{at: ... % of total, classes: [...]}")
    ] = None
    price: Annotated[PriceByWeight | None, About(COSTS)] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED)] = False
    notes: Annotated[FreeText | None, About(NOTES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive(Entry):
    """Anything stirred in besides wax, fragrance and dye."""

    id: Id
    name: Annotated[Text, About(NAME)]
    teaspoon_g: Annotated[Grams | None, About(_AMOUNTS)] = None
    drop_g: Annotated[Grams | None, About(_AMOUNTS)] = None
    block_g: Annotated[Grams | None, About(_AMOUNTS)] = None
    density_g_per_ml: Annotated[GPerMl | None, About(_AMOUNTS)] = None
    sheet_dated: Annotated[Day | None, About(_DATED)] = None
    sheet_for: Annotated[Market | None, About(_SHEET_FOR)] = None
    composition: Annotated[Composition | None, About(_HAZARDS, _COMPOSITION)] = None
    undisclosed_percent: Annotated[ExactPercent | None, About(_REST)] = None
    price: Annotated[PriceByWeight | None, About(COSTS)] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED)] = False
    notes: Annotated[FreeText | None, About(NOTES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dye(Additive):
    """A colour for wax, counted in drops or blocks or weighed."""


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
    )


Core = Annotated[
    Literal["none", "paper", "zinc", "tin", "lead", "wood"],
    BeforeValidator(core),
    WithJsonSchema({"enum": list(_CORES)}),
    Form("none (plain cotton braid), paper, zinc, tin or wood"),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wick(Entry):
    """A wick of one series and size; it weighs what one does with its holder."""

    id: Id
    name: Annotated[Text, About(NAME)]
    core: Annotated[Core, About("a core that holds lead must never burn")]
    trim_mm: Annotated[Mm, About("the burning advice says it")]
    holder_neck_mm: Annotated[Mm | None, About("what of the wax burns is worked out from it")] = None
    weight_g: Annotated[
        Grams | None, About("a vessel weighed with its wick is told from one without by it")
    ] = None
    price: Annotated[Price | None, About(COSTS)] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED)] = False
    notes: Annotated[FreeText | None, About(NOTES)] = None
