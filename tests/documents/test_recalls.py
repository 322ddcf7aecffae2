"""Recall notices: in plain words, wherever a buyer of a recalled lot may look, and nowhere else."""

from dataclasses import replace

import pytest

from generator.documents.house import House
from generator.documents.pages.catalogue import home_page
from generator.documents.pages.recall_notices import notices, recall_page, recalled
from generator.ledgers.standing import state_of
from generator.model.ledger import Ledger
from tests.documents.lots import NEW, OLD, RECALL, with_lots
from tests.documents.said import told
from tests.documents.sample_house import issued_of, size


@pytest.fixture(name="shop")
def _shop() -> House:
    """A house that recalls its old lot."""
    return with_lots(OLD, NEW, recall=RECALL)


def test_the_home_page_carries_the_notice(shop: House) -> None:
    (notice,) = told(home_page(shop))["recalls"]

    assert notice == {
        "heading": "Product safety recall",
        "products": [{"name": "Samphire Bank, Clear beaker (SM-30)", "lots": "lot SM-30-2026120-T4RD"}],
        "stop": "Stop using it now.",
        "path": "recalls/cracked-glass.html",
        "more": "The hazard, and what to do",
    }


def test_a_recalled_candle_that_stands_in_no_catalogue_is_named_by_its_sheet(shop: House) -> None:
    ledger = Ledger(stock_code="SM-30", revisions=(issued_of(size()),))
    state = state_of(shop.sheets["SM-30"].value, ledger)

    (notice,) = notices(replace(shop, scents=(), sheets={"SM-30": state}))

    assert notice["products"] == (
        {"name": "Samphire Bank, Clear beaker (SM-30)", "lots": "lot SM-30-2026120-T4RD"},
    )


def test_only_the_pages_of_recalled_candles_carry_the_notice(shop: House) -> None:
    assert (len(notices(shop, "SM-30")), len(notices(shop, "SM-22"))) == (1, 0)


def test_the_notice_says_what_is_recalled_why_and_what_to_do(shop: House) -> None:
    """Regulation (EU) 2023/988, Article 36(2) (MEMORY): product, hazard, action, remedy, contact."""
    document = recall_page(shop, *shop.recalls)
    page = told(document)

    assert document.path == "site/recalls/cracked-glass.html"
    assert page["dated"] == "30 October 2026"
    assert [(one["name"], one["lots"]) for one in page["products"]] == [
        ("Samphire Bank, Clear beaker (SM-30)", "lot SM-30-2026120-T4RD")
    ]
    assert page["steps"] == ["Stop using it now.", "Put it outside.", "Write to us."]
    assert (page["hazard"], page["remedy"], page["contact"]) == (RECALL.hazard, RECALL.remedy, RECALL.contact)


@pytest.mark.parametrize(
    ("contact", "address"),
    [
        ("hello@saltmarsh.example", "mailto:hello@saltmarsh.example"),
        ("hello@saltmarsh.example or 01632 960188", None),
        ("01632 960188", None),
    ],
)
def test_a_contact_that_is_an_address_alone_can_be_written_to(contact: str, address: str | None) -> None:
    shop = with_lots(OLD, recall=replace(RECALL, contact=contact))
    document = recall_page(shop, *shop.recalls)

    assert told(document)["contact_address"] == address


def test_every_lot_of_a_stock_code_may_be_recalled_without_naming_one() -> None:
    everything = replace(RECALL, lots=(), stock_codes=("SM-30",))

    (one,) = recalled([everything], [OLD, NEW])

    assert (one.lots, one.stock_codes) == ((OLD, NEW), frozenset({"SM-30"}))
    assert told(home_page(with_lots(OLD, NEW, recall=everything)))["recalls"][0]["products"] == [
        {"name": "Samphire Bank, Clear beaker (SM-30)", "lots": "all lots"}
    ]


def test_a_candle_whose_entry_is_gone_is_recalled_by_its_stock_code() -> None:
    gone = replace(OLD, stock_code="SM-99")

    shop = with_lots(gone, recall=RECALL)
    document = recall_page(shop, *shop.recalls)

    assert told(document)["products"] == [
        {"name": "SM-99", "lots": "lot SM-30-2026120-T4RD", "drawing": None}
    ]


def test_the_latest_notice_comes_first() -> None:
    later = replace(RECALL, id="another", on=RECALL.on.replace(day=31))

    assert [one.notice.id for one in recalled([RECALL, later], [OLD])] == ["another", "cracked-glass"]
