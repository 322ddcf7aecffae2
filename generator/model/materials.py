"""What goes into a candle: waxes, fragrances, additives, dyes and wicks.

``discontinued`` marks what can no longer be bought, so that a batch that needs it is noticed before the pour.
"""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Tag, WithJsonSchema

from generator.model.amounts import ShareOf
from generator.model.dates import Day
from generator.model.entry import (
    BY_FORM,
    COSTS,
    DISCONTINUED,
    DISCONTINUED_KEY,
    FOR_EVERYBODY,
    FOR_YOU,
    NAME,
    NOTES,
    NOTES_KEY,
    WEIGHT,
    About,
    Entry,
    Form,
    Key,
)
from generator.model.hazard_classes import HazardClasses
from generator.model.identifiers import CasNumber, EcNumber
from generator.model.markets import MARKETS, Market
from generator.model.money import Price, PriceByWeight
from generator.model.quantities import Celsius, Flash, GPerMl, Grams, MjPerKg, Mm, MoltenDensity, wrong
from generator.model.sheet_values import Ate, ExactPercent, MFactors, ShareRangeOf, SpecificLimitOf
from generator.model.words import FileName, FreeText, Id, Text, YesNo

_HAZARDS: Final = "the hazard label is calculated from it"
_AMOUNTS: Final = "it turns amounts that are counted into grams"
_ADDED_UP: Final = "it identifies the same substance across all oils of a candle"
_HELD: Final = "what the supplier states is compared with what section 3 leads to"
_DATED: Final = "a sheet more than five years old is too old to classify by"
_SHEET_FOR: Final = "a US sheet cannot classify a candle for Great Britain or the EU"
_REST: Final = "what is not disclosed may be hazardous, and labels state how much of the candle that is"
_SHEET_DATED_KEY: Final = Key("The date of its safety data sheet.", "2025-05-14", FOR_YOU)
_SHEET_FOR_KEY: Final = Key(
    "The market whose rules its safety data sheet follows.", next(iter(MARKETS)), FOR_YOU
)
_COMPOSITION_KEY: Final = Key(
    "Section 3 of its safety data sheet, written here or in a table beside this file.",
    "[{substance: Linalool, cas: 78-70-6, share: 5-10 %, hazards: [Skin Sens. 1B H317]}]",
    FOR_YOU,
)
_UNDISCLOSED_KEY: Final = Key("How much of it the supplier does not disclose.", "2 %", FOR_YOU)
_COMPOSITION: Final = "[{substance: ..., share: ...-... %, hazards: [...]}], or a table beside this file"


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxDensity(Entry):
    """Density of a wax, set (cold, solid) and molten at a temperature."""

    set_g_per_ml: Annotated[
        GPerMl, About(WEIGHT), Key("The density of the wax when it is cold and set.", "0.91 g/ml", FOR_YOU)
    ]
    molten: Annotated[
        MoltenDensity,
        About(WEIGHT),
        Key(
            "The density of the molten wax, and the temperature it was measured at.",
            "0.87 g/ml at 75 C",
            FOR_YOU,
        ),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wax(Entry):
    """A wax or ready blend, as bought."""

    id: Id
    name: Annotated[
        Text, About(NAME), Key("What the wax is called on your pour sheets.", "Rapeseed wax", FOR_YOU)
    ]
    density: Annotated[
        WaxDensity,
        About(WEIGHT),
        Key("How dense the wax is, set and molten.", "{set: 0.91 g/ml, molten: 0.87 g/ml at 75 C}", FOR_YOU),
    ]
    melts_at_c: Annotated[
        Celsius | None,
        About("wax below it would not be molten"),
        Key("The melting point of the wax.", "56 C", FOR_YOU),
    ] = None
    most_fragrance: Annotated[
        ShareOf | None,
        About("a wax with more oil than it holds sweats, and may flare"),
        Key("The most fragrance oil the wax can hold.", "10 % of wax", FOR_YOU),
    ] = None
    declared_as: Annotated[
        tuple[Text, ...],
        About("ingredient lists print these names", "[...]"),
        Key("The names that ingredient lists give the wax.", "[hydrogenated rapeseed oil]", FOR_EVERYBODY),
    ] = ()
    heat_mj_per_kg: Annotated[
        MjPerKg | None,
        About("the heat of the flames is calculated from it"),
        Key("The heat the wax gives off when it burns.", "37.4 MJ/kg", FOR_YOU),
    ] = None
    price: Annotated[
        PriceByWeight | None, About(COSTS), Key("What the wax costs you, by weight.", "4.90 per kg", FOR_YOU)
    ] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED), DISCONTINUED_KEY] = False
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Constituent(Entry):
    """One line of section 3 of a safety data sheet; ``hazards`` is empty only where section 3 says that it has none."""

    substance: Annotated[
        Text,
        About("the label names the substances for which this is required"),
        Key(
            "The name of the substance; a label names it where the law asks for that.",
            "Linalool",
            FOR_EVERYBODY,
        ),
    ]
    cas: Annotated[CasNumber | None, About(_ADDED_UP), Key("Its CAS number.", "78-70-6", FOR_YOU)] = None
    ec: Annotated[EcNumber | None, About(_ADDED_UP), Key("Its EC number.", "201-134-4", FOR_YOU)] = None
    share: Annotated[
        ShareRangeOf,
        About(_HAZARDS),
        Key(
            "How much of the oil it makes up, as section 3 of the safety data sheet says.", "5-10 %", FOR_YOU
        ),
    ]
    hazards: Annotated[
        HazardClasses,
        About(
            "unknown is not the same as none, and the label is calculated from them",
            "[...] with its classes as section 3 gives them, [] if it says there are none, or [unknown]",
        ),
        Key(
            "Its hazard classes, as section 3 of the safety data sheet lists them.",
            "[Skin Sens. 1B H317]",
            FOR_YOU,
        ),
    ]
    limits: Annotated[
        tuple[SpecificLimitOf, ...],
        About(_HAZARDS, "['...: ... %']"),
        Key(
            "Concentration limits of its own, where section 3 gives any.",
            '["Skin Sens. 1A: 0.01 %"]',
            FOR_YOU,
        ),
    ] = ()
    m: Annotated[
        MFactors | None,
        About(_HAZARDS, "{acute: ..., chronic: ...}"),
        Key("Its M-factors, where section 3 gives any.", "{acute: 1}", FOR_YOU),
    ] = None
    ate: Annotated[
        Ate | None,
        About(_HAZARDS, "{oral: ... mg/kg}"),
        Key("Its acute toxicity estimates, where section 3 gives any.", "{oral: 500 mg/kg}", FOR_YOU),
    ] = None


