"""The printed numbers of the outside world, with their sources and how well each is known.

Marks: FOUND, read in the source named; FOUND-2nd, read in a report of it; MEMORY, recalled; COMPUTED, worked out
with the tool named; PRACTICE, common practice, no source; CHOICE, ours.
"""

from dataclasses import dataclass
from decimal import Decimal

from generator.model.vessel import Bowl, Cone, Cylinder, Hexagon, Oval, Profile, Rounded, Shape, Square


@dataclass(frozen=True)
class Printed:
    """A number as a source prints it: right to half a unit in its last digit."""

    text: str
    source: str

    def agrees_with(self, ours: float | Decimal) -> bool:
        printed = Decimal(self.text)
        half_a_unit = Decimal((0, (5,), int(printed.as_tuple().exponent) - 1))
        return abs(Decimal(ours) - printed) <= half_a_unit


JAR = Cylinder(shape="cylinder", diameter_mm=70.0, height_mm=80.0)
TAPERED = Cone(shape="cone", base_mm=60.0, rim_mm=75.0, height_mm=85.0)
SOFT_BASE = Rounded(shape="rounded", diameter_mm=70.0, height_mm=80.0, corner_mm=10.0)
SIX_SIDED = Hexagon(shape="hexagon", across_mm=70.0, height_mm=75.0)
FOUR_SIDED = Square(shape="square", side_mm=70.0, corner_mm=8.0, height_mm=75.0)
OVAL = Oval(shape="oval", long_mm=90.0, short_mm=60.0, height_mm=50.0)
BOWL = Bowl(shape="bowl", rim_mm=105.8300524425836, height_mm=40.0)
HALF_SPHERE = Bowl(shape="bowl", rim_mm=90.0, height_mm=45.0)
MEASURED = Profile(
    shape="profile",
    points=((0.0, 40.0), (5.0, 58.0), (12.0, 66.0), (60.0, 72.0), (75.0, 70.0), (80.0, 64.0)),
)

_CLOSED = "physics.md E: closed form, trimesh 5.2.0 within its facets (COMPUTED)"
_QUAD = "physics.md E: scipy 1.17.1 integrate.quad (COMPUTED)"
_BRENT = "physics.md E: scipy 1.17.1 optimize.brentq (COMPUTED)"

VOLUMES_ML: dict[str, tuple[Shape, float, Printed]] = {
    "a cylinder": (JAR, 80.0, Printed("307.876080", _CLOSED)),
    "a cone": (TAPERED, 85.0, Printed("305.421711", _QUAD)),
    "a cone to 10 mm": (TAPERED, 10.0, Printed("29.114085", _CLOSED)),
    "a cone to 12.7 mm": (TAPERED, 12.7, Printed("37.266389", _CLOSED)),
    "a cone to 70 mm": (TAPERED, 70.0, Printed("241.465094", _CLOSED)),
    "a rounded base": (SOFT_BASE, 80.0, Printed("303.457925", _QUAD)),
    "a rounded base to its corner": (SOFT_BASE, 10.0, Printed("34.066355", _QUAD)),
    "a rounded base above its corner": (SOFT_BASE, 12.7, Printed("44.457172", _QUAD)),
    "a hexagon": (SIX_SIDED, 75.0, Printed("318.264336", _CLOSED)),
    "a square": (FOUR_SIDED, 75.0, Printed("363.379645", _CLOSED)),
    "an oval": (OVAL, 50.0, Printed("212.057504", _CLOSED)),
    "a bowl": (BOWL, 40.0, Printed("209.439510", "physics.md E: quad, fluids 1.3.1 (COMPUTED)")),
    "a bowl to 12.7 mm": (BOWL, 12.7, Printed("25.723850", "physics.md F: fluids 1.3.1 (COMPUTED)")),
    "half a sphere": (HALF_SPHERE, 45.0, Printed("190.851754", _CLOSED)),
    "a profile": (MEASURED, 80.0, Printed("287.327970", _QUAD)),
    "a profile to 10 mm": (MEASURED, 10.0, Printed("24.089391", _QUAD)),
    "a profile to 12.7 mm": (MEASURED, 12.7, Printed("33.095561", _QUAD)),
    "a profile to 65 mm": (MEASURED, 65.0, Printed("230.465724", _QUAD)),
    "a profile to 70 mm": (MEASURED, 70.0, Printed("250.261831", _QUAD)),
}

