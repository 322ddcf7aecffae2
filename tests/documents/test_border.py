"""The border between workshop and site: what is the maker's own business never reaches a public file.

Canaries are planted in every private field of a shop; it is built whole; every public file is searched for them
and for every figure that is calculated from them, however it may be written.
"""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.cli import main
from generator.commands import issue
from generator.commands.build import build
from generator.facts.facts import Facts
from generator.making.options import CommandOptions
from generator.model.recorded import Recorded
from generator.rules.hazards.mixture import mixture
from generator.rules.wax.portions import ingredients_of
from tests.loaded import loaded_shop
from tests.site.paper_tools import text_of

FIRST_SHOP = Path(__file__).parents[2] / "generator" / "data" / "first_shop"
CANARY = "canary"
PLANTED: dict[str, dict[str, str]] = {
    "maker.yaml": {
        "theme: netloft": (
            "theme: netloft\nhour: 17.43\noverhead: 13.7 %\nwaste: 3.93 %\nscale_step: 0.37 g\n"
            f"notes: {CANARY} maker"
        )
    },
    "waxes/rapeseed.yaml": {
        "density: {set: 0.91 g/ml, molten: 0.87 g/ml at 75 C}": (
            f"density: {{set: 0.9137 g/ml, molten: 0.8731 g/ml at 74 C}}\nprice: 4.37 per kg\nnotes: {CANARY} wax"
        ),
    },
    "fragrances/wet-garden.yaml": {
        "density: 0.97 g/ml": f"density: 0.9713 g/ml\nprice: 71.93 per kg\nnotes: {CANARY} fragrance",
        "share: 1-5 %": "share: 2.37-4.81 %",
        "undisclosed: 0 %": "undisclosed: 1.37 %",
    },
    "wicks/cotton-18.yaml": {"trim: 6 mm": f"trim: 6 mm\nprice: 0.2317\nnotes: {CANARY} wick"},
    "vessels/amber-20.yaml": {"wall: 3 mm": f"wall: 3 mm\nprice: 1.3791\nnotes: {CANARY} vessel"},
    "candles/wet-garden.yaml": {
        "rapeseed: 1000 g": "rapeseed: 1013.7 g",
        "wet-garden: 8 % of wax": "wet-garden: 83.91 g",
        "trade: {price: 9.00, case: 6, minimum: 6}": (
            "trade: {price: 8.79, case: 17, minimum: 51}\n    labour: 7.31 min\n    packaging_price: 0.6113\n"
            f"    notes: {CANARY} size"
        ),
        "season: all year": f"season: all year\nnotes: {CANARY} candle",
    },
    "burn-tests/WG-20.yaml": {
        "tested_on: 2026-10-30": f"tested_on: 2026-10-30\nby: {CANARY} tester\nnotes: {CANARY} test",
    },
    "burn-tests/WG-20.csv": {"first burn": f"{CANARY} session"},
}
"""What stands in the small shop, and what is planted in its place."""

LOTS = (
    "lot,stock_code,poured_on,made,sheet_revision,sent_to,kettle\n"
    f"WG-20-2026199-FQXT,WG-20,2026-07-18,7391,,{CANARY} buyer,{CANARY} kettle\n"
)
"""A book of lots, which the small shop has none of."""

DRAWN = ("--from", f"rapeseed={CANARY} delivery", "--from", f"amber-20={CANARY} glass")
"""Suppliers' lots of a second lot, whose formula is kept."""

OF_THE_LOT = ("WG-20-2026199-FQXT", "WG202026199FQXT", "2026199", "2026-07-18", "18 July",
              "WG-20-2026300-K7QX", "WG202026300K7QX", "2026300", "2026-10-27", "27 October")  # fmt: skip

TYPED = ("1013.7", "83.91", "4.37", "71.93", "0.2317", "1.3791", "0.9137", "0.8731", "0.9713", "2.37", "4.81", "1.37",
         "8.79", "17.43", "13.7", "3.93", "0.37", "7.31", "0.6113", "7391", "398.2", "380.1", "360.3")  # fmt: skip
"""Every private number as it was typed; burn tests' weighings stand in the shop already."""