Composition = Annotated[
    Annotated[tuple[Constituent, ...], Tag("list")] | Annotated[FileName, Tag("text")], BY_FORM
]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnClassification(Entry):
    """What the supplier's sheet itself says of a candle that holds the oil at a stated load."""

    at: Annotated[
        ShareOf,
        About("the supplier's classification applies at one load only"),
        Key("The fragrance load that the supplier's classification holds for.", "10 % of total", FOR_YOU),
    ]
    classes: Annotated[
        HazardClasses,
        About(_HELD, "[...]"),
        Key(
            "The hazard classes that the supplier gives a candle at that load.",
            "[Skin Sens. 1B H317]",
            FOR_YOU,
        ),
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fragrance(Entry):
    """A fragrance oil; without a composition its hazards are unknown, never none."""

    id: Id
    name: Annotated[
        Text,
        About(NAME),
        Key("What the oil is called on your pour sheets.", "Samphire and salt accord", FOR_YOU),
    ]
    density_g_per_ml: Annotated[
        GPerMl | None,
        About("it turns an amount in millilitres into grams"),
        Key("The density of the oil.", "0.98 g/ml", FOR_YOU),
    ] = None
    flash_point: Annotated[
        Flash | None,
        About("the pour sheet warns of wax that is too hot for the oil"),
        Key("The flash point of the oil, from section 9 of its safety data sheet.", "93 C", FOR_YOU),
    ] = None
    ifra_category_12: Annotated[
        ShareOf | Literal["no restriction"] | None,
        About("the recipe is checked against it"),
        Key("The most the oil's IFRA certificate allows in category 12, candles.", "22 % of total", FOR_YOU),
    ] = None
    sheet_dated: Annotated[Day | None, About(_DATED), _SHEET_DATED_KEY] = None
    sheet_for: Annotated[Market | None, About(_SHEET_FOR), _SHEET_FOR_KEY] = None
    composition: Annotated[Composition | None, About(_HAZARDS, _COMPOSITION), _COMPOSITION_KEY] = None
    undisclosed_percent: Annotated[ExactPercent | None, About(_REST), _UNDISCLOSED_KEY] = None
    own_classification: Annotated[
        OwnClassification | None,
        About(_HELD, "{at: ... % of total, classes: [...]}"),
        Key(
            "What the supplier's own sheet says of a candle that holds the oil.",
            "{at: 10 % of total, classes: [Skin Sens. 1B H317]}",
            FOR_YOU,
        ),
    ] = None
    price: Annotated[
        PriceByWeight | None,
        About(COSTS),
        Key("What the oil costs you, by weight.", "31.00 per kg", FOR_YOU),
    ] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED), DISCONTINUED_KEY] = False
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive(Entry):
    """Anything stirred in besides wax, fragrance and dye."""

    id: Id
    name: Annotated[
        Text, About(NAME), Key("What it is called on your pour sheets.", "UV absorber, powder", FOR_YOU)
    ]
    teaspoon_g: Annotated[
        Grams | None, About(_AMOUNTS), Key("What a level teaspoon of it weighs.", "3.1 g", FOR_YOU)
    ] = None
    drop_g: Annotated[Grams | None, About(_AMOUNTS), Key("What a drop of it weighs.", "0.03 g", FOR_YOU)] = (
        None
    )
    block_g: Annotated[Grams | None, About(_AMOUNTS), Key("What a block of it weighs.", "10 g", FOR_YOU)] = (
        None
    )
    density_g_per_ml: Annotated[GPerMl | None, About(_AMOUNTS), Key("Its density.", "1.15 g/ml", FOR_YOU)] = (
        None
    )
    sheet_dated: Annotated[Day | None, About(_DATED), _SHEET_DATED_KEY] = None
    sheet_for: Annotated[Market | None, About(_SHEET_FOR), _SHEET_FOR_KEY] = None
    composition: Annotated[Composition | None, About(_HAZARDS, _COMPOSITION), _COMPOSITION_KEY] = None
    undisclosed_percent: Annotated[ExactPercent | None, About(_REST), _UNDISCLOSED_KEY] = None
    price: Annotated[
        PriceByWeight | None, About(COSTS), Key("What it costs you, by weight.", "38.00 per kg", FOR_YOU)
    ] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED), DISCONTINUED_KEY] = False
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dye(Additive):
    """A colour for wax, counted in drops or blocks or weighed."""


