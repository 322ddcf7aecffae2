"""What every page carries, and that every word the templates print is there."""

import json
import re
from pathlib import Path

import pytest

from generator.documents.frame import frame, home_market
from tests.documents.sample_house import MAKER, ROOT, WORDS, house

SECTIONS = ("site", "catalogue", "candle")
SOURCES = tuple(
    path.read_text(encoding="utf-8")
    for folder, kind in (("themes/netloft", "*.html"), ("generator/documents", "*.py"))
    for path in sorted(Path(ROOT / folder).rglob(kind))
)


def test_every_page_names_who_answers_for_the_candles() -> None:
    """The maker's name, postal and electronic address stand wherever a candle is offered (GPSR, Article 19)."""
    made_by, in_the_eu = json.loads(json.dumps(frame(house()), default=dict))["contacts"]

    assert (made_by["name"], made_by["email"]) == (MAKER.name, MAKER.email)
    assert made_by["address"] == list(MAKER.address)
    assert in_the_eu["role"] == "Responsible person in the European Union"


def test_the_first_market_the_maker_names_is_at_home() -> None:
    assert home_market(house()) == "GB"


def test_the_day_the_shop_speaks_for_is_written_out() -> None:
    assert frame(house())["as_of"] == "Prices and details as of 1 November 2026."


@pytest.mark.parametrize("section", SECTIONS)
def test_no_word_is_kept_that_nothing_prints(section: str) -> None:
    made_of_parts = re.compile(
        r"month_\d+|contact_..|in_..|net_.*|hours_.*|one_.*|care_.*|formula_.*|by_.*|note_.*|kind_.*"
    )
    named = {name for name in WORDS[section] if not made_of_parts.fullmatch(name)}

    unused = {name for name in named if not any(re.search(rf"\b{name}\b", source) for source in SOURCES)}

    assert unused == set()
