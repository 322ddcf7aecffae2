"""Invented entries for the tests of the rules, as a maker would record them."""

from decimal import Decimal
from fractions import Fraction

from generator.model.amounts import amount
from generator.model.formats import Fill
from generator.model.maker import Maker
from generator.model.materials import Additive, Dye, Fragrance, Wax, WaxDensity
from generator.model.quantities import DensityAt
from generator.model.recorded import Build, Formula, Portion, Role
from generator.model.shop import Shop
from generator.model.vessel import Shape, WaxShape
from generator.rules.wax.blend import Blend, resolve
from generator.rules.wax.portions import Ingredient
from tests.conftest import TODAY
from tests.references import JAR

SOY = Wax(id="soy", name="Soy wax", density=WaxDensity(set_g_per_ml=0.900, molten=DensityAt(0.870, 75.0)))
COCONUT = Wax(
    id="coconut", name="Coconut wax", density=WaxDensity(set_g_per_ml=0.915, molten=DensityAt(0.880, 70.0))
)
OIL = Fragrance(id="oil", name="Tide line", density_g_per_ml=0.980)
UV_ABSORBER = Additive(id="uv", name="UV absorber", teaspoon_g=3.1)
DYE = Dye(id="slate", name="Slate grey", drop_g=0.03, block_g=10.0)

EMPTY = Shop(
    maker=Maker(
        name="House",
        address=("Lane",),
        country="GB",
        email="hello@house.example",
        markets=("GB", "EU", "US"),
        currency="GBP",
        as_of=None,
    ),
    as_of=TODAY,
    collections={},
    waxes={},
    fragrances={},
    additives={},
    dyes={},
    wicks={},
    vessels={},
    formats={},
    candles={},
    burn_tests={},
    pages={},
    photos=frozenset(),
    lots=(),
    recalls={},
)
"""A shop before its first entry."""


def formula(
    waxes: dict[Wax, str],
    fragrances: dict[Fragrance, str] | None = None,
    additives: dict[Additive, str] | None = None,
    dyes: dict[Dye, str] | None = None,
) -> Formula:
    """A formula from materials and their amounts as written."""
    return Formula(
        waxes=tuple(Portion(material=m, amount=amount(a)) for m, a in waxes.items()),
        fragrances=tuple(Portion(material=m, amount=amount(a)) for m, a in (fragrances or {}).items()),
        additives=tuple(Portion(material=m, amount=amount(a)) for m, a in (additives or {}).items()),
        dyes=tuple(Portion(material=m, amount=amount(a)) for m, a in (dyes or {}).items()),
    )


def blended(recorded: Formula) -> Blend:
    """The batch of a formula that has no faults which stop it."""
    blend, faults = resolve(recorded)
    if blend is None:
        raise ValueError(faults)
    return blend


def ingredient(id_: str, role: Role, grams: str | Decimal) -> Ingredient:
    """So many grams of something of which no more is known."""
    return Ingredient(role=role, material=Additive(id=id_, name=id_), exact_g=Fraction(grams))


SCENTED_SOY = formula({SOY: "1000 g"}, {OIL: "91.6667 g"})
"""B1 of physics.md A4."""


def wax_shape(
    inside: Shape = JAR, brimful_ml: float | None = None, displaced_ml: float | None = None
) -> WaxShape:
    """Wax of that inside."""
    return WaxShape(id="jar", inside=inside, brimful_ml=brimful_ml, displaced_ml=displaced_ml)


def build(fill: Fill | None, of: WaxShape | None = None, recorded: Formula = SCENTED_SOY) -> Build:
    """What is made: scented soy in the shape of a jar, filled so, in no container."""
    return Build(shape=of or wax_shape(), container=None, wicks=(), fill=fill, formula=recorded, cure_h=None)