_CORES: Final = ("none", "paper", "zinc", "tin", "wood")
_LEAD: Final = "lead"
"""Understood, so that the rules can refuse it with a reason, but never offered."""


def core(written: object) -> object:
    """One of the words for a wick's core."""
    text = str(written).strip()
    if text in (*_CORES, _LEAD):
        return text
    raise wrong(
        f"is '{text}', which is not one of the choices"
        if text
        else "is empty, which is not one of the choices",
        "a core with lead must never burn",
    )


Core = Annotated[
    Literal["none", "paper", "zinc", "tin", "lead", "wood"],
    BeforeValidator(core),
    WithJsonSchema({"enum": list(_CORES)}),
    Form("none (plain cotton braid), paper, zinc, tin or wood"),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wick(Entry):
    """A wick of one series and size; its weight is that of one with its holder."""

    id: Id
    name: Annotated[
        Text,
        About(NAME),
        Key("What the wick is called on the pages and sheets.", "Flat cotton braid, size 24", FOR_EVERYBODY),
    ]
    core: Annotated[
        Core,
        About("a core with lead must never burn"),
        Key("What the core of the wick is made of.", "none", FOR_YOU),
    ]
    trim_mm: Annotated[
        Mm,
        About("the burning advice states it"),
        Key("How long the wick is to be trimmed before each burn.", "6 mm", FOR_EVERYBODY),
    ]
    holder_neck_mm: Annotated[
        Mm | None,
        About("how much of the wax burns is calculated from it"),
        Key("How far the neck of the wick holder stands above the base.", "6 mm", FOR_EVERYBODY),
    ] = None
    weight_g: Annotated[
        Grams | None,
        About("it tells a vessel weighed with its wick from one without"),
        Key("What one wick weighs with its holder.", "1.4 g", FOR_YOU),
    ] = None
    price: Annotated[Price | None, About(COSTS), Key("What one wick costs you.", "0.10", FOR_YOU)] = None
    discontinued: Annotated[YesNo, About(DISCONTINUED), DISCONTINUED_KEY] = False
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None
