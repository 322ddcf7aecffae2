"""What section 3 leaves open or cannot mean: each told once, where it stands, and never taken for harmless."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from generator.model.materials import Constituent, Fragrance
from generator.model.sheet_values import MFactors
from generator.problems import Fault, Severity
from generator.rules.hazards.classify import classify
from generator.rules.hazards.compositions import composition_faults
from tests.rules.entries import EMPTY
from tests.rules.hazards.candles import EU, candle, holding

LINALOOL = holding("12.5", "Skin Sens. 1B", name="Linalool")
GOOD = Fragrance(
    id="marsh",
    name="Marsh accord",
    composition=(LINALOOL,),
    sheet_dated=date(2026, 1, 1),
    undisclosed_percent=Decimal(0),
)


def _faults(**changed: Any) -> tuple[Fault, ...]:
    shop = replace(EMPTY, fragrances={"marsh": replace(GOOD, **changed)})
    return tuple(composition_faults(shop))


def _of(*section_3: Constituent) -> list[tuple[str, str]]:
    """Where a fault stands in the composition, and what it is."""
    found = _faults(composition=section_3)
    return [("/".join(map(str, fault.path[1:])), fault.what) for fault in found]


def test_a_sheet_that_says_everything_is_silent() -> None:
    assert _faults() == ()


def test_the_whole_warning_of_a_sheet_that_is_too_old() -> None:
    assert _faults(sheet_dated=date(2015, 3, 1)) == (
        Fault(
            path=("fragrances/marsh.yaml", "sheet_dated"),
            what=(
                "the safety data sheet is dated 2015-03-01; sheets from before 2021-11-01 are too old to classify "
                "by"
            ),
            why="a sheet older than 5 years counts as unknown, and so do the candle's hazards",
            fix="update sheet_dated, composition and undisclosed from the supplier's current sheet",
            severity=Severity.WARNING,
        ),
    )


@pytest.mark.parametrize(("dated", "told"), [("2026-11-01", 0), ("2026-11-02", 1), ("2023-11-01", 0)])
def test_a_sheet_of_a_day_to_come_is_told(dated: str, told: int) -> None:
    assert len(_faults(sheet_dated=date.fromisoformat(dated))) == told


def test_it_is_told_once_that_nothing_says_whether_all_is_disclosed() -> None:
    (fault,) = _faults(undisclosed_percent=None)

    assert fault.path == ("fragrances/marsh.yaml",)
    assert fault.what == "nothing says whether section 3 lists all of Marsh accord"
    assert fault.fix == "undisclosed: 0 % if section 3 lists everything, or undisclosed: ... % for the rest"


@pytest.mark.parametrize(("undisclosed", "told"), [("0", 0), ("10", 0), ("10.1", 1)])
def test_shares_that_are_more_than_the_whole_are_told(undisclosed: str, told: int) -> None:
    lines = (holding("60-80", name="A"), holding("30-40", name="B"))

    found = _faults(composition=lines, undisclosed_percent=Decimal(undisclosed))

    assert [fault.what for fault in found] == ["the shares of Marsh accord add up to at least 100.1 %"] * told


def test_the_same_substance_in_two_lines_is_told_at_the_second() -> None:
    twice = (LINALOOL, holding("1", name="Vanillin"), replace(LINALOOL, substance="LINALOOL"))

    assert _of(*twice) == [("composition/2/substance", "LINALOOL is already in line 1 of the composition")]


def test_one_number_under_two_names_is_the_same_substance() -> None:
    one, other = replace(LINALOOL, cas="78-70-6"), holding("1", name="Linalol")

    assert _of(one, replace(other, cas="78-70-6")) == [
        ("composition/1/substance", "Linalol is already in line 1 of the composition")
    ]


def test_a_limit_for_a_class_that_is_not_there_is_told() -> None:
    isoeugenol = holding("1", "Eye Irrit. 2", name="Isoeugenol", limits=["Skin Sens. 1A: 0.01 %"])

    assert _of(isoeugenol) == [
        (
            "composition/0/limits/0",
            "Isoeugenol has a limit for Skin Sens. 1A, but its hazards do not include that class",
        )
    ]


def test_a_corrosive_substance_may_have_limits_for_irritation() -> None:
    assert _of(holding("1", "Skin Corr. 1B", name="Acid", limits=["Eye Irrit. 2: 1-3 %"])) == []


def test_a_factor_for_a_class_that_is_not_there_is_told() -> None:
    hhcb = holding("1", "Aquatic Acute 1", name="HHCB", m=MFactors(acute=10, chronic=1))

    assert _of(hhcb) == [
        (
            "composition/0/m/chronic",
            "HHCB has an M-factor for Aquatic Chronic 1, but its hazards do not include that class",
        )
    ]


def test_a_constituent_of_unknown_hazards_is_told_and_leaves_the_candle_unknown() -> None:
    mystery = holding("1", "unknown", name="Mystery")

    assert _of(mystery) == [("composition/0/hazards", "the hazards of Mystery are unknown")]
    result = classify(candle(LINALOOL, mystery), EU)
    assert (result.status, result.reasons[0].text) == (
        "unknown",
        "Mystery: no sheet says whether it has hazards",
    )


def test_nothing_is_told_where_no_hazard_rules_apply() -> None:
    maker = replace(EMPTY.maker, markets=("US",))
    shop = replace(EMPTY, maker=maker, fragrances={"marsh": replace(GOOD, undisclosed_percent=None)})

    assert tuple(composition_faults(shop)) == ()
