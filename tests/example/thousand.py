"""Writes a shop of as many different stock codes as wanted, to measure and to test with.

Names, recipes, vessels, prices and burn tests all vary, none is a copy of another, and the figures agree:
candles weigh what their vessels hold and burn down to the wax that is left. The same seed gives the same shop.
"""

import colorsys
import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count, pairwise
from pathlib import Path
from random import Random
from typing import Final

from tests.example.thousand_words import (
    COLLECTIONS,
    CONSTITUENTS,
    DYES,
    ENDINGS,
    FIRST,
    MIDDLES,
    OPENINGS,
    SCENTS,
    SEASONS,
    SECOND,
    SHARES,
    STATUSES,
    WAXES,
)

STOP_MM: Final = 12.7
OIL_DENSITY: Final = 0.98
TESTED_EVERY: Final = 10
WAX_DENSITY: Final = {id_: set_density for id_, _, set_density, *_ in WAXES}
Files = Iterator[tuple[str, str]]
"""Names of files below the content folder, and their text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Glass:
    """A vessel with its format: inner sizes in mm, its own weight, and how many wicks it takes."""

    id: str
    shape: str
    across_mm: int
    rim_mm: int
    height_mm: int
    fill_mm: int
    weight_g: int
    wicks: int
    price: int

    def inside(self) -> str:
        """The inside as an entry writes it."""
        measured = {
            "cylinder": f"diameter: {self.across_mm} mm",
            "hexagon": f"across: {self.across_mm} mm",
            "square": f"side: {self.across_mm} mm, corner: 6 mm",
            "cone": f"base: {self.across_mm} mm, rim: {self.rim_mm} mm",
        }
        return f"{{shape: {self.shape}, {measured[self.shape]}, height: {self.height_mm} mm}}"

    def holds_ml(self, to_mm: float) -> float:
        """The content up to a height."""
        a = self.across_mm
        if self.shape == "cone":
            b = a + (self.rim_mm - a) * to_mm / self.height_mm
            return math.pi / 12 * to_mm * (a * a + a * b + b * b) / 1000
        areas = {
            "cylinder": math.pi / 4 * a * a,
            "hexagon": math.sqrt(3) / 2 * a * a,
            "square": a * a - (4 - math.pi) * 6**2,
        }
        return areas[self.shape] * to_mm / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """One batch: grams of each wax, of oil and of the absorber, and drops of a dye."""

    waxes: tuple[tuple[str, int], ...]
    oil: str
    oil_g: int
    absorber_g: int
    dye: str
    drops: int

    def lines(self, indent: str) -> str:
        """The ingredients as an entry writes them."""
        amounts = [
            *((wax, f"{grams} g") for wax, grams in self.waxes),
            (self.oil, f"{self.oil_g} g"),
            ("absorber", f"{self.absorber_g} g"),
            (self.dye, f"{self.drops} drops"),
        ]
        return "".join(f"{indent}{id_}: {amount}\n" for id_, amount in amounts)

    def density_g_per_ml(self) -> float:
        """Mass over the sum of the volumes; absorber and dye weigh too little to count."""
        grams = sum(each for _, each in self.waxes) + self.oil_g
        ml = sum(each / WAX_DENSITY[wax] for wax, each in self.waxes) + self.oil_g / OIL_DENSITY
        return grams / ml


@dataclass(frozen=True, slots=True, kw_only=True)
class Scent:
    """One scent: its number and name, what it is made of, and the vessels it is sold in."""

    number: int
    name: str
    recipe: Recipe
    glasses: tuple[Glass, ...]

    @property
    def id(self) -> str:
        """The name of its file."""
        return self.name.lower().replace(" ", "-")

    def stock_code(self, glass: Glass) -> str:
        """Two initials, the scent's number and the vessel's."""
        initials = "".join(word[0] for word in self.name.split())
        return f"{initials}{self.number:03}-{glass.id.removeprefix('glass-')}"


def write_shop(folder: Path, codes: int = 1000, seed: int = 1) -> None:
    """Write the entries of a shop with exactly ``codes`` stock codes, 10000 at most."""
    glasses = tuple(_glass(number, _dice(seed, "glass", number)) for number in range(24))
    for name, text in (*_house(), *_supplies(), *_vessels(glasses)):
        _write(folder, name, text)
    numbers = count(1)
    for scent in _scents(glasses, codes, seed):
        for name, text in _scent_files(scent, numbers, seed):
            _write(folder, name, text)


def _dice(seed: int, *purpose: object) -> Random:
    return Random(f"{seed} {purpose}")  # noqa: S311  # a repeatable choice, nothing secret


def _write(folder: Path, name: str, text: str) -> None:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def _house() -> Files:
    yield (
        "maker.yaml",
        (
            "name: Long Shelf Candles\naddress: [The Long Shelf, 1 Count Street, Averness AV3 9QP]\ncountry: GB\n"
            'email: hello@longshelf.example\nphone: "+44 1632 960744"\nweb: https://longshelf.example\n'
            "markets: [GB, EU, US]\n"
            "eu_contact: {name: Comptoir Long, address: [1 quai Gris, Port-Lannec, France],"
            ' email: eu@longshelf.example, phone: "+33 1 99 00 31 17"}\n'
            "currency: GBP\nprices_include_tax: 20 %\nas_of: 2026-11-01\ntheme: netloft\n"
        ),
    )
    yield (
        "collections.yaml",
        "".join(
            f'{id_}: {{name: {name}, text: "{text}", order: {order}}}\n'
            for order, (id_, name, text) in enumerate(COLLECTIONS, start=1)
        ),
    )
    yield "pages/about.md", "# About\n\nA house that was made up to be large.\n"


def _supplies() -> Files:
    for id_, name, set_density, molten, melts, declared in WAXES:
        yield (
            f"waxes/{id_}.yaml",
            (
                f"name: {name}\ndensity: {{set: {set_density} g/ml, molten: {molten} g/ml at 75 C}}\n"
                f"melts_at: {melts}\nmost_fragrance: 10 % of wax\ndeclared_as: [{declared}]\nheat: 37.5 MJ/kg\n"
                "price: 4.80 per kg\n"
            ),
        )
    for number, id_ in enumerate(DYES):
        price = f"{52 + number}.00 per kg"
        yield f"dyes/{id_}-dye.yaml", f"name: {id_.capitalize()} dye\ndrop: 0.03 g\nprice: {price}\n"
    yield "additives/absorber.yaml", "name: UV absorber\nteaspoon: 3.1 g\nprice: 38.00 per kg\n"
    for size in range(10, 34, 2):
        core = "paper" if size % 3 == 0 else "none"
        yield f"wicks/braid-{size}.yaml", f"name: Braid {size}\ncore: {core}\ntrim: 6 mm\nprice: 0.{size}\n"


def _glass(number: int, dice: Random) -> Glass:
    shape = ("cylinder", "cone", "hexagon", "square")[number % 4]
    across = 52 + 2 * number - (18 if shape == "square" and number > 12 else 0)
    height = dice.randint(72, 110)
    return Glass(
        id=f"glass-{number:02}",
        shape=shape,
        across_mm=across,
        rim_mm=across + dice.randint(6, 14),
        height_mm=height,
        fill_mm=height - dice.randint(14, 24),
        weight_g=dice.randint(160, 420),
        wicks=2 if across > 84 else 1,
        price=dice.randint(1400, 3800),
    )


def _vessels(glasses: tuple[Glass, ...]) -> Files:
    for glass in glasses:
        rim_ml = glass.holds_ml(glass.height_mm)
        brimful = f"brimful: {rim_ml:.0f} ml\n" if glass.across_mm % 4 else ""
        yield (
            f"vessels/{glass.id}.yaml",
            (
                f"name: Glass of {rim_ml / 10:.0f} cl\nmaterial: glass\ninside: {glass.inside()}\nwall: 3 mm\n"
                f"{brimful}weight: {glass.weight_g} g\nprice: 1.{glass.across_mm}\n"
            ),
        )
        yield (
            f"formats/{glass.id}.yaml",
            (
                f"name: {rim_ml / 10:.0f} cl {glass.shape}\nkind: container\nvessel: {glass.id}\n"
                f"wick: {_wick(glass)}\nfill: {_fill(glass)}\nprice: {glass.price / 100:.2f}\n"
                f"trade: {{price: {glass.price / 200:.2f}, case: 6, minimum: 6}}\npackaging: 40 g\n"
            ),
        )


def _wick(glass: Glass) -> str:
    return f"{{braid-{10 + 2 * (glass.across_mm // 10)}: {glass.wicks}}}"


def _fill(glass: Glass) -> str:
    return f"{{to: {glass.fill_mm} mm, level: set}}"


def _scents(glasses: tuple[Glass, ...], codes: int, seed: int) -> Iterator[Scent]:
    left = codes
    for number in count(1):
        if left == 0:
            return
        dice = _dice(seed, "scent", number)
        sizes = min(left, dice.choice((1, 2, 2, 3, 3, 4)))
        left -= sizes
        first, round_ = number % len(FIRST), number // len(FIRST)
        name = f"{FIRST[first]} {SECOND[(first + round_) % len(SECOND)]}"
        yield Scent(
            number=number, name=name, recipe=_recipe(number, dice), glasses=_some(glasses, sizes, dice)
        )


def _some(glasses: tuple[Glass, ...], sizes: int, dice: Random) -> tuple[Glass, ...]:
    return tuple(sorted(dice.sample(glasses, sizes), key=lambda glass: glass.id))


def _recipe(number: int, dice: Random) -> Recipe:
    one, other = dice.sample([id_ for id_, *_ in WAXES], 2)
    most = dice.randrange(550, 1001, 10)
    return Recipe(
        waxes=((one, most), (other, 1000 - most)) if most < 1000 else ((one, most),),
        oil=f"oil-{number:04}",
        oil_g=dice.randint(45, 98),
        absorber_g=dice.randint(1, 4),
        dye=f"{dice.choice(DYES)}-dye",
        drops=dice.randint(1, 12),
    )


def _scent_files(scent: Scent, numbers: Iterator[int], seed: int) -> Files:
    dice = _dice(seed, "text", scent.number)
    yield f"fragrances/{scent.recipe.oil}.yaml", _oil(scent, dice)
    sizes = []
    for glass in scent.glasses:
        number = next(numbers)
        size = _size(scent, glass, number, dice)
        if number % TESTED_EVERY == 0:
            test = f"burn-tests/{scent.stock_code(glass)}"
            yield f"{test}.csv", _burnt(scent, glass, dice)
            yield f"{test}.yaml", _tested_as(scent, glass, dice)
            size += _weighed(scent, glass, dice) + f"    burn_time: {test}.csv\n"
        sizes.append(size)
    yield f"candles/{scent.id}.yaml", _candle(scent, dice) + "sizes:\n" + "".join(sizes)


def _oil(scent: Scent, dice: Random) -> str:
    rows = "".join(
        f"  - {{substance: {named}, share: {dice.choice(SHARES)}, hazards: [{hazards}]{extra}}}\n"
        for named, hazards, extra in dice.sample(CONSTITUENTS, dice.randint(2, 5))
    )
    return (
        f"name: {scent.name} accord\ndensity: {OIL_DENSITY} g/ml\nflash_point: {dice.randint(92, 104)} C\n"
        f"ifra_category_12: {dice.randint(12, 40)} % of total\nsheet_dated: 2025-{dice.randint(1, 12):02}-11\n"
        f"composition:\n{rows}undisclosed: 0 %\nprice: {dice.randint(22, 58)}.50 per kg\n"
    )


def _candle(scent: Scent, dice: Random) -> str:
    top, heart, base = dice.sample(SCENTS, 3)
    words = {"top": top, "heart": heart, "base": base, "Heart": heart.capitalize(), "Base": base.capitalize()}
    text = " ".join(dice.choice(each) for each in (OPENINGS, MIDDLES, ENDINGS)).format(**words)
    pour = dice.randint(62, 72)
    return (
        f"scent: {scent.name}\ncollection: {dice.choice(COLLECTIONS)[0]}\nseason: {dice.choice(SEASONS)}\n"
        f"status: {dice.choice(STATUSES)}\nadded: 2026-{dice.randint(1, 10):02}-{dice.randint(1, 28):02}\n"
        f"scent_notes: {{top: [{top}], heart: [{heart}], base: [{base}]}}\n"
        f'colour: {{name: {scent.recipe.dye.removesuffix("-dye")}, shade: "{_shade(scent.number)}"}}\n'
        f"description: |\n  {text}\ningredients:\n{scent.recipe.lines('  ')}"
        f"make: {{heat_to: {pour + 16} C, fragrance_at: {pour + 9} C, pour_at: {pour} C, cure: 10 days}}\n"
    )


def _shade(number: int) -> str:
    """Hues spread by the golden ratio, so that neighbours differ."""
    colour = colorsys.hls_to_rgb(number * 0.618034 % 1, 0.35 + number % 7 * 0.07, 0.18 + number % 5 * 0.07)
    return "#" + "".join(f"{round(255 * part):02x}" for part in colour)


def _size(scent: Scent, glass: Glass, number: int, dice: Random) -> str:
    price = glass.price + dice.randrange(0, 400, 25)
    return (
        f"  - stock_code: {scent.stock_code(glass)}\n    format: {glass.id}\n    price: {price / 100:.2f}\n"
        f'    barcode: "{_barcode(number)}"\n'
    )


def _barcode(number: int) -> str:
    """A GTIN-13 from the range kept for use inside one company (prefix 21), so it is nobody's."""
    digits = f"21{number:010}"
    total = sum(int(digit) * (3 if place % 2 else 1) for place, digit in enumerate(digits))
    return f"{digits}{-total % 10}"


