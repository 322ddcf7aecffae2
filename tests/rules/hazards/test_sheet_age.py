"""Suppliers' sheets that are old, overtaken by law, or by rules that no label is made by."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from generator.model.amounts import Amount, AmountUnit
from generator.model.candle import Candle
from generator.model.materials import Fragrance
from generator.problems import Fault, Severity
from generator.rules.hazards.classify import classify
from generator.rules.hazards.compositions import composition_faults
from generator.rules.hazards.mixture import mixture
from tests.rules.entries import EMPTY
from tests.rules.hazards.candles import EU, GB, holding, of_fragrance

SENSITISER = holding("12.5", "Skin Sens. 1B", name="Linalool")
MARSH = Fragrance(
    id="marsh",
    name="Marsh accord",
    composition=(SENSITISER,),
    sheet_dated=date(2026, 6, 1),
    undisclosed_percent=Decimal(0),
)
EIGHTY = {"marsh": Amount(Decimal(80), AmountUnit.GRAMS)}


def faults(
    *,
    on: str = "2026-11-01",
    added: str | None = None,
    markets: tuple[str, ...] = ("GB", "EU"),
    **changed: Any,
) -> tuple[Fault, ...]:
    """What is told of the sheet on a day, of a candle with it that was first sold on another."""
    heron = Candle(
        id="heron",
        scent="Heron",
        collection="shore",
        ingredients=EIGHTY,
        sizes=(),
        added=None if added is None else date.fromisoformat(added),
    )
    shop = replace(
        EMPTY,
        maker=replace(EMPTY.maker, markets=markets),
        as_of=date.fromisoformat(on),
        fragrances={"marsh": replace(MARSH, **changed)},
        candles={"heron": heron},
    )
    return tuple(composition_faults(shop))


def checks(dated: str, **shop: Any) -> list[str | None]:
    return [fault.check for fault in faults(sheet_dated=date.fromisoformat(dated), **shop)]


def test_the_whole_warning_of_a_sheet_of_more_than_three_years_ago() -> None:
    (fault,) = faults(markets=("GB",), sheet_dated=date(2023, 10, 31))

    assert fault == Fault(
        path=("fragrances/marsh.yaml", "sheet_dated"),
        what="the safety data sheet is dated 2023-10-31, more than 3 years ago",
        why="suppliers change their oils and sheets, and the label is worked out from this one",
        fix="ask the supplier for the current sheet, then update sheet_dated and composition",
        severity=Severity.WARNING,
    )
    assert fault.check == "old-sheet"


@pytest.mark.parametrize(
    ("dated", "told"),
    [
        ("2023-11-01", []),
        ("2023-10-31", ["old-sheet"]),
        ("2021-11-01", ["old-sheet"]),
        ("2021-10-31", [None]),
    ],
)
def test_a_sheet_is_old_after_three_years_and_counts_for_nothing_after_five(
    dated: str, told: list[str | None]
) -> None:
    """Both ages are CHOICE; what counts for nothing cannot be accepted."""
    assert checks(dated, markets=("GB",)) == told


@pytest.mark.parametrize(
    ("on", "added", "dated", "told"),
    [
        ("2026-04-30", "2026-04-01", "2026-03-01", 0),
        ("2026-04-30", None, "2026-03-01", 0),
        ("2026-05-01", None, "2026-03-01", 1),
        ("2026-05-01", "2026-05-01", "2026-04-30", 1),
        ("2026-05-01", "2026-05-01", "2026-05-01", 0),
        ("2026-05-01", "2026-04-30", "2026-03-01", 0),
        ("2028-04-30", "2026-04-30", "2026-03-01", 0),
        ("2028-05-01", "2026-04-30", "2026-03-01", 1),
        ("2028-05-01", "2026-04-30", "2028-05-01", 0),
    ],
)
def test_a_sheet_is_overtaken_on_the_day_new_classes_count_for_a_candle_with_it(
    on: str, added: str | None, dated: str, told: int
) -> None:
    """Regulation (EU) 2023/707: 2026-05-01 for candles new since then, 2028-05-01 for the others (FOUND)."""
    assert checks(dated, on=on, added=added) == ["sheet-before-new-classes"] * told
    assert checks(dated, on=on, added=added, markets=("GB",)) == []


def test_the_whole_warning_of_a_sheet_that_is_overtaken() -> None:
    (fault,) = faults(sheet_dated=date(2026, 3, 1))

    assert fault == Fault(
        path=("fragrances/marsh.yaml", "sheet_dated"),
        what="the safety data sheet is dated 2026-03-01; new hazard classes apply from 2026-05-01",
        why="it may lack a class of Regulation (EU) 2023/707 that a label in the EU has had to show since then",
        fix="ask the supplier whether these classes apply, then update sheet_dated and composition",
        severity=Severity.WARNING,
    )


def test_the_whole_warning_of_a_sheet_of_the_us() -> None:
    (fault,) = faults(sheet_for="US")

    assert fault == Fault(
        path=("fragrances/marsh.yaml", "sheet_for"),
        what="the data sheet of Marsh accord is for the US and cannot classify a candle for GB or EU",
        why="it omits hazards to water and uses other limits, so the hazards of its candles stay unknown",
        fix="update composition, sheet_dated and sheet_for from the supplier's sheet for GB or EU",
        severity=Severity.WARNING,
    )
    assert fault.check is None


@pytest.mark.parametrize("market", [None, "GB", "EU"])
def test_a_sheet_of_the_union_or_great_britain_or_of_nobody_says_where_is_taken(market: str | None) -> None:
    assert faults(sheet_for=market) == ()


def test_a_sheet_of_the_us_is_good_for_a_shop_that_sells_there_alone() -> None:
    assert faults(sheet_for="US", markets=("US",)) == ()


@pytest.mark.parametrize("rules", [EU, GB], ids=["EU", "GB"])
def test_a_sheet_of_the_us_leaves_the_candle_unknown_and_says_so(rules: Any) -> None:
    american = replace(MARSH, sheet_for="US")

    found = classify(mixture((of_fragrance(american),)), rules)

    assert found.status == "unknown"
    assert (
        found.reasons[0].text
        == f"marsh: its safety data sheet is for the US and names no class of {rules.law}"
    )
    assert classify(mixture((of_fragrance(MARSH),)), rules).status == "classified"
