"""A vessel's capacity, measured with water: a volume, or the weight of the water and its temperature."""

import re
from typing import Annotated, Final

from generator.model.quantities import GRAMS, MASS, ML, NUMBER, VOLUME, WITH_UNIT, as_text, celsius, wrong

COLDEST_WATER_C: Final = 0.0
HOTTEST_WATER_C: Final = 100.0


def brimful_from_text(written: object) -> float:
    """A vessel's measured capacity in ml: a volume, or the water it holds (``389 g of water at 20 C``)."""
    text = " ".join(str(written).split())
    amount, water, temperature = text.partition(" of water")
    if not water:
        _refuse_weight_alone(text)
        return VOLUME.number(text)
    at_c = celsius(temperature.removeprefix(" at ")) if temperature else 20.0
    if not COLDEST_WATER_C <= at_c <= HOTTEST_WATER_C:
        raise wrong(
            f"is '{text}'; water is not liquid at {at_c:g} C",
            "the vessel's content is calculated from the weight of the water and its temperature",
            f"{amount} of water at ... C",
        )
    match = WITH_UNIT.fullmatch(amount)
    if match is not None and match[2].lower() in GRAMS:
        return MASS.number(amount) / water_density_g_per_ml(at_c)
    return VOLUME.number(amount)


def _refuse_weight_alone(text: str) -> None:
    weight = re.fullmatch(rf"({NUMBER}\s*({'|'.join(GRAMS)}))(?: water)?", text, re.IGNORECASE)
    if weight is None:
        return
    number = weight[1].removesuffix(weight[2]).strip()
    fluid = [f"{number} US fl oz", f"{number} imp fl oz"] if weight[2].lower() == "oz" else []
    raise wrong(
        f"is '{text}'; expected a volume or a weight of water",
        "wax and water fill the same vessel with different weights",
        ", or ".join((f"{weight[1]} of water at ... C", *fluid)),
    )


def water_density_g_per_ml(at_c: float) -> float:
    """Density of air-free water at 1 atm, in g/ml.

    rho = (999.83952 + 16.945176 t - 7.9870401e-3 t^2 - 46.170461e-6 t^3 + 105.56302e-9 t^4
    - 280.54253e-12 t^5) / (1 + 16.879850e-3 t) / 1000

    at_c: temperature of the water, degC.
    Holds from 0 to 100 degC; refuses others.
    Source: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97 (MEMORY); compared with IAPWS-95 in the tests.

    >>> round(water_density_g_per_ml(20.0), 4)
    0.9982
    """
    if not COLDEST_WATER_C <= at_c <= HOTTEST_WATER_C:
        raise ValueError(f"water at {at_c} C is not between {COLDEST_WATER_C} and {HOTTEST_WATER_C} C")
    coefficients = (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)
    above = sum(c * at_c**power for power, c in enumerate(coefficients))
    return above / (1 + 16.879850e-3 * at_c) / 1000


Brimful = Annotated[
    float,
    *as_text(
        brimful_from_text,
        rf"^{NUMBER}\s*(({'|'.join(ML)})|({'|'.join((*ML, *GRAMS))}) of water( at .+)?)$",
        "390 ml, or 389 g of water at 20 C",
        "... ml, or ... g of water at ... C",
    ),
]
