"""Which rules hold where and when."""

from datetime import date

import pytest

from generator.rules.hazards.ruleset import rule_set
from tests.rules.hazards.candles import EU, GB

BEFORE, SINCE, FOR_ALL = date(2026, 4, 30), date(2026, 5, 1), date(2028, 5, 1)


def test_the_united_states_judge_the_product_and_not_its_recipe() -> None:
    assert rule_set("US", SINCE) is None


CASES = {
    "the day before": (BEFORE, None, False),
    "a new candle": (SINCE, None, True),
    "a candle sold before": (SINCE, BEFORE, False),
    "a candle first sold that day": (SINCE, SINCE, True),
    "a candle sold before, two years on": (FOR_ALL, BEFORE, True),
}


@pytest.mark.parametrize(("on", "sold_since", "expected"), CASES.values(), ids=CASES)
def test_the_new_classes_come_by_their_dates(on: date, sold_since: date | None, expected: bool) -> None:
    """Reg. (EU) 2023/707: new mixtures from 1 May 2026, others from 1 May 2028 (FOUND)."""
    rules = rule_set("EU", on, sold_since)

    assert rules is not None
    assert rules.new_classes is expected
    assert ("PBT" in rules.limits) is expected


def test_great_britain_differs_in_the_new_classes_and_the_formula_identifier_alone() -> None:
    new = set(EU.limits) - set(GB.limits)

    assert new == {"ED HH 1", "ED HH 2", "ED ENV 1", "ED ENV 2", "PBT", "vPvB", "PMT", "vPvM"}
    assert all(EU.limits[name] == limit for name, limit in GB.limits.items())
    assert (EU.formula_identifier, GB.formula_identifier) == (True, False)


def test_every_limit_says_where_it_stands() -> None:
    assert all(limit.source.startswith("CLP Annex I ") for limit in EU.limits.values())
