"""What changed since a sheet was issued: every field by its place, nothing where nothing changed."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.facts.gather import Gathered
from generator.model.amounts import Amount, AmountUnit
from generator.model.ledger import Ledger
from generator.problems import Path
from generator.revisions.changes import Change, Difference, Statements, change_of, differences
from generator.revisions.record import record_of
from generator.revisions.sheet import sheet_value
from generator.revisions.standing import state_of
from tests.documents.sample_house import MAKER, RECORDED, SENSITISING, WICK, issued_of, size

ORIGINS: dict[Path, Path] = {
    (): ("candles/samphire-bank.yaml", "sizes", 0),
    ("formula",): ("candles/samphire-bank.yaml", "ingredients"),
    ("vessel",): ("vessels/beaker.yaml",),
}


def change(recorded: object = RECORDED, **facts: object) -> Change | None:
    """What changed when the record and the facts become these."""
    now = replace(RECORDED) if recorded is RECORDED else recorded
    one = size(**facts)
    state = state_of(
        sheet_value(now, one.facts, MAKER),  # type: ignore[arg-type]  # records of this test alone
        Ledger(stock_code="SM-30", revisions=(issued_of(size()),)),
    )
    return change_of(state, Gathered(recorded=now, origins=ORIGINS))  # type: ignore[arg-type]  # as above


def with_fragrance(grams: int) -> object:
    build = RECORDED.build
    (portion,) = build.formula.fragrances
    more = replace(portion, amount=Amount(Decimal(grams), AmountUnit.GRAMS))
    return replace(RECORDED, build=replace(build, formula=replace(build.formula, fragrances=(more,))))


def test_nothing_is_told_where_nothing_changed() -> None:
    assert change() is None


def test_a_record_that_changes_no_word_of_the_sheet_is_not_told() -> None:
    assert change(with_fragrance(86)) is None


def test_a_changed_amount_is_told_with_the_place_it_is_written_at() -> None:
    found = change(with_fragrance(86), burn_hours=None)

    assert found is not None
    assert found.recorded == (
        (
            Difference(way=("build", "formula", "fragrances", "marsh", "amount"), was="85 g", now="86 g"),
            ("candles/samphire-bank.yaml", "ingredients", "marsh"),
        ),
    )


def test_figures_that_are_gone_are_told_as_such() -> None:
    found = change(burn_hours=None)

    assert found is not None
    assert found.printed == (
        Difference(way=("burn_hours", "basis"), was="tested", now=None),
        Difference(way=("burn_hours", "claim"), was="40", now=None),
    )


def test_statements_come_and_go_by_market() -> None:
    found = change(hazards={"GB": SENSITISING, "EU": None, "US": None})

    assert found is not None
    assert found.statements == (Statements(market="GB", came=("H317",), went=()),)


@pytest.mark.parametrize(
    ("facts", "untrue"),
    [
        ({"scent": "Samphire Shore"}, True),
        ({"declared": {"GB": "239 g", "EU": "239 g", "US": "8.4 oz (239 g)"}}, True),
        ({"hazards": {"GB": SENSITISING, "EU": None, "US": None}}, True),
        ({"burn_hours": None}, False),
        ({"stop_depth_mm": 10.0}, False),
    ],
    ids=["the scent", "the net quantity", "the hazards", "the hours", "the stop line"],
)
def test_labels_are_untrue_where_a_label_says_the_same(facts: dict[str, object], untrue: bool) -> None:
    found = change(**facts)

    assert found is not None
    assert found.labels_are_untrue is untrue


def test_a_wick_in_place_of_another_is_told_in_one_line_each() -> None:
    build = RECORDED.build
    (use,) = build.wicks
    other = replace(RECORDED, build=replace(build, wicks=(replace(use, wick=replace(WICK, id="braid-12")),)))

    found = differences(record_of(RECORDED), record_of(other))

    assert found == (
        Difference(way=("build", "wicks", "braid-12", "count"), was=None, now="1"),
        Difference(way=("build", "wicks", "braid-9", "count"), was="1", now=None),
    )


VALUES = st.recursive(
    st.text("ab", min_size=1),
    lambda below: st.dictionaries(st.text("xyz", min_size=1), below, min_size=1, max_size=3),
    max_leaves=8,
)


@given(VALUES, VALUES)
@settings(max_examples=60)
def test_there_are_differences_exactly_where_two_values_differ(was: object, now: object) -> None:
    assert (differences(was, now) == ()) is (was == now)  # type: ignore[arg-type]  # hypothesis gives no better type


@given(VALUES, VALUES)
@settings(max_examples=30)
def test_what_came_one_way_goes_the_other_way(was: object, now: object) -> None:
    there, back = differences(was, now), differences(now, was)  # type: ignore[arg-type]  # as above

    assert back == tuple(replace(each, was=each.now, now=each.was) for each in there)
