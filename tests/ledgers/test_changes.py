"""What changed since a sheet was issued: every field by its place, nothing where nothing changed."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.facts.gather import Gathered
from generator.ledgers.record import record_of
from generator.ledgers.sheet import sheet_value
from generator.ledgers.sheet_changes import Change, Difference, Statements, change_of, differences
from generator.ledgers.standing import state_of
from generator.model.amounts import Amount, AmountUnit
from generator.model.burn_safety import BurnAdvice, sheet_as_json
from generator.model.ledger import Ledger
from generator.model.maker import Maker
from generator.model.markets import LAWS, LawKey, Market
from generator.problems import Path
from tests.documents.sample_house import (
    ADVICE,
    MAKER,
    NO_HAZARDS,
    RECORDED,
    SENSITISING,
    WICK,
    issued_of,
    saying,
    size,
)

ORIGINS: dict[Path, Path] = {
    (): ("candles/samphire-bank.yaml", "sizes", 0),
    ("formula",): ("candles/samphire-bank.yaml", "ingredients"),
    ("vessel",): ("vessels/beaker.yaml",),
}


def change(recorded: object = RECORDED, maker: Maker = MAKER, **facts: object) -> Change | None:
    """What changed when the record and the facts become these."""
    one = size(**facts)
    now = one.recorded if recorded is RECORDED else recorded
    state = state_of(
        sheet_value(now, one.facts, maker),  # type: ignore[arg-type]  # records of this test alone
        Ledger(stock_code="SM-30", revisions=(issued_of(size()),)),
    )
    return change_of(state, Gathered(recorded=now, origins=lambda: ORIGINS))  # type: ignore[arg-type]  # as above


def with_fragrance(grams: int) -> object:
    build = RECORDED.build
    (portion,) = build.formula.fragrances
    more = replace(portion, amount=Amount(Decimal(grams), AmountUnit.GRAMS))
    return replace(RECORDED, build=replace(build, formula=replace(build.formula, fragrances=(more,))))


def advice(market: Market, **figures: Any) -> dict[Market, BurnAdvice]:
    return {**ADVICE, market: replace(ADVICE[market], **figures)}


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
        ({"stop_depth_mm": 10.0}, True),
        ({"advice": advice("GB", longest_session_h=3.0)}, True),
        ({"advice": advice("US", stop_at="1 in")}, True),
        ({"advice": advice("GB", trim="5 mm")}, True),
        ({"burn_hours": None}, False),
        ({"advice": advice("GB", first_burn_h=2.0)}, False),
        ({"advice": advice("GB", stop_at="12 mm")}, False),
        ({"hazards": {"GB": saying(NO_HAZARDS, law="CLP of another year"), "EU": NO_HAZARDS}}, False),
    ],
    ids=[
        "the scent", "the net quantity", "the hazards", "the stop line", "the longest session",
        "the stop line of the US", "the trim", "the hours", "the first burn", "advice for GB alone",
        "the law behind a label",
    ],
)  # fmt: skip
def test_labels_are_untrue_where_a_label_says_the_same(facts: dict[str, Any], untrue: bool) -> None:
    found = change(**facts)

    assert found is not None
    assert found.labels_are_untrue is untrue


def test_the_day_is_no_change_where_the_house_explains_it() -> None:
    later = replace(RECORDED, as_of=date(2026, 11, 2))

    found = change(later, maker=replace(MAKER, phone="+44 1632 960002"))

    assert found is not None
    assert [path for _, path in found.recorded] == [("maker.yaml", "phone")]


def test_the_day_is_told_where_nothing_else_explains_a_change() -> None:
    found = change(replace(RECORDED, as_of=date(2026, 11, 2)), burn_hours=None)

    assert found is not None
    assert [path for _, path in found.recorded] == [("maker.yaml", "as_of")]


def test_an_estimated_quantity_makes_no_label_untrue() -> None:
    was, now = (
        size(declared_status="estimated", declared=dict.fromkeys(MAKER.markets), estimated={"GB": grams})
        for grams in ("249 g", "251 g")
    )

    state = state_of(
        sheet_value(RECORDED, now.facts, MAKER), Ledger(stock_code="SM-30", revisions=(issued_of(was),))
    )
    found = change_of(state, Gathered(recorded=RECORDED, origins=lambda: ORIGINS))

    assert found is not None
    assert found.labels_are_untrue is False


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


@pytest.mark.parametrize("key", LAWS)
def test_a_law_that_only_got_another_name_changes_no_sheet(key: LawKey) -> None:
    """The older name stays on what was issued; a law that is another one, or another statement, is still told."""
    (_, older), *_, (_, latest) = LAWS[key].titles
    market = "GB" if key == "GB CLP" else "EU"
    was, now, another = (
        sheet_value(RECORDED, size(hazards={market: saying(NO_HAZARDS, law=law)}).facts, MAKER)
        for law in (older, latest, "Another law")
    )
    ledger = Ledger(stock_code="SM-30", revisions=(replace(issued_of(size()), said=sheet_as_json(was)),))

    assert state_of(now, ledger).status == "issued"
    assert state_of(was, ledger).status == "issued"
    assert state_of(another, ledger).status == "changed"
    shown = state_of(now, ledger).shown(drafts=True)
    assert shown.hazards[market].law == older


def test_the_new_name_of_a_law_makes_no_label_untrue_where_something_else_changed() -> None:
    (_, older), *_, (_, latest) = LAWS["GB CLP"].titles
    was, now = (
        sheet_value(RECORDED, size(hazards={"GB": saying(NO_HAZARDS, law=law)}).facts, maker)
        for law, maker in ((older, MAKER), (latest, replace(MAKER, web="https://other.example")))
    )
    ledger = Ledger(stock_code="SM-30", revisions=(replace(issued_of(size()), said=sheet_as_json(was)),))

    changed = change_of(state_of(now, ledger), Gathered(recorded=RECORDED, origins=lambda: ORIGINS))

    assert changed is not None
    assert [each.way for each in changed.printed] == [("maker", "web")]
    assert state_of(now, ledger).value.hazards["GB"].law == latest
