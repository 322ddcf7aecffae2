"""Contrast as WCAG 2.2 defines it, and the promise that no shade makes a page unreadable."""

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.drawing.contrast import DARK, LIGHT, TEXT_RATIO, Scheme, ratio, text_on, tint

GRAPHIC_RATIO = 3.0
"""Least contrast of a meaningful line, WCAG 2.2, success criterion 1.4.11 (MEMORY)."""

STYLES = Path(__file__).parents[2] / "themes/netloft/styles/site.css"
SHADES = st.integers(0, 0xFFFFFF).map("#{:06x}".format)


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("#767676", "#ffffff", "4.54"),
        ("#777777", "#ffffff", "4.48"),
        ("#949494", "#ffffff", "3.03"),
        ("#000000", "#ffffff", "21.00"),
    ],
    ids=["just enough for text", "just too little for text", "just enough for large text", "black on white"],
)
def test_the_ratio_is_that_of_wcag(one: str, other: str, expected: str) -> None:
    """WCAG 2.2, SC 1.4.3: grey values around its limits (MEMORY, worked out from the definition)."""
    assert f"{ratio(one, other):.2f}" == expected


def test_a_slightly_lighter_grey_fails_large_text() -> None:
    """2.995, which two decimals would hide."""
    assert ratio("#959595", "#ffffff") < GRAPHIC_RATIO


@given(SHADES, SHADES)
@settings(max_examples=50)
def test_the_ratio_does_not_ask_which_colour_is_the_text(one: str, other: str) -> None:
    assert ratio(one, other) == ratio(other, one)
    assert 1 <= ratio(one, other) <= 21


@given(SHADES)
@settings(max_examples=200)
def test_text_on_any_shade_is_readable(shade: str) -> None:
    assert ratio(text_on(shade), shade) >= TEXT_RATIO


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
@given(shade=SHADES)
@settings(max_examples=100)
def test_all_text_on_a_tint_of_any_shade_is_readable(scheme: Scheme, shade: str) -> None:
    ground = tint(shade, scheme)

    assert min(ratio(text, ground) for text in (scheme.ink, scheme.quiet, scheme.accent)) >= TEXT_RATIO


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_the_outline_of_wax_shows_on_its_ground_whatever_the_shade(scheme: Scheme) -> None:
    """Drawings outline the wax in the ink of the page."""
    assert ratio(scheme.ink, scheme.paper) >= GRAPHIC_RATIO


def test_a_tint_takes_something_of_the_shade() -> None:
    assert tint("#5f7348", LIGHT) != LIGHT.paper


@pytest.mark.parametrize(("scheme", "number"), [(LIGHT, 0), (DARK, 1)], ids=["light", "dark"])
def test_the_style_sheet_declares_the_colours_that_were_reckoned_with(scheme: Scheme, number: int) -> None:
    blocks = re.findall(r":root \{(.*?)\}", STYLES.read_text(encoding="utf-8"), re.DOTALL)

    declared = dict(re.findall(r"--(\w+): (#\w+);", blocks[number]))

    named = {"paper": scheme.paper, "ink": scheme.ink, "quiet": scheme.quiet, "accent": scheme.accent}
    assert {name: declared[name] for name in named} == named
