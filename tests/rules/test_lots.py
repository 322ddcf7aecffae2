"""Lots that lead to no sheet or to another one's, and lots that buyers could take for each other."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from generator.ledgers.record import poured_of
from generator.model.ledger import Issued, Ledger
from generator.model.lots import Lot, PouredFormula, SupplierLot
from generator.model.shop import Shop
from generator.problems import Fault, Severity
from generator.reading.read_shop import read_shop
from generator.rules.entries.lot_checks import lot_faults, revision_on
from tests.conftest import TODAY

LOT = Lot(
    lot="WG-20-2026201-T4RD", stock_code="WG-20", poured_on=date(2026, 7, 20), made=48, sheet_revision=2
)

LOST = "if there was such a revision, restore sheets/WG-20.yaml from a backup or version control"


def issued(revision: int, on: date) -> Issued:
    return Issued(revision=revision, on=on, reason="", said="{}", fingerprint="", recorded="{}", seal="")


LEDGER = Ledger(
    stock_code="WG-20",
    revisions=(issued(1, date(2026, 3, 1)), issued(2, date(2026, 7, 1)), issued(3, date(2026, 9, 1))),
)


@pytest.fixture(name="shop")
def _shop(shop_folder: Path) -> Shop:
    """The small shop, its one sheet issued three times."""
    shop = read_shop(shop_folder, "content", TODAY).shop
    assert shop is not None
    return replace(shop, ledgers={"WG-20": LEDGER})


def faults(shop: Shop, *lots: Lot) -> list[Fault]:
    return list(lot_faults(replace(shop, lots=lots), lambda _kind, _id: False))


def test_a_lot_with_the_sheet_of_its_day_is_good(shop: Shop) -> None:
    assert (
        faults(
            shop, LOT, replace(LOT, lot="WG-20-2026060-A4RD", poured_on=date(2026, 3, 1), sheet_revision=1)
        )
        == []
    )


def test_a_stock_code_that_no_entry_has_is_an_error(shop: Shop) -> None:
    assert faults(shop, replace(LOT, stock_code="wg-2")) == [
        Fault(
            path=("lots.csv", 0, "stock_code"),
            what="there is no stock code 'wg-2' in content/candles",
            why="anyone who looks up the lot would find no sheet",
            fix="WG-20",
        )
    ]


def test_a_stock_code_whose_entry_is_at_fault_is_not_told_as_unknown(shop: Shop) -> None:
    lots = replace(shop, lots=(replace(LOT, stock_code="WG-30"),))

    assert list(lot_faults(lots, lambda kind, id_: (kind, id_) == ("stock-code", "WG-30"))) == []


def test_a_lot_that_is_written_twice_is_an_error(shop: Shop) -> None:
    assert faults(shop, LOT, LOT) == [
        Fault(
            path=("lots.csv", 1, "lot"),
            what="lot WG-20-2026201-T4RD is entered twice",
            why="anyone who types it could be shown the other one's sheet (row 1 below the header)",
            fix="use a code that no other lot has",
        )
    ]


@pytest.mark.parametrize("code", ["wg-20-2026201-t4rd", "WG202026201T4RD", "WG 20/2026201 T4RD"])
def test_two_lots_that_a_buyer_would_type_alike_are_an_error(shop: Shop, code: str) -> None:
    (fault,) = faults(shop, LOT, replace(LOT, lot=code))

    assert fault.what == f"lots {code} and WG-20-2026201-T4RD differ only in capitals, dashes or spaces"


def test_a_revision_that_does_not_exist_is_an_error(shop: Shop) -> None:
    assert faults(shop, replace(LOT, sheet_revision=4)) == [
        Fault(
            path=("lots.csv", 0, "sheet_revision"),
            what="WG-20 has no sheet of revision 4",
            why="anyone who looks up the lot would find no sheet",
            fix=f"3, or 2, or 1; {LOST}",
        )
    ]


def test_a_revision_of_a_sheet_that_was_never_issued_is_an_error(shop: Shop) -> None:
    (fault,) = faults(replace(shop, ledgers={}), LOT)

    assert (fault.what, fault.fix) == (
        "WG-20 has no sheet of revision 2",
        f"an empty cell; {LOST}",
    )


def test_a_lot_that_was_poured_before_its_sheet_was_ever_issued_is_a_warning(shop: Shop) -> None:
    assert faults(shop, replace(LOT, poured_on=date(2026, 2, 1), sheet_revision=None)) == [
        Fault(
            path=("lots.csv", 0, "sheet_revision"),
            what="lot WG-20-2026201-T4RD was poured while the sheet of WG-20 was a draft",
            why="no issued sheet belongs to it, and anyone who looks it up is told so",
            fix="enter the revision on its labels; 1 was issued on 2026-03-01",
            severity=Severity.WARNING,
        )
    ]


def test_a_lot_of_a_candle_whose_sheet_was_never_issued_is_told_to_issue_it(shop: Shop) -> None:
    (fault,) = faults(replace(shop, ledgers={}), replace(LOT, sheet_revision=None))

    assert fault.fix == "enter the revision on its labels, once `wickwright issue WG-20` has made one"


def test_a_lot_that_names_no_revision_although_one_was_in_force_is_a_warning(shop: Shop) -> None:
    (fault,) = faults(shop, replace(LOT, sheet_revision=None))

    assert (fault.what, fault.fix, fault.severity) == (
        "lot WG-20-2026201-T4RD names no revision of its sheet",
        "enter the revision on its labels; 2 was issued on 2026-07-01",
        Severity.WARNING,
    )


def test_a_lot_that_was_poured_while_its_revision_was_a_draft_is_a_warning(shop: Shop) -> None:
    assert faults(shop, replace(LOT, sheet_revision=3)) == [
        Fault(
            path=("lots.csv", 0, "sheet_revision"),
            what="lot WG-20-2026201-T4RD was poured on 2026-07-20, while revision 3, issued on 2026-09-01, was a draft",
            why="its labels may differ from the sheet shown to anyone who looks it up",
            fix="enter the revision on its labels, or correct the day it was poured",
            severity=Severity.WARNING,
        )
    ]


@pytest.mark.parametrize(
    ("day", "revision"),
    [(date(2026, 2, 28), None), (date(2026, 3, 1), 1), (date(2026, 8, 31), 2), (date(2027, 1, 1), 3)],
    ids=["before the first", "on the day of the first", "before the third", "ever after"],
)
def test_the_revision_in_force_is_the_last_one_issued_by_that_day(
    shop: Shop, day: date, revision: int | None
) -> None:
    found = revision_on(shop, "WG-20", day)

    assert (found.revision if found else None) == revision


FORMULA = poured_of(
    {"stock_code": "WG-20", "as_of": "2026-11-01", "build": {"vessel": {"id": "amber-20"}, "wicks": {"cotton-18": {}},
     "formula": {"waxes": {"rapeseed": {"amount": "1000 g"}}}}}
)  # fmt: skip
POURED = replace(LOT, formula_fingerprint=FORMULA.name)
LOST_FORMULA = "or, if that is lost, empty the cell: the lot then counts as poured by its sheet's recipe"


def keeping(shop: Shop, *formulas: PouredFormula) -> Shop:
    return replace(shop, poured={formula.name: formula for formula in formulas})


def test_a_lot_whose_formula_is_kept_is_as_it_should_be(shop: Shop) -> None:
    assert faults(keeping(shop, FORMULA), POURED) == []


def test_a_lot_whose_formula_is_not_kept_is_an_error(shop: Shop) -> None:
    assert faults(shop, POURED) == [
        Fault(
            path=("lots.csv", 0, "formula_fingerprint"),
            what=f"lot {LOT.lot} was poured by recipe {FORMULA.name}, but poured/{FORMULA.name}.yaml is missing",
            why="in a recall, no one could say what went into it",
            fix=f"restore poured/{FORMULA.name}.yaml from a backup or version control; {LOST_FORMULA}",
        )
    ]


def test_a_formula_whose_file_cannot_be_read_is_told_there_alone(shop: Shop) -> None:
    lots = replace(shop, lots=(POURED,))

    assert list(lot_faults(lots, lambda kind, id_: (kind, id_) == ("poured", FORMULA.name))) == []


def test_a_formula_that_was_edited_is_an_error_at_its_file_once_for_all_its_lots(shop: Shop) -> None:
    edited = replace(FORMULA, recorded=FORMULA.recorded.replace("1000 g", "1001 g"))

    (fault,) = faults(keeping(shop, edited), POURED, replace(POURED, lot="L-2026-301"))

    assert fault.path == (f"poured/{FORMULA.name}.yaml",)
    assert fault.what == f"the recipe is no longer what was poured: its name would be {edited.true_name}"


def test_a_lot_that_names_the_formula_of_another_stock_code_is_an_error(shop: Shop) -> None:
    other = poured_of({**FORMULA.record, "stock_code": "WG-30"})

    (fault,) = faults(keeping(shop, other), replace(LOT, formula_fingerprint=other.name))

    assert (fault.path, fault.what) == (
        ("lots.csv", 0, "formula_fingerprint"),
        f"lot {LOT.lot} of WG-20 names recipe {other.name}, which belongs to WG-30",
    )


@pytest.mark.parametrize("id_", ["amber-20", "cotton-18", "rapeseed"])
def test_a_suppliers_lot_of_what_is_in_the_formula_is_as_it_should_be(shop: Shop, id_: str) -> None:
    drawn = (SupplierLot(id=id_, number="22-118"),)

    assert faults(keeping(shop, FORMULA), replace(POURED, drawn_from=drawn)) == []


def test_a_suppliers_lot_of_what_is_not_in_the_formula_is_a_warning(shop: Shop) -> None:
    drawn = (SupplierLot(id="rapsed", number="22-118"),)

    assert faults(keeping(shop, FORMULA), replace(POURED, drawn_from=drawn)) == [
        Fault(
            path=("lots.csv", 0, "drawn_from"),
            what=f"lot {LOT.lot} was drawn from a lot of 'rapsed', which is not in its recipe",
            why="in a recall, `lots using rapeseed` searches by these ids",
            fix="rapeseed; leave it if it did go in",
            severity=Severity.WARNING,
        )
    ]


def test_a_lot_of_a_day_that_has_not_come_is_a_warning_that_may_be_right(shop: Shop) -> None:
    assert shop.as_of == date(2026, 11, 1)
    assert faults(shop, replace(LOT, poured_on=date(2026, 11, 1), sheet_revision=3)) == []
    (fault,) = faults(shop, replace(LOT, poured_on=date(2027, 11, 20), sheet_revision=3))

    assert (fault.path, fault.severity) == (("lots.csv", 0, "poured_on"), Severity.WARNING)
    assert fault.what == (f"lot {LOT.lot} was poured on 2027-11-20, after as_of (2026-11-01)")
    assert "if that is right, as_of: a later day in maker.yaml" in fault.fix