TEXTS = frozenset({".html", ".xml", ".txt", ".json", ".js", ".css", ".svg", ".csv"})


@pytest.fixture(name="asked", scope="module")
def _asked(tmp_path_factory: pytest.TempPathFactory) -> CommandOptions:
    """The planted shop, its sheet issued, built."""
    folder = tmp_path_factory.mktemp("border")
    shutil.copytree(FIRST_SHOP, folder / "content")
    for file, changes in PLANTED.items():
        _plant(folder / "content" / file, changes)
    (folder / "content" / "lots.csv").write_text(LOTS, encoding="utf-8")
    asked = CommandOptions(content=folder / "content", output=folder / "output", as_of=None, as_data=False)
    assert issue.run(asked, ["WG-20"], f"{CANARY} reason") == 0
    lot = (
        "lots",
        "add",
        "WG-20",
        "--made",
        "12",
        "--lot",
        "WG-20-2026300-K7QX",
        "--poured",
        "2026-10-27",
        *DRAWN,
    )
    assert main([*lot, "--content", str(asked.content), "--output", str(asked.output)]) == 0
    built = build(asked)
    assert built.laid is not None, [str(problem) for problem in built.problems]
    return asked


def _plant(path: Path, changes: dict[str, str]) -> None:
    text = path.read_text(encoding="utf-8")
    for written, planted in changes.items():
        assert written in text, f"{path.name} no longer says {written!r}"
        text = text.replace(written, planted, 1)
    path.write_text(text, encoding="utf-8")


@pytest.fixture(name="public", scope="module")
def _public(asked: CommandOptions) -> dict[str, str]:
    """Every public file that holds text, and the names of all of them."""
    site = asked.output / "site"
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    texts = {name: path.read_text(encoding="utf-8") for name, path in files.items() if path.suffix in TEXTS}
    papers = {name: text_of(path) for name, path in files.items() if path.suffix == ".pdf"}
    assert papers
    return {**texts, **papers, "the names of all files": "\n".join(files)}


def private_numbers(facts: Facts) -> Iterator[tuple[str, float]]:
    """Every figure that rests on what is private, by what it is called."""
    yield "density_set_g_per_ml", facts.density_set_g_per_ml
    yield "density_molten_g_per_ml", facts.density_molten_g_per_ml
    yield "fragrance_of_wax_percent", facts.fragrance_of_wax_percent
    yield "fragrance_of_total_percent", facts.fragrance_of_total_percent
    yield "lhv_mj_per_kg", facts.lhv_mj_per_kg
    if facts.heat_w is not None:
        yield "heat_w", facts.heat_w
    if facts.margin_percent is not None:
        yield "margin_percent", float(facts.margin_percent)
    for part in facts.parts:
        yield f"{part.id} of wax", float(part.of_wax_percent)
        yield f"{part.id} of total", float(part.of_total_percent)
    for figure in facts.figures:
        if figure.shown == "private":
            yield figure.name, figure.value
        yield from ((given.name, given.value) for given in figure.inputs if given.shown == "private")


def shares_of_constituents(recorded: Recorded) -> Iterator[tuple[str, float]]:
    """What the candle holds of every substance of its fragrances."""
    for substance in mixture(ingredients_of(recorded.build.formula)).substances:
        yield substance.name, float(substance.percent)


def spellings(number: float) -> set[str]:
    """How a number may be written with three digits or more: as it is, as a share, in thousands, with commas."""
    plain = {
        f"{scaled:.{places}f}"
        for scaled in (number, number * 100, number / 100, number / 1000)
        for places in range(7)
    }
    telling = {text for text in plain if len(text.replace(".", "").strip("0")) >= 3}
    return telling | {f"{float(text):,}" for text in telling if abs(float(text)) >= 1000}


def places_of(text: str, public: dict[str, str]) -> list[str]:
    """The public files in which a number stands by itself."""
    alone = re.compile(rf"(?<![\d.,#-]){re.escape(text)}(?![\d])")
    # Nearly every text is nowhere at all, which is seen much sooner than where it stands.
    return [name for name, said in public.items() if text in said and alone.search(said)]


