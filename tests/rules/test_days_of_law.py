"""Rules that begin on a day: what holds the day before, and what on the day itself. Sources stand beside the rows."""

from collections.abc import Mapping
from datetime import date, timedelta
from itertools import pairwise

import pytest

from generator.model.markets import LAWS, MARKETS, Dated, Market, named_on
from generator.rules.entries.claims import green_claims_are_forbidden
from generator.rules.entries.food_shapes import laws_of_food_shapes
from generator.rules.hazards.classify import classify
from generator.rules.hazards.ruleset import rule_set
from generator.rules.labels.label_duties import LACKS, lacking
from generator.rules.labels.label_sizes import small_letters_mm
from tests.rules.hazards.candles import candle, holding

DAY = timedelta(days=1)
NAMES: Mapping[str, Dated] = {
    **{key: law.titles for key, law in LAWS.items()},
    **{market: row.food_shapes for market, row in MARKETS.items() if row.food_shapes},
}


@pytest.mark.parametrize("names", NAMES.values(), ids=NAMES)
def test_names_begin_before_every_day_and_follow_each_other(names: Dated) -> None:
    days = [since for since, _ in names]

    assert days == sorted(set(days))
    assert days[0] == date.min


def test_a_name_holds_from_its_day_on() -> None:
    """Every name of every law, the day before it and the day itself."""
    for names in NAMES.values():
        for (_, earlier), (since, name) in pairwise(names):
            assert (named_on(names, since - DAY), named_on(names, since)) == (earlier, name)


@pytest.mark.parametrize(
    ("market", "day"),
    [("GB", date(2026, 5, 21)), ("EU", date(2025, 12, 3))],
)
def test_papers_name_the_law_of_the_day(market: Market, day: date) -> None:
    """GB CLP was amended on 2026-05-21; Regulation (EU) 2025/2439 is in the OJ of 2025-12-03 (both FOUND-2nd)."""
    before, since = rule_set(market, day - DAY), rule_set(market, day)

    assert before is not None
    assert since is not None
    titles = LAWS["GB CLP" if market == "GB" else "EU CLP"].titles
    assert (before.law, since.law) == (titles[0][1], titles[1][1])


@pytest.mark.parametrize(
    ("day", "sold_since"),
    [(date(2026, 5, 1), None), (date(2026, 5, 1), date(2026, 5, 1)), (date(2028, 5, 1), date(2026, 4, 30))],
    ids=["of no first day", "new", "sold before"],
)
def test_new_classes_count_from_their_day_on(day: date, sold_since: date | None) -> None:
    """Regulation (EU) 2023/707: 2026-05-01 for new mixtures, 2028-05-01 for those already sold (FOUND)."""
    hormonal = candle(holding("1", "ED HH 1"))
    before, since = rule_set("EU", day - DAY, sold_since), rule_set("EU", day, sold_since)

    assert before is not None
    assert since is not None
    assert (classify(hormonal, before).classes, len(classify(hormonal, since).classes)) == ((), 1)


def test_small_letters_have_a_least_height_from_their_day_on() -> None:
    """Regulation (EU) 2024/2865, put off to 2028-01-01 by 2025/2439 (FOUND-2nd); a later day is not settled."""
    day = date(2028, 1, 1)

    assert (small_letters_mm("EU", 220, day - DAY), small_letters_mm("EU", 220, day)) == (None, 1.2)
    assert small_letters_mm("GB", 220, day) is None


def test_a_supplier_in_the_union_is_asked_for_from_its_day_on() -> None:
    """CLP Art. 4(11) by Regulation (EU) 2024/2865, from 2026-07-01 (FOUND-2nd)."""
    day = date(2026, 7, 1)

    assert list(lacking("EU", "classified", {"supplier"}, day - DAY)) == []
    assert list(lacking("EU", "classified", {"supplier"}, day)) == [LACKS["supplier"]]


def test_green_claims_are_forbidden_from_their_day_on() -> None:
    """Directive (EU) 2024/825, applied from 2026-09-27 (FOUND-2nd); what it changes: tests/rules/test_claims.py."""
    day = date(2026, 9, 27)

    assert [green_claims_are_forbidden(("GB", "EU"), one) for one in (day - DAY, day)] == [False, True]
    assert not green_claims_are_forbidden(("GB", "US"), day)


def test_food_shapes_are_refused_by_the_law_of_the_day() -> None:
    """Regulation (EU) 2023/988 takes the place of Directive 87/357/EEC on 2024-12-13 (FOUND-2nd)."""
    day = date(2024, 12, 13)

    assert "87/357/EEC" in laws_of_food_shapes(("EU",), day - DAY)
    assert "2023/988" in laws_of_food_shapes(("EU",), day)
    assert laws_of_food_shapes(("US",), day) == ""