def _net_g(scent: Scent, glass: Glass) -> float:
    return glass.holds_ml(glass.fill_mm) * scent.recipe.density_g_per_ml()


def _weighed(scent: Scent, glass: Glass, dice: Random) -> str:
    """Six weighings close together, and a declared weight that they carry."""
    net_g = _net_g(scent, glass)
    nets = [net_g * (1 + dice.uniform(-0.003, 0.003)) for _ in range(6)]
    declared_g = math.floor(net_g * 0.98 / 5) * 5
    return f"    declared: {declared_g} g\n    weighed: [{', '.join(f'{net:.1f} g' for net in nets)}]\n"


def _burnt(scent: Scent, glass: Glass, dice: Random) -> str:
    """Three pieces burnt in sessions of up to 4 h down to the stop depth, faster as they go."""
    rows = ["piece,session,hours,before_g,after_g,outcome,note"]
    usual = dice.uniform(3.9, 5.6) * glass.wicks
    for piece in "ABC":
        full_g = _net_g(scent, glass) + glass.weight_g + dice.uniform(-1, 1)
        burnable_g = _net_g(scent, glass) * (1 - glass.holds_ml(STOP_MM) / glass.holds_ml(glass.fill_mm))
        weights = [full_g - burnt for burnt in _sessions(burnable_g, usual * dice.uniform(0.97, 1.03))]
        for session, (before, after) in enumerate(pairwise(weights), start=1):
            ends = "stopped_at_heel" if session == len(weights) - 1 else "ok"
            rows.append(f"{piece},{session},4,{before:.1f},{after:.1f},{ends},")
    return "\n".join(rows) + "\n"


def _sessions(burnable_g: float, rate_g_per_h: float) -> list[float]:
    """What has burnt after each session of 4 h; the last begins with enough wax for the whole of it."""
    burnt = [0.0]
    while True:
        faster = 0.92 + 0.16 * burnt[-1] / burnable_g
        after = burnt[-1] + 4 * rate_g_per_h * faster
        if after > burnable_g:
            return burnt
        burnt.append(after)


def _tested_as(scent: Scent, glass: Glass, dice: Random) -> str:
    return (
        f"tested_as:\n  vessel: {glass.id}\n  wick: {_wick(glass)}\n  fill: {_fill(glass)}\n"
        f"  ingredients:\n{scent.recipe.lines('    ')}  cure: 10 days\n"
        f"tested_on: 2026-{dice.randint(1, 9):02}-{dice.randint(1, 28):02}\nby: the long bench\n"
    )
