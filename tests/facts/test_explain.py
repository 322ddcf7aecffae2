"""Every printed figure, worked out again by somebody who sees nothing but the printed lines."""

import json
import math
import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from generator.commands import explain
from generator.making.options import CommandOptions
from tests.conftest import EXAMPLE
from tests.loaded import loaded_shop

FUNCTIONS = {
    "pi": math.pi,
    "sqrt": math.sqrt,
    "asin": math.asin,
    "floor": math.floor,
    "min": min,
    "max": max,
    "Fraction": Fraction,
}
LITERAL = re.compile(r"(?<![\w.])[0-9]+\.[0-9]+")
"""Decimals in a formula, taken as written: 181.436948 g are 6.4 oz exactly, and binary arithmetic says 6.3."""

NAMED = re.compile(r"^ +(\w+) = (-?[0-9.e+-]+)\b")


def recomputed(block: str) -> tuple[str, float, float]:
    """The name of a figure, the value printed for it, and the value its printed formula and inputs give."""
    lines = block.splitlines()
    name, formula = lines[1].strip().split(" = ", 1)
    printed = NAMED.match(lines[2])
    assert printed is not None
    inputs = {found[1]: Fraction(found[2]) for line in lines[3:-1] if (found := NAMED.match(line))}
    arithmetic = LITERAL.sub(r"Fraction('\g<0>')", formula.replace("^", "**"))
    ours = eval(arithmetic, {"__builtins__": {}}, {**FUNCTIONS, **inputs})  # noqa: S307  # our own printed lines
    return name, float(printed[2]), float(ours)


def blocks_of(printed: str) -> list[str]:
    """The blocks of figures, which come before those of hazards."""
    figures, _, _ = printed.partition("\n\nHazards, ")
    return figures.strip().split("\n\n")[1:]


@pytest.mark.usefixtures("warm_output")
def test_every_figure_of_the_example_shop_follows_from_its_printed_lines(
    ask: Callable[[Path], CommandOptions],
) -> None:
    asked = ask(EXAMPLE)
    known = loaded_shop(asked)

    wrong = [
        (facts.stock_code, name, printed, ours)
        for gathered, facts in known.facts
        for block in blocks_of(
            explain.told(gathered.recorded, explain.explanation(gathered, facts, known.places), {})
        )
        for name, printed, ours in [recomputed(block)]
        if not math.isclose(printed, ours, rel_tol=1e-8)
    ]

    assert len(known.facts) >= 26
    assert wrong == []


@pytest.mark.usefixtures("warm_output")
def test_the_figure_explained_is_the_number_that_papers_take(ask: Callable[[Path], CommandOptions]) -> None:
    asked = ask(EXAMPLE)
    known = loaded_shop(asked)
    taken = {
        "density_set_g_per_ml",
        "density_molten_g_per_ml",
        "fragrance_of_wax_percent",
        "fragrance_of_total_percent",
        "fill_volume_ml",
        "net_weight_g",
        "declared_g",
        "stop_depth_mm",
        "heel_g",
        "burnable_g",
        "rate_g_per_h",
        "first_burn_h",
        "session_limit_h",
        "heat_w",
    }

    both = [
        (facts.stock_code, figure.name, figure.value, getattr(facts, figure.name))
        for _, facts in known.facts
        for figure in facts.figures
        if figure.name in taken
    ]

    assert {name for _, name, _, _ in both} == taken
    assert [one for one in both if one[2] != one[3]] == []


SHAPES = {
    "cylinder": "{shape: cylinder, diameter: 66 mm, height: 78 mm}",
    "cone": "{shape: cone, base: 60 mm, rim: 75 mm, height: 85 mm}",
    "rounded": "{shape: rounded, diameter: 70 mm, corner: 12 mm, height: 80 mm}",
    "rounded more than the stop depth": "{shape: rounded, diameter: 70 mm, corner: 20 mm, height: 80 mm}",
    "hexagon": "{shape: hexagon, across: 70 mm, height: 75 mm}",
    "square": "{shape: square, side: 70 mm, corner: 8 mm, height: 75 mm}",
    "oval": "{shape: oval, long: 90 mm, short: 60 mm, height: 70 mm}",
    "bowl": "{shape: bowl, rim: 92 mm, height: 70 mm}",
    "profile": "{shape: profile, points: [[0 mm, 40 mm], [5 mm, 58 mm], [60 mm, 72 mm], [80 mm, 64 mm]]}",
}
FILLS = {
    "a set line": "{to: 60 mm, level: set}",
    "a line below the rim": "{below_rim: 12 mm, level: set}",
    "a poured line": "{to: 60 mm, level: poured, at: 70 C}",
    "a weight": "{weight: 120 g}",
    "a poured volume": "{volume: 130 ml, level: poured, at: 70 C}",
}


@pytest.mark.parametrize("inside", SHAPES.values(), ids=SHAPES)
@pytest.mark.parametrize("fill", FILLS.values(), ids=FILLS)
def test_figures_of_every_shape_and_fill_follow_from_their_printed_lines(
    inside: str,
    fill: str,
    shop_folder: Path,
    ask: Callable[[Path], CommandOptions],
    capsys: pytest.CaptureFixture[str],
) -> None:
    vessel, candle = shop_folder / "vessels" / "amber-20.yaml", shop_folder / "candles" / "wet-garden.yaml"
    measured = re.sub(r"inside: .*", f"inside: {inside}", vessel.read_text(encoding="utf-8"))
    vessel.write_text(re.sub(r"brimful: .*\n", "displaced: 1 ml\n", measured), encoding="utf-8")
    filled = re.sub(r"fill: .*", f"fill: {fill}", candle.read_text(encoding="utf-8"))
    candle.write_text(filled, encoding="utf-8")

    assert explain.run(ask(shop_folder), "WG-20") == 0
    figures = [recomputed(block) for block in blocks_of(capsys.readouterr().out)]

    assert {name for name, _, _ in figures} >= {
        "fill_volume_ml",
        "net_weight_g",
        "burnable_g",
        "first_burn_h",
    }
    assert [name for name, printed, ours in figures if not math.isclose(printed, ours, rel_tol=1e-7)] == []


