"""Wax that could be taken for food: asked once for each shape, refused where it is so, and silent elsewhere."""

from dataclasses import replace

import pytest

from generator.model.candle import Candle
from generator.model.formats import Format
from generator.model.kinds import Kind
from generator.model.sizes import Size
from generator.problems import Fault
from generator.rules.entries.food_shapes import food_shape_faults
from tests.rules.entries import EMPTY

IN_GREAT_BRITAIN = "(GB: the Food Imitations (Safety) Regulations 1989, FOUND-2nd)"
BAR = Format(id="bar", kind=Kind.MELT)
FORMATTED = (Size(stock_code="HE-SB", format="bar"), Size(stock_code="HE-SC", format="bar"))


def faults(*sizes: Size, format_: Format = BAR, markets: tuple[str, ...] = ("GB", "US")) -> tuple[Fault, ...]:
    heron = Candle(id="heron", scent="Heron", collection="shore", ingredients={}, sizes=sizes)
    maker = replace(EMPTY.maker, markets=markets)
    shop = replace(EMPTY, maker=maker, formats={"bar": format_}, candles={"heron": heron})
    return tuple(food_shape_faults(shop))


def test_the_whole_question_is_asked_once_where_the_kind_is_written() -> None:
    assert faults(*FORMATTED) == (
        Fault(
            path=("formats/bar.yaml", "kind"),
            what="nothing says whether format 'bar' looks like food",
            why=f"a melt or moulded candle that a child could mistake for food may not be sold {IN_GREAT_BRITAIN}",
            fix="looks_like_food: no, if its shape, colour and wrapping cannot be mistaken for food, sweets or fruit",
        ),
    )


def test_a_size_of_its_own_kind_is_asked_by_itself() -> None:
    (fault,) = faults(Size(stock_code="HE-SB", kind=Kind.MELT))

    assert fault.path == ("candles/heron.yaml", "sizes", 0, "kind")
    assert fault.what == "nothing says whether HE-SB looks like food"


def test_an_answer_in_the_format_or_in_each_size_is_enough() -> None:
    assert faults(*FORMATTED, format_=replace(BAR, looks_like_food=False)) == ()
    assert faults(*(replace(size, looks_like_food=False) for size in FORMATTED)) == ()


def test_the_whole_refusal_of_what_looks_like_food() -> None:
    assert faults(*FORMATTED, format_=replace(BAR, looks_like_food=True)) == (
        Fault(
            path=("formats/bar.yaml", "looks_like_food"),
            what="format 'bar' looks like food",
            why=f"what a child could mistake for food and put in its mouth may not be sold {IN_GREAT_BRITAIN}",
            fix="choose another shape, colour or wrapping, then write looks_like_food: no",
        ),
    )


@pytest.mark.parametrize(("answer", "told"), [(None, 0), (False, 0), (True, 1)])
def test_a_container_is_not_asked_but_refused_where_it_is_said(answer: bool | None, told: int) -> None:
    jar = Size(stock_code="HE-30", kind=Kind.CONTAINER, looks_like_food=answer)

    assert len(faults(jar)) == told


def test_a_size_answers_for_itself() -> None:
    cake = replace(FORMATTED[1], looks_like_food=True)

    (fault,) = faults(FORMATTED[0], cake, format_=replace(BAR, looks_like_food=False))

    assert fault.path == ("candles/heron.yaml", "sizes", 1, "looks_like_food")


def test_nothing_is_asked_where_no_such_law_is_known() -> None:
    assert faults(*FORMATTED, markets=("US",)) == ()
