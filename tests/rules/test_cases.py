"""What a parcel weighs; the sums are done by hand."""

from dataclasses import replace

import pytest

from generator.model.formats import Cased
from generator.model.kinds import KINDS, Kind
from generator.model.materials import Wick
from generator.model.recorded import WickUse
from generator.model.vessel import Lid, Vessel
from generator.rules.trade.cases import cartons, case_g, gross_g
from tests.references import JAR

TUMBLER = Vessel(
    id="jar", name="Jar", material="glass", inside=JAR, weight_g=285.0, lid=Lid(name="cork", weight_g=16.0)
)
BRAID = Wick(id="braid", name="Braid", core="none", trim_mm=6.0, weight_g=1.5)
THREE_WICKS = (WickUse(wick=BRAID, count=3),)


def test_a_candle_weighs_its_wax_its_vessel_its_lid_its_wicks_and_its_box() -> None:
    assert gross_g(249.0, TUMBLER, THREE_WICKS, 40.0) == 249 + 285 + 16 + 4.5 + 40


def test_a_candle_that_stands_free_weighs_no_container() -> None:
    assert gross_g(249.0, None, THREE_WICKS, 40.0) == 249 + 4.5 + 40


def test_a_wick_that_nobody_weighed_counts_as_nothing() -> None:
    unweighed = (WickUse(wick=replace(BRAID, weight_g=None), count=3),)

    assert gross_g(249.0, TUMBLER, unweighed, 40.0) == 249 + 285 + 16 + 40


@pytest.mark.parametrize(
    ("in_", "packaging_g"),
    [
        (replace(TUMBLER, weight_g=None), 40.0),
        (replace(TUMBLER, lid=Lid(name="cork")), 40.0),
        (TUMBLER, None),
    ],
    ids=["the vessel", "the lid", "the box"],
)
def test_what_was_not_weighed_leaves_the_gross_weight_unknown(in_: Vessel, packaging_g: float | None) -> None:
    assert gross_g(249.0, in_, THREE_WICKS, packaging_g) is None


def test_a_case_weighs_its_candles_and_its_carton() -> None:
    cased = Cased(size=(300.0, 200.0, 120.0), weight_g=350.0)

    assert case_g(594.5, 6, cased) == 3917.0
    assert case_g(None, 6, cased) is None
    assert case_g(594.5, None, cased) is None
    assert case_g(594.5, 6, None) is None


@pytest.mark.parametrize(
    ("quantity", "case", "expected"), [(0, 6, 0), (6, 6, 1), (7, 6, 2), (12, 6, 2), (7, None, None)]
)
def test_cartons_are_counted_the_last_one_in_part(
    quantity: int, case: int | None, expected: int | None
) -> None:
    assert cartons(quantity, case) == expected


def test_customs_class_what_has_a_wick_as_3406_and_melts_are_left_to_the_maker() -> None:
    """Harmonized System heading 3406: candles, tapers and the like (customs rulings, FOUND)."""
    assert {row.customs_heading for row in KINDS.values() if row.takes_wick} == {"3406"}
    assert KINDS[Kind.MELT].customs_heading is None