def test_neither_a_kept_formula_nor_its_fingerprint_is_public(
    asked: CommandOptions, public: dict[str, str]
) -> None:
    (formula,) = (asked.content / "poured").iterdir()
    assert "83.91 g" in formula.read_text(encoding="utf-8")

    assert [name for name, text in public.items() if formula.stem.rpartition("-")[2] in text] == []
    assert [path for path in (asked.output / "site").rglob("*") if "poured" in path.name] == []


def test_no_private_word_is_public(public: dict[str, str]) -> None:
    assert [name for name, text in public.items() if CANARY in text.lower()] == []


@pytest.mark.parametrize("written", OF_THE_LOT)
def test_neither_the_code_nor_the_day_of_a_lot_is_public(written: str, public: dict[str, str]) -> None:
    assert any(name.startswith("lots/") for name in public)
    assert [name for name, text in public.items() if written in text] == []


@pytest.mark.parametrize("typed", TYPED)
def test_no_private_number_is_public_as_it_was_typed(typed: str, public: dict[str, str]) -> None:
    found = {text: places for text in spellings(float(typed)) if (places := places_of(text, public))}

    assert found == {}


def test_no_figure_that_rests_on_private_numbers_is_public(
    asked: CommandOptions, public: dict[str, str]
) -> None:
    ((gathered, facts),) = loaded_shop(asked).facts
    numbers = (*private_numbers(facts), *shares_of_constituents(gathered.recorded))

    found = {
        (name, text): places
        for name, number in numbers
        for text in spellings(number)
        if (places := places_of(text, public))
    }

    assert found == {}


def share_percent(density: float, wax: float, fragrance: float) -> float:
    """The fragrance in a blend of this density, since 1 / density = share / fragrance + (1 - share) / wax."""
    return 100 * (1 / density - 1 / wax) / (1 / fragrance - 1 / wax)


def shares_left(facts: Facts, weight: str) -> float:
    """How many points of fragrance a weight leaves open, printed rounded down, in a vessel measured exactly."""
    step = 10.0 ** -len(weight.partition(".")[2])
    least, most = (
        share_percent((float(weight) + more) / facts.fill_volume_ml, wax=0.9137, fragrance=0.9713)
        for more in (0.0, step)
    )
    return abs(most - least)


def test_no_recipe_can_be_told_from_weight_and_volume_as_printed(
    asked: CommandOptions, public: dict[str, str]
) -> None:
    """Who measures the vessel and knows the suppliers' densities is still left with three points or more."""
    ((_, facts),) = loaded_shop(asked).facts

    printed = re.search(
        r"<span>([\d.]+)\s*g</span></p>\s*<p class=\"formula\">net weight =", public[facts.site_path]
    )

    assert printed is not None
    assert shares_left(facts, printed[1]) > 3


def test_the_unrounded_weight_would_tell_it(asked: CommandOptions) -> None:
    """The sum above finds the recipe where it can be found."""
    ((_, facts),) = loaded_shop(asked).facts

    told = share_percent(facts.net_weight_g / facts.fill_volume_ml, wax=0.9137, fragrance=0.9713)

    assert told == pytest.approx(facts.fragrance_of_total_percent, abs=0.005)
    assert shares_left(facts, f"{facts.net_weight_g:.2f}") < 0.2


def test_no_reason_behind_a_hazard_is_public_though_the_hazard_is(
    asked: CommandOptions, public: dict[str, str]
) -> None:
    ((_, facts),) = loaded_shop(asked).facts
    reasons = {
        text
        for hazards in facts.hazards.values()
        if hazards
        for text in (*hazards.reasons, *hazards.next_limits)
    }
    everything = "\n".join(public.values())

    assert len(reasons) >= 2
    assert [text for text in reasons if text in everything] == []
    assert "Contains Linalool. May produce an allergic reaction." in public["safety/WG-20.html"]


@pytest.mark.parametrize("private", ["8.79", "canary wax", "0.9137"], ids=["a price", "a note", "a density"])
def test_the_search_finds_what_it_looks_for(private: str, public: dict[str, str]) -> None:
    """A search that cannot find would never fail: here each canary is let out on purpose."""
    leaking = {**public, "leak.html": f"<p>It is {private} g/ml.</p>"}

    assert places_of(private, leaking) == ["leak.html"]
