"""The book of lots as read: a table that may begin empty and may hold columns of the maker's own."""

from datetime import date
from pathlib import Path

import pytest

from generator.model.lots import Lot, SupplierLot
from generator.problems import Place
from generator.reading.read_shop import Reading, read_shop
from tests.conftest import TODAY

HEADER = "lot,stock_code,poured_on,made,sheet_revision,sent_to\n"


def _read(shop_folder: Path, book: str) -> Reading:
    (shop_folder / "lots.csv").write_text(book, encoding="utf-8")
    return read_shop(shop_folder, "content", TODAY)


def _lots(reading: Reading) -> tuple[Lot, ...]:
    assert reading.shop is not None
    return reading.shop.lots


def test_a_lot_says_what_was_poured_when_and_who_was_sent_some(shop_folder: Path) -> None:
    reading = _read(
        shop_folder, f"{HEADER}WG-20-2026201-T4RD,WG-20,2026-07-20,48,2,The Corner Shop; Harbour Stores\n"
    )

    assert _lots(reading) == (
        Lot(
            lot="WG-20-2026201-T4RD",
            stock_code="WG-20",
            poured_on=date(2026, 7, 20),
            made=48,
            sheet_revision=2,
            sent_to=("The Corner Shop", "Harbour Stores"),
        ),
    )


def test_a_shop_without_a_book_has_no_lots(shop_folder: Path) -> None:
    assert _lots(read_shop(shop_folder, "content", TODAY)) == ()


def test_a_book_may_begin_with_its_header_alone(shop_folder: Path) -> None:
    reading = _read(shop_folder, HEADER)

    assert (_lots(reading), reading.problems) == ((), ())


def test_columns_of_the_makers_own_are_passed_over(shop_folder: Path) -> None:
    book = "kettle,lot,stock_code,poured_on,made,kettle,by\n2,L-2026-201,WG-20,2026-07-20,48,,Ada\n"

    reading = _read(shop_folder, book)

    assert reading.problems == ()
    assert [lot.lot for lot in _lots(reading)] == ["L-2026-201"]


def test_every_cell_knows_its_place(shop_folder: Path) -> None:
    reading = _read(shop_folder, f"{HEADER}L-2026-201,WG-20,2026-07-20,48,2\n")

    assert reading.places.of(("lots.csv", 0, "sheet_revision")) == Place("content/lots.csv", 2, 32)


def test_a_book_at_fault_is_known_as_broken(shop_folder: Path) -> None:
    reading = _read(shop_folder, f"{HEADER}L-2026-201,WG-20,2026-07-20,many\n")

    assert reading.is_broken("lot", "L-2026-201")


def test_a_lot_says_its_formula_and_the_suppliers_lots_it_was_drawn_from(shop_folder: Path) -> None:
    header = "lot,stock_code,poured_on,made,formula_fingerprint,drawn_from\n"

    (lot,) = _lots(
        _read(
            shop_folder,
            f"{header}L-2026-201,WG-20,2026-07-20,48,WG-20-0f3c5a9d12b7,rapeseed:22-118; rapeseed : B:9 ;\n",
        )
    )

    assert lot.formula_fingerprint == "WG-20-0f3c5a9d12b7"
    assert lot.drawn_from == (
        SupplierLot(id="rapeseed", number="22-118"),
        SupplierLot(id="rapeseed", number="B:9"),
    )


@pytest.mark.parametrize("written", ["B4711", "rapeseed:", "rapeseed:--", ":B4711", "Rape Seed:B4711"])
def test_a_suppliers_lot_without_its_id_or_number_is_told_at_its_cell(
    shop_folder: Path, written: str
) -> None:
    header = "lot,stock_code,poured_on,made,drawn_from\n"

    (problem,) = _read(shop_folder, f"{header}L-2026-201,WG-20,2026-07-20,48,{written}\n").problems

    assert (problem.place.file, problem.place.line, problem.place.column) == ("content/lots.csv", 2, 32)


def test_likely_columns_of_the_makers_own_are_no_misspelt_ones(shop_folder: Path) -> None:
    own = "formula,recipe,supplier_lot,batch,poured_by,made_by,material,from,drawn"

    reading = _read(shop_folder, f"lot,stock_code,poured_on,made,{own}\nL-2026-201,WG-20,2026-07-20,48\n")

    assert reading.problems == ()


@pytest.mark.parametrize("text", ["", "<<<<<<< ours\nstock_code: WG-20\n", "- a list\n", "a: [\n"])
def test_a_formula_that_cannot_be_read_is_told_once_and_is_known_as_broken(
    shop_folder: Path, text: str
) -> None:
    (shop_folder / "poured").mkdir()
    (shop_folder / "poured" / "WG-20-0f3c5a9d12b7.yaml").write_text(text, encoding="utf-8")

    reading = read_shop(shop_folder, "content", TODAY)

    assert reading.is_broken("poured", "WG-20-0f3c5a9d12b7")
    (problem,) = reading.problems
    assert problem.place.file == "content/poured/WG-20-0f3c5a9d12b7.yaml"
    assert problem.fix == "restore the file from a backup or version control"