LEVELS_MM: dict[str, tuple[Shape, float, Printed]] = {
    "200 ml of the profile": (MEASURED, 200.0, Printed("57.459992", _BRENT)),
    "250 ml of the cone": (TAPERED, 250.0, Printed("72.065430", _BRENT)),
}

_HARMONIC = "physics.md A4: volumes add up (COMPUTED)"
BLENDS_G_PER_ML: dict[str, tuple[tuple[tuple[float, float], ...], Printed]] = {
    "B1 soy and fragrance": (((1000.0, 0.900), (91.6667, 0.980)), Printed("0.906212", _HARMONIC)),
    "B2 soy, coconut, fragrance": (
        ((70.0, 0.900), (22.0, 0.915), (8.0, 1.020)),
        Printed("0.911871", _HARMONIC),
    ),
    "B3 paraffin, beeswax, soy, fragrance": (
        ((60.0, 0.900), (20.0, 0.960), (12.0, 0.900), (8.0, 0.950)),
        Printed("0.915295", _HARMONIC),
    ),
    "B4 is B1 at 75 C": (((1000.0, 0.870), (91.6667, 0.935)), Printed("0.875108", _HARMONIC)),
    "B5 paraffin and a light oil": (((92.0, 0.900), (8.0, 0.860)), Printed("0.896664", _HARMONIC)),
    "B6 far apart": (((50.0, 0.841), (50.0, 1.150)), Printed("0.971522", _HARMONIC)),
    "B7 hot paraffin": (((92.0, 0.762), (8.0, 0.900)), Printed("0.771463", _HARMONIC)),
}

_ALGEBRA = "physics.md A6: q = p/(1 + p) (COMPUTED)"
LOADS_PERCENT: dict[str, tuple[str, Printed, Printed]] = {
    "the trade's batch": ("2.2 oz", Printed("9.1667", _ALGEBRA), Printed("8.3969", _ALGEBRA)),
    "10 % of wax": ("10 % of wax", Printed("10", _ALGEBRA), Printed("9.0909", _ALGEBRA)),
    "10 % of total": ("10 % of total", Printed("11.111111", _ALGEBRA), Printed("10", _ALGEBRA)),
    "6 % of wax": ("6 % of wax", Printed("6", _ALGEBRA), Printed("5.6604", _ALGEBRA)),
    "8 % of total": ("8 % of total", Printed("8.6957", _ALGEBRA), Printed("8", _ALGEBRA)),
    "12 % of wax": ("12 % of wax", Printed("12", _ALGEBRA), Printed("10.7143", _ALGEBRA)),
}
"""The fragrance as written beside 24 oz of wax; its share of the wax; its share of the total."""

US_QUANTITIES: dict[str, tuple[float, int, str]] = {
    "V1, rule FOUND (N8, N9)": (184.3, 1, "6.5 oz (184 g)"),
    "V2, FOUND": (184.2, 1, "6.4 oz (184 g)"),
    "V2 at two places, FOUND": (184.2, 2, "6.49 oz (184 g)"),
    "V3, FOUND": (226.8, 1, "8 oz (226 g)"),
    "V4, FOUND": (227.0, 1, "8 oz (227 g)"),
    "V5, FOUND": (226.7, 1, "7.9 oz (226 g)"),
    "V6, FOUND": (200.0, 2, "7.05 oz (200 g)"),
    "V7, FOUND": (250.0, 2, "8.81 oz (250 g)"),
    "V8, FOUND": (99.9, 1, "3.5 oz (99 g)"),
    "V9, FOUND": (85.0, 1, "2.9 oz (85 g)"),
    "V10, FOUND-2nd": (453.6, 1, "1 lb (453 g)"),
    "V11, FOUND-2nd": (453.5, 1, "15.9 oz (453 g)"),
    "V12, FOUND-2nd": (510.0, 1, "1 lb 1.9 oz (510 g)"),
    "V13, FOUND-2nd": (680.4, 1, "1 lb 8 oz (680 g)"),
    "V14, FOUND-2nd and MEMORY": (1275.7, 1, "2 lb 12.9 oz (1.27 kg)"),
}
"""Net weight, places of the ounces, and the declaration: standards.md 7, V1 to V14, by 16 CFR 500.9 and 500.19."""
