"""From a lot code to the sheet of its revision, and nothing else of the lot on any page."""

import json
from dataclasses import replace
from hashlib import sha256

import pytest

from generator.document import Document
from generator.documents.frame import frame
from generator.documents.house import House
from generator.documents.pages.find import find_page, findable_lots, lot_page, lot_path, salt_of
from generator.ledgers.standing import state_of
from generator.model.ledger import Ledger
from generator.model.lots import Lot
from tests.documents.lots import NEW, OLD, RECALL, UNISSUED, with_lots
from tests.documents.said import said, told
from tests.documents.sample_house import MAKER, house, issued_of, size


def lot_pages(shop: House) -> list[Document]:
    return [lot_page(about, lot) for lot, about in findable_lots(shop)]


def test_a_lots_page_is_named_by_the_digest_of_salt_and_code() -> None:
    digest = sha256(f"{salt_of(MAKER)}SM302026301K7QX".encode()).hexdigest()

    assert lot_path(MAKER, "sm-30 2026301-k7qx") == f"lots/{digest}.html"


def test_two_houses_have_two_names_for_one_code() -> None:
    other = replace(MAKER, name="Another House")

    assert lot_path(MAKER, NEW.lot) != lot_path(other, NEW.lot)


@pytest.mark.parametrize(
    ("lot", "leads_to"), [(OLD, "safety/SM-30-r1.html"), (NEW, "safety/SM-30-r2.html")], ids=["old", "new"]
)
def test_a_lot_leads_to_the_sheet_of_its_revision(lot: Lot, leads_to: str) -> None:
    (page,) = map(told, lot_pages(with_lots(lot)))

    assert (page["to"], page["goes_on"]) == (leads_to, True)


def test_a_lot_is_called_what_its_own_sheet_calls_it_whatever_the_candle_is_called_today() -> None:
    shop = with_lots(OLD, shop=house(size(scent="Samphire Shore")))
    ledger = Ledger(stock_code="SM-30", revisions=(issued_of(size()),))
    state = state_of(shop.sheets["SM-30"].value, ledger)

    (page,) = map(told, lot_pages(replace(shop, sheets={"SM-30": state})))

    assert page["told"] == (
        "Your candle is Samphire Bank, Clear beaker. Follow revision 1 of its burn-safety sheet."
    )


def test_a_lot_without_an_issued_sheet_says_so_and_does_not_go_on_by_itself() -> None:
    (page,) = map(told, lot_pages(with_lots(UNISSUED)))

    assert (page["to"], page["goes_on"]) == ("safety/SM-30.html", False)
    assert "Its lot was poured before a burn-safety sheet was issued." in page["told"]


def test_a_lot_whose_candle_has_no_page_leads_to_the_list_of_sheets() -> None:
    (page,) = map(told, lot_pages(with_lots(replace(UNISSUED, stock_code="SM-99"))))

    assert page["to"] == "safety/index.html"


def test_a_recalled_lot_says_so_first_and_does_not_go_on_by_itself() -> None:
    old, new = map(told, lot_pages(with_lots(OLD, NEW, recall=RECALL)))

    assert [recall["heading"] for recall in old["recalls"]] == ["Product safety recall"]
    assert (old["goes_on"], new["goes_on"], new["recalls"]) == (False, True, [])


def test_no_page_says_the_size_the_day_the_buyers_or_the_code_of_a_lot() -> None:
    shop = with_lots(NEW)

    texts = [said(page) for page in (find_page(shop), *lot_pages(shop))]

    private = ("61", "2026-10-28", "28 October", "Corner Shop", "K7QX")
    assert [word for word in private for text in texts if word in text] == []


def test_the_page_that_takes_a_code_holds_the_salt_and_no_lot() -> None:
    page = told(find_page(with_lots(OLD, NEW)))

    assert (page["salt"], page["lots"]) == (salt_of(MAKER), "lots/")
    assert lot_path(MAKER, OLD.lot) not in said(find_page(with_lots(OLD, NEW)))


def test_the_way_to_it_stands_on_every_page_once_there_are_lots() -> None:
    ways = json.loads(json.dumps(frame(with_lots(NEW)), default=dict))["further"]

    assert "find.html" in [way["path"] for way in ways]
    assert "find.html" not in str(frame(house()))