@pytest.mark.usefixtures("warm_output")
def test_an_unknown_stock_code_is_told_with_the_nearest_ones(
    ask: Callable[[Path], CommandOptions], capsys: pytest.CaptureFixture[str]
) -> None:
    code = explain.run(ask(EXAMPLE), "ss-31")

    assert code == 2
    assert capsys.readouterr().err.startswith(
        "wickwright: there is no stock code 'ss-31'. Nothing was explained. Write one of: SS-30"
    )


def test_the_ounces_explained_are_those_on_the_label(
    shop_folder: Path, ask: Callable[[Path], CommandOptions], capsys: pytest.CaptureFixture[str]
) -> None:
    candle = shop_folder / "candles" / "wet-garden.yaml"
    declared = candle.read_text(encoding="utf-8").replace(
        "    price: 18.00", "    declared: 6.4 oz\n    price: 18.00"
    )
    candle.write_text(declared, encoding="utf-8")

    explain.run(ask(shop_folder), "WG-20")

    figures = {name: printed for name, printed, _ in map(recomputed, blocks_of(capsys.readouterr().out))}
    assert figures["declared_oz"] == 6.4


def test_a_weight_proven_by_pouring_is_explained_by_what_was_poured_and_not_by_the_few_that_were_weighed(
    shop_folder: Path, ask: Callable[[Path], CommandOptions], capsys: pytest.CaptureFixture[str]
) -> None:
    candle = shop_folder / "candles" / "wet-garden.yaml"
    written = re.sub(r"fill: .*", "fill: {weight: 120 g}", candle.read_text(encoding="utf-8"))
    candle.write_text(
        written.replace("    price: 18.00", "    weighed: [125 g, 124 g]\n    price: 18.00"), encoding="utf-8"
    )

    explain.run(ask(shop_folder), "WG-20")

    figures = {
        name: (printed, ours) for name, printed, ours in map(recomputed, blocks_of(capsys.readouterr().out))
    }
    assert figures["weight_to_declare_g"][0] == pytest.approx(figures["weight_to_declare_g"][1])
    assert figures["net_weight_g"][0] == 124.5


def test_figures_of_a_shop_at_fault_are_not_shown_as_if_they_were_sound(
    shop_folder: Path, ask: Callable[[Path], CommandOptions], capsys: pytest.CaptureFixture[str]
) -> None:
    fragrance = shop_folder / "fragrances" / "wet-garden.yaml"
    fragrance.write_text(
        fragrance.read_text(encoding="utf-8").replace("20 % of total", "7 % of total"), encoding="utf-8"
    )

    code = explain.run(ask(shop_folder), "WG-20")

    printed = capsys.readouterr().out
    assert code == 1
    assert "IFRA certificate" in printed
    assert "net_weight_g" not in printed


@pytest.mark.parametrize(
    ("line", "told"), [("currency: GBX", "currency is 'GBX'"), ("markets: []", "markets is empty")]
)
def test_a_shop_without_a_known_currency_or_market_is_told_so(
    line: str, told: str, shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    maker = shop_folder / "maker.yaml"
    key = line.split(":", maxsplit=1)[0]
    maker.write_text(
        re.sub(rf"^{key}:.*$", line, maker.read_text(encoding="utf-8"), flags=re.MULTILINE), encoding="utf-8"
    )
    asked = ask(shop_folder)

    known = loaded_shop(asked)

    assert [problem.what.split(",")[0] for problem in known.problems if told in problem.what] == [told]
    assert known.errors


@pytest.mark.usefixtures("warm_output")
def test_hazards_say_which_constituent_met_which_limit_and_how_far_the_next_is(
    ask: Callable[[Path], CommandOptions], capsys: pytest.CaptureFixture[str]
) -> None:
    assert explain.run(ask(EXAMPLE), "QF-SB") == 0

    _, british, european, american = capsys.readouterr().out.split("\n\nHazards, ")
    assert british.splitlines()[:2] == [
        "GB: Skin Sens. 1B H317",
        "    Skin Sens. 1B H317: Linalyl acetate 1.08 % of the candle; the limit is 1 % "
        "(CLP Annex I Table 3.4.5, FOUND)",
    ]
    assert (
        "    next: to be named: 2,4-Dimethylcyclohex-3-ene-1-carbaldehyde 0.09 % of the candle; "
        "the limit is 0.1 %; named from 11.1111 % of wax"
    ) in european.splitlines()
    assert american == "US: no hazard label is required there\n"


@pytest.mark.usefixtures("warm_output")
def test_figures_and_hazards_are_there_as_data(
    ask: Callable[[Path], CommandOptions], capsys: pytest.CaptureFixture[str]
) -> None:
    assert explain.run(replace(ask(EXAMPLE), as_data=True), "NR-22") == 0

    told = json.loads(capsys.readouterr().out)
    assert told["figures"][0].keys() >= {"figure", "value", "formula", "inputs", "source"}
    assert (told["hazards"]["EU"]["status"], told["hazards"]["US"]) == ("unknown", None)
    assert told["hazards"]["EU"]["reasons"] == [
        "nettle-leaf: no composition is recorded, so its hazards are unknown (recorded composition, CHOICE)"
    ]
