"""A supplier's own classification, held against section 3 of the same sheet."""

from dataclasses import replace
from datetime import date

from generator.model.amounts import share_from_text
from generator.model.hazard_classes import hazard_class
from generator.model.materials import Fragrance, OwnClassification
from generator.model.shop import Shop
from generator.problems import Fault, Severity
from generator.rules.hazards.supplier import Disagreement, against_supplier, supplier_faults
from tests.rules.entries import EMPTY
from tests.rules.hazards.candles import EU, TODAY, holding

SCENT = Fragrance(
    id="oil", name="Oil", composition=(holding("12.5", "Skin Sens. 1B", name="Linalool"),), sheet_dated=TODAY
)


def _own(at: str, *classes: str) -> OwnClassification:
    return OwnClassification(at=share_from_text(at), classes=tuple(hazard_class(c) for c in classes))


def test_agreement_is_silence() -> None:
    assert against_supplier(SCENT, _own("8 % of total", "Skin Sens. 1"), EU) is None
    assert against_supplier(SCENT, _own("8 % of wax"), EU) is None


def test_a_class_that_section_3_does_not_lead_to_is_told() -> None:
    result = against_supplier(SCENT, _own("8 % of total", "Skin Sens. 1", "Aquatic Chronic 3"), EU)

    assert result == Disagreement(only_supplier=("H412",), only_worked_out=())


def test_a_class_that_the_supplier_leaves_out_is_told() -> None:
    result = against_supplier(SCENT, _own("8 % of total"), EU)

    assert result == Disagreement(only_supplier=(), only_worked_out=("H317",))


def test_without_section_3_there_is_nothing_to_compare() -> None:
    blind = replace(SCENT, composition=None)

    assert against_supplier(blind, _own("8 % of total", "Skin Sens. 1"), EU) is None


def _shop(own: OwnClassification | None) -> Shop:
    sheet = Fragrance(
        id="marsh",
        name="Marsh accord",
        composition=(holding("12.5", "Skin Sens. 1B", name="Linalool"),),
        sheet_dated=date(2026, 1, 1),
        own_classification=own,
    )
    return replace(EMPTY, fragrances={"marsh": sheet})


def test_the_whole_warning_of_a_difference_said_once_for_all_markets() -> None:
    (fault,) = supplier_faults(_shop(_own("8 % of total", "Aquatic Chronic 3")))

    assert fault == Fault(
        path=("fragrances/marsh.yaml", "own_classification"),
        what="at 8 % of total the supplier gives H412, which section 3 does not; section 3 leads to H317, which "
        "the supplier does not give",
        why="one of the two is out of date or copied wrongly, and the label would follow section 3 alone",
        fix="copy composition and own_classification from the same sheet, and ask the supplier which is right",
        severity=Severity.WARNING,
    )


def test_a_supplier_who_agrees_or_says_nothing_is_left_alone() -> None:
    assert list(supplier_faults(_shop(_own("8 % of total", "Skin Sens. 1B")))) == []
    assert list(supplier_faults(_shop(None))) == []
