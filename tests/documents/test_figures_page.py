"""The page on methods: every step names its source or owns up to being a choice, and its numbers are the rules' own."""

import pytest

from generator.documents.pages.figures_page import figures_page
from generator.rules.burning.burn_hours import LEAST_TESTED_PIECES, LEAST_TESTED_SESSIONS, THIN_COVERAGE
from generator.rules.burning.fuel import FASTEST_UNTESTED_G_PER_H, SHARED_HEAT
from generator.rules.burning.guidance import ADVICE, COOL_DOWN_H, LONGEST_SESSION_H, stop_depth
from generator.rules.burning.pieces import WHOLE_LIFE_COVERAGE
from generator.rules.burning.rates import DRIFT, LEAST_SPREAD, ONE_PIECE_SPREAD, ONE_SIDED
from generator.rules.burning.sessions import TALLEST_FLAME_MM
from generator.rules.wax.density import FRAGRANCE_G_PER_ML, WAX_GROWS_PER_K
from generator.rules.wax.weighings import ENOUGH_WEIGHINGS
from tests.documents.said import told
from tests.documents.sample_house import WORDS, house

PAGE = told(figures_page(house()))
TOPICS = {topic["id"]: topic for topic in PAGE["topics"]}


@pytest.mark.parametrize("topic", [name for name in TOPICS if name != "private"])
def test_every_topic_names_what_stands_behind_it(topic: str) -> None:
    assert len(TOPICS[topic]["sources"]) > 0


def test_every_mark_used_is_explained() -> None:
    used = {source["mark"] for topic in PAGE["topics"] for source in topic["sources"]}

    assert used <= {one["mark"] for one in PAGE["standings"]}


def test_the_hour_an_inch_is_marked_as_practice_without_a_source() -> None:
    marks = {source["text"]: source["mark"] for source in TOPICS["first-burn"]["sources"]}

    assert marks["One hour per inch"] == "common practice, no source"


def test_every_word_of_the_section_stands_on_the_page() -> None:
    printed = str(figures_page(house()).value)

    assert [key for key, text in WORDS["figures"].items() if text not in printed] == []


@pytest.mark.parametrize(
    ("key", "figure"),
    [
        ("density_oil", f"{FRAGRANCE_G_PER_ML} g/ml"),
        ("density_heat", f"{WAX_GROWS_PER_K * 100:.2g} %"),
        ("heel_2", f"{stop_depth(('US',)).value} mm"),
        ("heel_2", f"{stop_depth(('GB', 'EU')).value:g} mm"),
        ("hours_3", f"{WHOLE_LIFE_COVERAGE:.0%}".replace("%", " %")),
        ("hours_bound", f"{ONE_SIDED:.0%}".replace("%", " %")),
        ("hours_level", f"{LEAST_SPREAD:.0%}".replace("%", " %")),
        ("hours_few", f"{ONE_PIECE_SPREAD:.0%}".replace("%", " %")),
        ("hours_few", f"{DRIFT:.0%}".replace("%", " %")),
        ("hours_flame", f"{TALLEST_FLAME_MM:g} mm"),
        ("untested_1", f"{FASTEST_UNTESTED_G_PER_H} g an hour"),
        ("untested_1", f"{SHARED_HEAT - 1:.0%}".replace("%", " %")),
    ],
)
def test_a_number_on_the_page_is_the_number_of_the_rule(key: str, figure: str) -> None:
    assert figure in WORDS["figures"][key]


NUMERALS = {2: "two", 3: "three", 4: "four", 5: "five"}


@pytest.mark.parametrize(
    ("key", "number"),
    [
        ("quantity_2", ENOUGH_WEIGHINGS),
        ("hours_3", LEAST_TESTED_PIECES),
        ("hours_3", LEAST_TESTED_SESSIONS),
        ("first_burn_2", LONGEST_SESSION_H),
        ("first_burn_four", COOL_DOWN_H),
    ],
)
def test_a_numeral_on_the_page_is_the_number_of_the_rule(key: str, number: float) -> None:
    assert NUMERALS[int(number)] in WORDS["figures"][key].lower()


def test_less_than_half_of_the_wax_is_what_makes_a_test_thin() -> None:
    assert THIN_COVERAGE == 0.5
    assert "less than half of the wax" in WORDS["figures"]["hours_3"]


def test_the_distances_are_those_of_the_advice() -> None:
    apart, clear = WORDS["figures"]["cautions_apart"], WORDS["figures"]["cautions_clear"]

    assert (ADVICE["American"].apart.text, ADVICE["European"].apart.text) == ("3 in", "10 cm")
    assert ("3 inches apart" in apart, "10 cm" in apart, "12 inches" in clear) == (True, True, True)
