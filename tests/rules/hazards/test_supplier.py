"""A supplier's own classification, held against section 3 of the same sheet."""

from dataclasses import replace

from generator.model.amounts import share
from generator.model.hazards import hazard_class
from generator.model.materials import OwnClassification
from generator.rules.hazards.supplier import Disagreement, against_supplier
from tests.rules.hazards.candles import EU, holding, oil

SCENT = oil(holding("12.5", "Skin Sens. 1B", name="Linalool"))


def _own(at: str, *classes: str) -> OwnClassification:
    return OwnClassification(at=share(at), classes=tuple(hazard_class(c) for c in classes))


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
