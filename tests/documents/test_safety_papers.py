"""The burn-safety sheet to print: what the page says, on one page of paper, tagged, and as it was issued."""

import json
from dataclasses import replace

import pytest

from generator.document import Document
from generator.documents.house import House, SizeOf
from generator.documents.pages.safety import safety_page
from generator.documents.papers.printed_sheets import issued_papers, papers_today
from tests.documents.sample_house import MELT, SKIN_AND_EYES, house, issued_of, size, with_issued
from tests.documents.set_in_type import set_one
from tests.site.paper_tools import codes_of, page_sizes_mm, text_of, top_of_text_mm

LABELLED = size(hazards={"GB": SKIN_AND_EYES, "EU": SKIN_AND_EYES, "US": None})
SAID_TWICE = ("heading", "made_as", "signal_line", "every_time", "first_burn", "burn_hours", "advice_note")
ADDRESS = "https://saltmarsh.example/safety/SM-30-r1.html"


def today(shop: House, paper: str) -> Document:
    one = shop.scents[0].sizes[0]
    return next(made for made in papers_today(shop, one) if made.value["paper"] == paper)


@pytest.mark.parametrize(("paper", "measures"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
@pytest.mark.parametrize("one", [size(), LABELLED, MELT], ids=["plain", "with a hazard label", "melt"])
def test_a_sheet_is_one_page_of_its_paper(one: SizeOf, paper: str, measures: tuple[float, float]) -> None:
    shop = house(one)

    data = set_one(today(shop, paper))

    assert page_sizes_mm(data) == [measures]


def test_the_paper_says_what_the_page_says() -> None:
    shop = house(LABELLED)
    page = json.loads(json.dumps(safety_page(shop, LABELLED).value, default=dict))

    text = text_of(set_one(today(shop, "a4")))

    sentences = [page[key] for key in SAID_TWICE]
    sentences += [one["words"] for one in (*page["core"], *page["signs"])]
    sentences += [step for one in page["emergencies"] for step in one["steps"]]
    sentences += [cell for row in page["advice"]["rows"] for cell in row["cells"]]
    sentences += [said for one in page["hazards"] for said in (*one["hazards"], *one["precautions"])]
    assert [said for said in sentences if " ".join(said.split()) not in text] == []


def test_the_candle_s_own_numbers_stand_on_one_line_whatever_is_said_below_them() -> None:
    paper = today(house(), "a4")
    numbers = tuple({"figure": f"{at}{at}", "label": "word " * at * 9} for at in (1, 2, 3))

    data = set_one(replace(paper, value={**paper.value, "numbers": numbers}))

    assert [top_of_text_mm(data, str(one["figure"])) for one in numbers] == pytest.approx(
        [top_of_text_mm(data, "11")] * 3, abs=0.3
    )


def test_an_issued_sheet_carries_the_code_of_its_permanent_address() -> None:
    one = size()
    shop = with_issued(house(one), issued_of(one))

    for paper in issued_papers(shop, one):
        assert codes_of(set_one(paper.made())) == [ADDRESS]


def test_a_draft_says_so_and_has_no_code() -> None:
    data = set_one(today(house(), "a4"))

    assert "DRAFT" in text_of(data)
    assert codes_of(data) == []


def test_an_issued_paper_is_made_from_what_was_issued_whatever_the_candle_is_now() -> None:
    one = size()
    then, now = with_issued(house(one), issued_of(one)), with_issued(
        house(size(scent="Another", stop_depth_mm=10.0)), issued_of(one)
    )  # fmt: skip

    before = [set_one(paper.made()) for paper in issued_papers(then, one)]
    after = [set_one(paper.made()) for paper in issued_papers(now, one)]

    assert before == after


def test_a_superseded_paper_says_so_above_what_was_issued_and_where_the_present_one_is() -> None:
    shop = with_issued(house(), issued_of(size(burn_hours=None)), issued_of(size(), revision=2))

    papers = {paper.path: text_of(set_one(paper.made())) for paper in issued_papers(shop, size())}

    old, new = papers["site/safety/SM-30-r1-a4.pdf"], papers["site/safety/SM-30-r2-a4.pdf"]
    assert "Revision 1 of this sheet has been superseded." in old
    assert "Current version: https://saltmarsh.example/safety/SM-30.html" in old
    assert "about 40 hours" not in old
    assert "superseded" not in new


def test_a_page_links_to_its_papers() -> None:
    one = size()
    shop = replace(with_issued(house(one), issued_of(one)), drafts=False)

    linked = safety_page(shop, one).value["papers"]

    assert linked == (
        {"words": "A4", "path": "safety/SM-30-r1-a4.pdf"},
        {"words": "Letter", "path": "safety/SM-30-r1-letter.pdf"},
    )
