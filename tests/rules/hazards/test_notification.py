"""What a notification names, the widths of its ranges, and how far a share may move before it needs another."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from generator.model.hazard_classes import hazard_class
from generator.model.sheet_values import ShareRange, share_range
from generator.rules.hazards.notification import (
    Component,
    allowed_percent,
    components,
    moved_shares,
    notifiable_range,
    percent_text,
    shares_due,
    told_of,
)
from tests.rules.hazards.candles import holding, oil, wax

LINALOOL = "78-70-6"


def noted(**shares: str) -> Mapping[str, ShareRange]:
    return {key.replace("_", "-"): share_range(f"{share} %") for key, share in shares.items()}


def material(key: str, percent: str) -> Component:
    return Component(
        key=key,
        name=key.title(),
        percent=Fraction(percent),
        hazards=None,
        is_major=False,
        is_material=True,
        is_due=True,
    )


@pytest.mark.parametrize(
    ("notified", "low", "high"),
    [
        ("100", "95", "105"),
        ("30", "28.5", "31.5"),
        ("25.01", "23.7595", "26.2605"),
        ("25", "22.5", "27.5"),
        ("10", "8", "12"),
        ("7.834", "6.2672", "9.4008"),
        ("2.5", "1.75", "3.25"),
        ("0.1", "0.07", "0.13"),
    ],
)
def test_an_exact_share_may_move_by_table_4(notified: str, low: str, high: str) -> None:
    """CLP Annex VIII Part B 4.1 Table 4 (FOUND): 5, 10, 20 and 30 % of itself, the upper end of each band included."""
    share = Decimal(notified)

    assert allowed_percent(ShareRange(share, share)) == (Fraction(low), Fraction(high))


@pytest.mark.parametrize("percent", ["6.4", "8", "9.6"])
def test_within_the_widths_nothing_has_moved(percent: str) -> None:
    assert moved_shares(noted(fig="8"), [material("fig", percent)]) == ()


@pytest.mark.parametrize(("percent", "way"), [("6.39", "6.39"), ("9.61", "9.61")])
def test_beyond_them_it_is_told_from_what_to_what(percent: str, way: str) -> None:
    (moved,) = moved_shares(noted(fig="8"), [material("fig", percent)])

    assert str(moved) == f"Fig moved from 8 % to {way} % (allowed: 6.4 to 9.6 %)"


def test_a_share_that_was_notified_as_a_range_stays_within_it() -> None:
    range_ = noted(fig="6.3-9.3")

    assert moved_shares(range_, [material("fig", "9.3")]) == ()
    assert told_of(moved_shares(range_, [material("fig", "9.4")])) == (
        "Fig moved from 6.3-9.3 % to 9.4 % (allowed: 6.3 to 9.3 %)"
    )


def test_what_was_added_and_dropped_is_named() -> None:
    now = [material("soy", "92"), material("fig", "4"), material("rose", "4")]

    told = [str(each) for each in moved_shares(noted(soy="92", fig="4", cedar="4"), now)]

    assert told == ["Rose was added (4 %)", "cedar was dropped (notified with 4 %)"]


def test_a_record_of_materials_alone_says_nothing_of_constituents() -> None:
    found = components((wax("92"), oil(holding("20", "Skin Sens. 1B", name="Linalool"), grams="8")))

    assert moved_shares(noted(soy="92", oil="8"), found) == ()


def test_a_sheet_that_says_more_of_a_constituent_is_noticed_while_the_oil_stays() -> None:
    line = replace(holding("10", "Skin Sens. 1B", name="Linalool"), cas=LINALOOL)
    richer = replace(line, share=share_range("14 %"))
    before = shares_due(components((wax("92"), oil(line, grams="8"))))

    after = components((wax("92"), oil(richer, grams="8")))

    assert told_of(moved_shares(before, after)) == (
        "Linalool moved from 0.8 % to 1.12 % (allowed: 0.56 to 1.04 %)"
    )


def test_a_component_is_found_by_its_name_too() -> None:
    line = replace(holding("10", "Skin Sens. 1B", name="Linalool"), cas=LINALOOL)
    found = components((wax("92"), oil(line, grams="8")))

    assert moved_shares({"linalool": share_range("0.8 %")}, found) == ()


def test_of_many_the_first_are_named_and_the_rest_counted() -> None:
    moved = moved_shares({}, []) + moved_shares(noted(a="1", b="1", c="1", d="1", e="1", f="1"), [])

    assert told_of(moved).endswith("d was dropped (notified with 1 %); and 2 more")


def test_hazardous_constituents_count_from_a_tenth_of_a_percent_and_others_from_one() -> None:
    """CLP Annex VIII Part B 3.3 (FOUND)."""
    lines = (
        holding("1.25", "Skin Sens. 1B", name="at 0.1"),
        holding("1.24", "Skin Sens. 1B", name="below 0.1"),
        holding("12.5", "Aquatic Chronic 2", name="water at 1"),
        holding("12.4", "Aquatic Chronic 2", name="water below 1"),
        holding("2", name="harmless"),
        holding("2", "unknown", name="not known"),
    )

    found = components((wax("92"), oil(*lines, grams="8")))

    assert set(shares_due(found)) == {"soy", "oil", "at 0.1", "water at 1", "not known"}
    unknown = next(each for each in found if each.name == "not known")
    assert (unknown.hazards, unknown.is_major) == (None, True)


@pytest.mark.parametrize(
    ("percent", "major", "width"),
    [
        ("90", True, 5),
        ("24.9", True, 3),
        ("9.8", True, 1),
        ("0.5", True, Fraction(3, 10)),
        ("0.05", True, Fraction(1, 10)),
        ("90", False, 20),
        ("12", False, 10),
        ("7.8", False, 3),
        ("0.2", False, 1),
    ],
)
def test_a_range_is_as_wide_as_it_may_be_and_holds_the_share(
    percent: str, major: bool, width: Fraction | int
) -> None:
    """CLP Annex VIII Part B 3.4 Tables 1 (FOUND-2nd) and 2 (MEMORY)."""
    low, high = notifiable_range(Fraction(percent), major=major)

    assert high - low == width
    assert 0 <= low <= Fraction(percent) <= high <= 100


@pytest.mark.parametrize("major", [True, False])
def test_every_share_lies_in_its_range(major: bool) -> None:
    for thousandths in range(1, 100_001, 37):
        share = Fraction(thousandths, 1000)
        low, high = notifiable_range(share, major=major)
        assert low <= share <= high


def test_an_oil_with_a_constituent_of_major_concern_is_of_major_concern() -> None:
    assert components((oil(holding("5", "Eye Dam. 1"), holding("95")),))[0].is_major
    assert not components((oil(holding("5", "Eye Irrit. 2"), holding("95")),))[0].is_major
    assert str(hazard_class("Eye Dam. 1")) == "Eye Dam. 1 H318"


def test_shares_have_four_digits_and_no_exponent() -> None:
    texts = [percent_text(Fraction(text)) for text in ("100", "92.1659", "0.19529", "0.00001", "10")]

    assert texts == ["100", "92.17", "0.1953", "0.00001", "10"]
