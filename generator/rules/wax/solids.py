"""Areas and volumes of plain solids, in mm2 and mm3, from lengths in mm."""

from math import asin, pi, sqrt


def circle_mm2(diameter_mm: float) -> float:
    """Area of a circle.

    A = pi/4 D^2

    diameter_mm: D, mm.
    Holds for every D from 0 up.
    Source: elementary geometry (COMPUTED).

    >>> round(circle_mm2(70.0), 3)
    3848.451
    """
    return pi / 4 * diameter_mm**2


def hexagon_mm2(across_mm: float) -> float:
    """Area of a regular hexagon.

    A = sqrt(3)/2 a^2

    across_mm: a, from flat to flat, mm.
    Holds for every a from 0 up.
    Source: elementary geometry (COMPUTED).

    >>> round(hexagon_mm2(70.0), 3)
    4243.524
    """
    return sqrt(3) / 2 * across_mm**2


def rounded_square_mm2(side_mm: float, corner_mm: float) -> float:
    """Area of a square whose corners are quarter circles.

    A = a^2 - (4 - pi) r^2

    side_mm: a, mm.
    corner_mm: r, radius of the corners, mm.
    Holds for r from 0 to a/2.
    Source: elementary geometry (COMPUTED).

    >>> round(rounded_square_mm2(70.0, 8.0), 3)
    4845.062
    """
    return side_mm**2 - (4 - pi) * corner_mm**2


def ellipse_mm2(long_mm: float, short_mm: float) -> float:
    """Area of an ellipse.

    A = pi/4 a b

    long_mm: a, the long diameter, mm.
    short_mm: b, the short diameter, mm.
    Holds for every a and b from 0 up.
    Source: elementary geometry (COMPUTED).

    >>> round(ellipse_mm2(90.0, 60.0), 3)
    4241.15
    """
    return pi / 4 * long_mm * short_mm


def frustum_mm3(base_mm: float, rim_mm: float, height_mm: float) -> float:
    """Volume of a cone cut level at both ends.

    V = pi h/12 (D0^2 + D0 D1 + D1^2)

    base_mm: D0, diameter at the bottom, mm.
    rim_mm: D1, diameter at the top, mm.
    height_mm: h, mm.
    Holds for every D0, D1 and h from 0 up; equal diameters make a cylinder.
    Source: elementary geometry (COMPUTED).

    >>> round(frustum_mm3(60.0, 75.0, 85.0), 3)
    305421.711
    """
    return pi * height_mm / 12 * (base_mm**2 + base_mm * rim_mm + rim_mm**2)


def rounded_base_mm3(diameter_mm: float, corner_mm: float, level_mm: float) -> float:
    """Volume, up to a level inside the corner, of a round vessel whose wall meets its base in a quarter circle.

    V = pi [c^2 z + 2 c (pi f^2/4 - a/2 sqrt(f^2 - a^2) - f^2/2 asin(a/f)) + f^2 z - (f^3 - a^3)/3],
    with c = D/2 - f and a = f - z

    diameter_mm: D, mm.
    corner_mm: f, radius of the corner, mm.
    level_mm: z, mm.
    Holds for f above 0 and up to D/2, and z from 0 to f.
    Source: the integral of pi (c + sqrt(f^2 - (f - z)^2))^2 (COMPUTED).

    >>> round(rounded_base_mm3(70.0, 10.0, 10.0), 3)
    34066.355
    """
    flat = diameter_mm / 2 - corner_mm
    rest = corner_mm - level_mm
    under_arc = pi * corner_mm**2 / 4 - (
        rest / 2 * sqrt(corner_mm**2 - rest**2) + corner_mm**2 / 2 * asin(rest / corner_mm)
    )
    return pi * (
        flat**2 * level_mm + 2 * flat * under_arc + corner_mm**2 * level_mm - (corner_mm**3 - rest**3) / 3
    )


def cap_mm3(radius_mm: float, level_mm: float) -> float:
    """Volume of a sphere from its lowest point up to a level.

    V = pi z^2 (3 R - z)/3

    radius_mm: R, of the sphere, mm.
    level_mm: z, mm.
    Holds for z from 0 to 2 R.
    Source: elementary geometry (COMPUTED).

    >>> round(cap_mm3(55.0, 40.0), 3)
    209439.51
    """
    return pi * level_mm**2 * (3 * radius_mm - level_mm) / 3


def sphere_radius_mm(rim_mm: float, height_mm: float) -> float:
    """Radius of the sphere of which a bowl is the lower part.

    R = (a^2 + h^2)/(2 h), with a = rim/2

    rim_mm: diameter of the opening, mm.
    height_mm: h, depth in the middle, mm.
    Holds for h above 0; above rim/2 the bowl is deeper than half a sphere.
    Source: elementary geometry (COMPUTED).

    >>> round(sphere_radius_mm(105.830052, 40.0), 6)
    55.0
    """
    return ((rim_mm / 2) ** 2 + height_mm**2) / (2 * height_mm)
