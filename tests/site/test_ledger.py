"""The second theme: another look for the same shop, made of files under themes/ alone, which works nothing out."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from jinja2 import Environment, nodes

from generator.commands.build import build
from generator.drawing.contrast import TEXT_RATIO, ratio
from generator.making.options import CommandOptions
from tests.conftest import PROJECT

THEMES = PROJECT / "themes"
TEMPLATES = sorted(THEMES.rglob("*.html"))
FIRST_SHOP = PROJECT / "generator" / "data" / "first_shop"
FIGURE = re.compile(r"[£$€]\s?\d[\d.,]*|\d[\d.,]*\s?(?:g|kg|h|hours|mm|cm|ml|cl|oz|in|%|mm²)\b")
WORKING_OUT = frozenset(
    {"abs", "batch", "dictsort", "float", "format", "int", "max", "min", "random", "round", "sort", "sum"}
)
"""Filters of Jinja that count, round, sort or choose."""
ARITHMETIC = (nodes.Add, nodes.Sub, nodes.Mul, nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Pow)


@pytest.fixture(name="printed", scope="module")
def _printed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The small shop printed in each theme."""
    return {name: _built(tmp_path_factory.mktemp(name), name) for name in ("netloft", "ledger")}


def _built(folder: Path, theme: str) -> Path:
    for path in FIRST_SHOP.rglob("*"):
        if path.is_file():
            copy = folder / "content" / path.relative_to(FIRST_SHOP)
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_bytes(path.read_bytes())
    maker = folder / "content" / "maker.yaml"
    maker.write_text(
        re.sub(r"(?m)^theme: .*$", f"theme: {theme}", maker.read_text(encoding="utf-8")), encoding="utf-8"
    )
    asked = CommandOptions(content=folder / "content", output=folder / "output", as_of=None, as_data=False)
    assert build(asked).laid is not None
    return folder / "output"


def addresses(output: Path) -> set[str]:
    """Every file but those whose names change with a theme's bytes."""
    found = (path.relative_to(output) for path in output.rglob("*") if path.is_file())
    return {path.as_posix() for path in found if not {"styles", "scripts", ".store"} & set(path.parts)}


def figures(page: Path) -> set[str]:
    """Every amount with its unit that a reader of the page sees."""
    body = BeautifulSoup(page.read_bytes(), "html.parser").find("main")
    return set(FIGURE.findall(" ".join(body.get_text(" ").split()))) if body else set()


def colours(style: Path) -> list[dict[str, str]]:
    """The colours that a style declares, for light and for dark."""
    blocks = re.findall(r":root \{(.*?)\}", style.read_text(encoding="utf-8"), re.DOTALL)[:2]
    return [dict(re.findall(r"--(paper|ink|quiet|accent): (#\w+);", block)) for block in blocks]


def whole(colour: str) -> str:
    """``#fff`` as ``#ffffff``."""
    return colour if len(colour) == 7 else "#" + "".join(digit * 2 for digit in colour[1:])


def test_both_themes_print_the_same_pages_at_the_same_addresses(printed: dict[str, Path]) -> None:
    assert addresses(printed["netloft"]) == addresses(printed["ledger"])


def test_both_themes_print_the_same_figures_on_every_page(printed: dict[str, Path]) -> None:
    netloft, ledger = printed["netloft"], printed["ledger"]
    pages = [path for path in addresses(netloft) if path.endswith(".html")]

    expected = {path: figures(netloft / path) for path in pages}

    assert any("£" in figure for figure in expected["site/index.html"])
    assert expected == {path: figures(ledger / path) for path in pages}


def test_a_theme_changes_no_fact(printed: dict[str, Path]) -> None:
    one, other = (
        json.loads((printed[name] / "workshop/facts.json").read_text()) for name in ("netloft", "ledger")
    )

    assert one == other


def test_the_ledger_has_no_tint_where_the_other_has_one(printed: dict[str, Path]) -> None:
    one, other = (
        "".join(style.read_text(encoding="utf-8") for style in (printed[name] / "site/styles").iterdir())
        for name in ("netloft", "ledger")
    )

    assert "var(--light-tint)" in one
    assert "-tint)" not in other


def works_out(template: str) -> Iterator[str]:
    """What a template does with numbers."""
    tree = Environment(autoescape=True).parse(template)
    for sum_ in tree.find_all(nodes.BinExpr):
        if isinstance(sum_, ARITHMETIC):
            yield f"line {sum_.lineno}: {type(sum_).__name__}"
    for used in tree.find_all(nodes.Filter):
        if used.name in WORKING_OUT:
            yield f"line {used.lineno}: {used.name}"


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.relative_to(THEMES).as_posix())
def test_no_template_of_a_shipped_theme_works_anything_out(template: Path) -> None:
    assert list(works_out(template.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize(
    "template", ["{{ a + 1 }}", "{% if a * b > 2 %}{% endif %}", "{{ rows | sum }}", "{{ x | round }}"]
)
def test_a_template_that_works_something_out_would_be_noticed(template: str) -> None:
    assert len(list(works_out(template))) == 1


@pytest.mark.parametrize("style", ["styles/site.css", "parts/alone.css"])
def test_the_text_of_the_ledger_is_readable_on_its_ground(style: str) -> None:
    for scheme in colours(THEMES / "ledger" / style):
        texts = [whole(scheme[name]) for name in ("ink", "quiet", "accent")]

        assert min(ratio(text, whole(scheme["paper"])) for text in texts) >= TEXT_RATIO


def test_pages_that_stand_alone_have_the_colours_of_the_others() -> None:
    one, other = (colours(THEMES / "ledger" / style) for style in ("styles/site.css", "parts/alone.css"))

    assert len(one) == 2
    assert one == other


def test_the_styles_of_the_ledger_stay_small(printed: dict[str, Path]) -> None:
    """24 KB, as the look of the site promises. (CHOICE)"""
    styles = sum(path.stat().st_size for path in (printed["ledger"] / "site/styles").iterdir())

    assert 0 < styles < 24 * 1024
