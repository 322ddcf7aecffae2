"""The drawings of the hazard symbols: which there are, their three colours, their names."""

import re
from xml.etree.ElementTree import fromstring

import pytest

from generator.drawing.ghs import BLACK, RED, WHITE, pictogram
from generator.rules.hazards.label import ALLOCATION
from tests.documents.sample_house import WORDS

NAMES = WORDS["pictograms"]
SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("code", NAMES)
def test_a_symbol_is_a_drawing_with_its_name(code: str) -> None:
    drawing = fromstring(pictogram(code, NAMES[code]))  # noqa: S314  (our own drawing)

    assert drawing.attrib["viewBox"] == "0 0 200 200"
    assert [title.text for title in drawing.iter(f"{SVG}title")] == [NAMES[code]]


@pytest.mark.parametrize("code", NAMES)
def test_a_symbol_is_black_on_white_in_a_red_frame(code: str) -> None:
    """CLP Annex I 1.2.1.1 and 1.2.1.2 (FOUND)."""
    assert set(re.findall(r"#[0-9a-f]{6}", pictogram(code, NAMES[code]))) == {BLACK, RED, WHITE}


def test_every_symbol_that_a_candle_s_label_can_show_is_drawn() -> None:
    shown = {symbol for symbol, _ in ALLOCATION.values() if symbol is not None}

    assert shown == set(NAMES)
