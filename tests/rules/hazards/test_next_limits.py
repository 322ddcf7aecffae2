"""The loads at which a label changes, held against classifying at those loads and just below them."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.hazard_classes import HazardClass
from generator.model.materials import Constituent, Fragrance
from generator.model.sheet_values import MFactors
from generator.rules.hazards.classify import classify
from generator.rules.hazards.mixture import mixture
from generator.rules.hazards.next_limits import LabelChange, label_changes
from generator.rules.wax.portions import Ingredient
from tests.rules.hazards.candles import EU, TODAY, holding, of_fragrance, oil, swallowed, wax

LINALOOL = holding("12.5", "Skin Sens. 1B", name="Linalool")
MUSK = holding("30", "Aquatic Acute 1", "Aquatic Chronic 1", name="Musk", m=MFactors(acute=1, chronic=1))


def _told(change: LabelChange) -> tuple[Fraction, tuple[str, ...], tuple[str, ...]]:
    return change.of_total_percent, tuple(outcome.code for outcome in change.classes), change.named


def _changes(*oils: Ingredient) -> tuple[LabelChange, ...]:
    changes = label_changes(oils, EU)
    assert changes is not None
    return changes


def test_a_sensitiser_is_named_and_then_classified() -> None:
    changes = _changes(oil(LINALOOL))

    assert [_told(change) for change in changes] == [
        (Fraction("0.8"), (), ("Linalool",)),
        (Fraction(8), ("H317",), ("Linalool",)),
    ]


def test_the_load_is_told_on_the_wax_too() -> None:
    _, classified = _changes(oil(LINALOOL))

    assert classified.of_wax_percent == Fraction(8, 92) * 100


def test_chronic_sums_change_the_label_where_the_law_s_weights_say() -> None:
    """30 % of the oil: 100 x C = 25 at 0.8333 %, 10 x C = 25 at 8.333 %, C = 25 at 83.33 % (hand)."""
    changes = _changes(oil(MUSK))

    assert [_told(change)[:2] for change in changes] == [
        (Fraction(5, 6), ("H412",)),
        (Fraction(25, 3), ("H411",)),
        (Fraction(250, 3), ("H400", "H410")),
    ]


def test_a_relevance_line_changes_the_label_by_itself() -> None:
    """10 x 10 % + 5 % of the oil is 10 % at a load of 9.52 %, and 10 % of it counts only from a load of 10 %."""
    parts = (holding("10", "Skin Corr. 1"), holding("20", "Skin Irrit. 2"))

    first, *_ = _changes(oil(*parts))

    assert _told(first)[:2] == (Fraction(10), ("H315", "H319"))


def test_two_oils_keep_their_proportions() -> None:
    other = oil(holding("0"), grams="300", id_="other")

    first, second = _changes(oil(LINALOOL), other)

    assert (first.of_total_percent, second.of_total_percent) == (Fraction("3.2"), Fraction(32))


def test_an_unknown_fragrance_has_no_changes_to_tell() -> None:
    assert label_changes((of_fragrance(Fragrance(id="oil", name="Oil")),), EU) is None


def test_a_load_from_which_the_candle_is_refused_is_told() -> None:
    *_, last = _changes(oil(holding("10", "Carc. 2")))

    assert (last.of_total_percent, last.status) == (Fraction(10), "refused")


def test_the_list_ends_where_too_much_is_undisclosed() -> None:
    blind = of_fragrance(
        Fragrance(
            id="oil",
            name="Oil",
            composition=(LINALOOL,),
            undisclosed_percent=Decimal(80),
            sheet_dated=TODAY,
        )
    )

    changes = _changes(blind)

    assert [change.of_total_percent for change in changes] == [Fraction("0.8"), Fraction(8)]


PARTS = st.lists(
    st.builds(
        holding,
        st.sampled_from(["0.1", "0.7", "3", "8", "12.5", "25"]),
        st.sampled_from(
            [
                "Skin Sens. 1A",
                "Skin Sens. 1B",
                "Skin Irrit. 2",
                "Eye Dam. 1",
                "Eye Irrit. 2",
                "Aquatic Acute 1",
            ]
        ),
        st.sampled_from(["Aquatic Chronic 1", "Aquatic Chronic 2", "Aquatic Chronic 4", "Acute Tox. 4 H302"]),
        ate=st.sampled_from([None, swallowed("800")]),
    ),
    min_size=1,
    max_size=4,
)


Seen = tuple[str, tuple[HazardClass, ...], tuple[str, ...]]


def _seen(scent: Ingredient, load_percent: Fraction) -> Seen:
    """What a candle of that load is, found by making it."""
    plain = wax(100 - load_percent)
    result = classify(mixture((plain, replace(scent, exact_g=load_percent))), EU)
    return (
        result.status,
        result.classes,
        tuple(sorted({f.counted[0].name for f in result.named}, key=str.casefold)),
    )


@settings(max_examples=20, deadline=None)
@given(PARTS)
def test_the_label_changes_at_exactly_those_loads_and_nowhere_between(parts: list[Constituent]) -> None:
    scent = oil(*parts)
    told: list[tuple[Fraction, Seen]] = [(Fraction(1, 10**9), ("none", (), ()))]
    told += [(c.of_total_percent, (c.status, c.classes, c.named)) for c in _changes(scent)]

    ends = [load for load, _ in told[1:]] + [Fraction(100)]

    for (load, seen), end in zip(told, ends, strict=True):
        assert _seen(scent, load) == seen
        assert _seen(scent, end - (end - load) / 10**6) == seen
