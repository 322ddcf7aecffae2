"""The example shop's hazards by stock code: one recipe on each side of every limit that candles meet.

Expected by hand from the invented sheets and the tables of CLP Annex I (3.3.3, 3.4.5, 3.4.6, 4.1.2).
"""

import pytest

from generator.facts.facts import Facts
from generator.making.options import CommandOptions
from generator.model.markets import Market
from tests.conftest import EXAMPLE
from tests.loaded import loaded_shop

EXPECTED: dict[str, tuple[str, ...]] = {
    "SS": ("H317",),
    "GN": ("H317",),
    "LP": ("H317",),
    "QF-SB": ("H317",),
    "OS": ("H317",),
    "TW": ("H317", "H319"),
    "RW": ("H412", "EUH208"),
    "BG": ("H317", "H412"),
    "HF": ("H411",),
    "EL": ("EUH208",),
    "NL": ("EUH208",),
    "LR": ("EUH208",),
    "QF": ("EUH208",),
    "PT": ("EUH208",),
    "LW": (),
    "BC": (),
}
"""Statements by stock code, or by its first letters where all sizes are alike."""


@pytest.fixture(name="facts", scope="module")
def _facts(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Facts]:
    output = tmp_path_factory.mktemp("hazards")
    asked = CommandOptions(content=EXAMPLE, output=output, as_of=None, as_data=False)
    return {facts.stock_code: facts for _, facts in loaded_shop(asked).facts}


@pytest.mark.parametrize("market", ["EU", "GB"])
def test_every_candle_carries_the_statements_of_its_own_load(market: Market, facts: dict[str, Facts]) -> None:
    known = {code: one.hazards[market] for code, one in facts.items() if not code.startswith("NR")}

    found = {code: (*hazards.label.h, *hazards.label.euh) for code, hazards in known.items() if hazards}

    assert len(found) == 40
    assert found == {code: EXPECTED.get(code, EXPECTED.get(code[:2])) for code in found}


def test_a_fragrance_without_a_composition_leaves_its_candles_unknown(facts: dict[str, Facts]) -> None:
    unknown = {
        code: {market: hazards.label.status for market, hazards in one.hazards.items() if hazards}
        for code, one in facts.items()
        if code.startswith("NR")
    }

    assert unknown == {code: {"GB": "unknown", "EU": "unknown"} for code in ("NR-22", "NR-30")}


def test_the_united_states_ask_for_no_such_label(facts: dict[str, Facts]) -> None:
    assert {one.hazards["US"] for one in facts.values()} == {None}
