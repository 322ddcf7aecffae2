"""Recalls that reach nobody, and words that make a risk sound smaller than it is."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from generator.model.lots import Lot, Recall
from generator.model.shop import Shop
from generator.problems import Fault, Severity
from generator.reading.read_shop import read_shop
from generator.rules.entries.recall_checks import recall_faults
from tests.conftest import TODAY

LOT = Lot(lot="WG-20-2026201-T4RD", stock_code="WG-20", poured_on=date(2026, 7, 20), made=48)
RECALL = Recall(
    id="cracked-glass",
    lots=("WG-20-2026201-T4RD",),
    hazard="The glass can crack while the candle burns, and hot wax runs out.",
    what_to_do=("Put it outside, away from anything that burns.",),
    remedy="Your money back, or a new candle, as you choose.",
    contact="hello@ferry-lane.example",
    on=date(2026, 10, 30),
)
FILE = "recalls/cracked-glass.yaml"


@pytest.fixture(name="shop")
def _shop(shop_folder: Path) -> Shop:
    """The small shop with one lot."""
    shop = read_shop(shop_folder, "content", TODAY).shop
    assert shop is not None
    return replace(shop, lots=(LOT,))


def faults(shop: Shop, recall: Recall) -> list[Fault]:
    return list(recall_faults(replace(shop, recalls={recall.id: recall}), lambda _kind, _id: False))


@pytest.mark.parametrize(
    "recall",
    [RECALL, replace(RECALL, lots=("wg 20 2026201 t4rd",)), replace(RECALL, lots=(), stock_codes=("WG-20",))],
    ids=["a lot", "a lot in small letters", "every lot of a stock code"],
)
def test_a_notice_that_says_all_that_it_must_is_good(shop: Shop, recall: Recall) -> None:
    assert faults(shop, recall) == []


def test_a_lot_that_nobody_poured_is_an_error(shop: Shop) -> None:
    assert faults(shop, replace(RECALL, lots=("WG-20-2026201-T4RD", "WG-20-2026201-T4RQ"))) == [
        Fault(
            path=(FILE, "lots", 1),
            what="there is no lot 'WG-20-2026201-T4RQ' in content/lots.csv",
            why="anyone who looks up the lot you mean would not be warned",
            fix="WG-20-2026201-T4RD",
        )
    ]


def test_a_stock_code_that_no_entry_has_is_an_error(shop: Shop) -> None:
    assert faults(shop, replace(RECALL, stock_codes=("WG-21",))) == [
        Fault(
            path=(FILE, "stock_codes", 0),
            what="there is no stock code 'WG-21' in content/candles",
            why="the page of the candle you mean would not show the notice",
            fix="WG-20",
        )
    ]


def test_a_notice_about_nothing_is_an_error(shop: Shop) -> None:
    assert faults(shop, replace(RECALL, lots=())) == [
        Fault(
            path=(FILE,),
            what="the notice names no lots and no stock codes",
            why="no one could tell whether their candle is affected",
            fix="lots: [...], or stock_codes: [...] for every lot of it",
        )
    ]


def test_a_notice_that_does_not_say_what_to_do_is_an_error(shop: Shop) -> None:
    assert faults(shop, replace(RECALL, what_to_do=())) == [
        Fault(
            path=(FILE, "what_to_do"),
            what="what_to_do is empty",
            why="anyone with the candle at home would not know what to do with it",
            fix="what_to_do: [..., ...]",
        )
    ]


def test_a_notice_without_a_remedy_is_a_warning(shop: Shop) -> None:
    assert faults(shop, replace(RECALL, remedy=None)) == [
        Fault(
            path=(FILE,),
            what="the notice offers no remedy",
            why="a recall notice must say what the buyer gets (Regulation (EU) 2023/988, Article 37)",
            fix="remedy: ... (a repair, a replacement or a refund)",
            severity=Severity.WARNING,
        )
    ]


def test_words_that_play_the_risk_down_are_a_warning(shop: Shop) -> None:
    hazard = "In rare cases the glass can crack."

    assert faults(shop, replace(RECALL, hazard=hazard)) == [
        Fault(
            path=(FILE, "hazard"),
            what="the words 'rare cases' downplay the risk",
            why="readers would keep the candle, and Regulation (EU) 2023/988, Article 36, forbids such words",
            fix="state the hazard and what to do, without them",
            severity=Severity.WARNING,
        )
    ]


@pytest.mark.parametrize(
    "step",
    ["This is voluntary.", "As a precautionary step.", "At our discretion.", "In rare situations.",
     "In specific situations.", "There are no reported accidents."],
)  # fmt: skip
def test_each_of_the_words_that_the_regulation_names_is_found(shop: Shop, step: str) -> None:
    """Regulation (EU) 2023/988, Article 36(2)(c) (MEMORY)."""
    (fault,) = faults(shop, replace(RECALL, what_to_do=(step,)))

    assert fault.path == (FILE, "what_to_do", 0)
