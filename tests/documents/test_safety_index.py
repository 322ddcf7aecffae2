"""The list of sheets: whoever has a candle finds its sheet, also when the candle is discontinued."""

from generator.documents.pages.safety_index import safety_index
from generator.model.sizes import Status
from tests.documents.said import told
from tests.documents.sample_house import house, size


def test_every_public_sheet_is_listed_under_its_scent() -> None:
    gone = size(
        stock_code="SM-22", size_name="Tin", safety_path="safety/SM-22.html", status=Status.DISCONTINUED
    )

    scents = told(safety_index(house(size(), gone)))["scents"]

    assert scents == [
        {
            "scent": "Samphire Bank",
            "sheets": [
                {"path": "safety/SM-30.html", "size": "Clear beaker", "stock_code": "SM-30", "remark": None},
                {
                    "path": "safety/SM-22.html",
                    "size": "Tin",
                    "stock_code": "SM-22",
                    "remark": "discontinued",
                },
            ],
        }
    ]


def test_a_trial_has_no_sheet_in_the_list() -> None:
    assert told(safety_index(house(size(status=Status.TRIAL))))["scents"] == []


def test_the_list_stands_where_every_page_links_to() -> None:
    assert safety_index(house()).path == "site/safety/index.html"
