"""Labels: complete for one market, inside their shape, and never smaller than the rules allow."""

from collections.abc import Mapping
from dataclasses import replace
from importlib.resources import files
from typing import Any

import pypdfium2
import pytest

from generator.commands.labelled import sizes_of
from generator.documents.house import SizeOf
from generator.documents.papers.label_layout import Printing
from generator.documents.papers.label_text import (
    CAPITAL_EM,
    SMALL_LETTER_EM,
    Labelled,
    label_paper,
    label_value,
)
from generator.ledgers.sheet import sheet_value
from generator.model.label_stock import BoxLabel, LabelStock, Margin, Pitch, RoundLabel
from generator.model.maker import Contact
from generator.model.sizes import OwnLabel
from generator.model.vessel import Lid
from generator.writing.pdf import Refused, TooLarge
from tests.conftest import TODAY
from tests.documents.sample_house import MAKER, MELT, SKIN_AND_EYES, VESSEL, house, size, with_vessel
from tests.documents.set_in_type import set_all, set_one
from tests.site.paper_tools import MM_PER_POINT, letters_mm, text_of, top_of_text_mm

ADDRESS = "https://saltmarsh.example/safety/SM-30-r1.html"
ROUND = LabelStock(
    id="round-70", name="Round 70", sheet="A4", label=RoundLabel(shape="round", diameter_mm=70), rows=3, columns=2,
    margin=Margin(top_mm=20, left_mm=25), pitch=Pitch(across_mm=90, down_mm=93.5),
)  # fmt: skip
BOXES = LabelStock(
    id="box", name="Boxes", sheet="Letter", label=BoxLabel(shape="box", width_mm=99.1, height_mm=135, corner_mm=2),
    rows=2, columns=2, margin=Margin(top_mm=3.3, left_mm=4.6), pitch=Pitch(across_mm=101.6, down_mm=137.5),
)  # fmt: skip
ROLL = LabelStock(
    id="roll", name="Roll", roll_mm=104, label=BoxLabel(shape="box", width_mm=100, height_mm=150, corner_mm=2),
    margin=Margin(top_mm=1.5, left_mm=2), pitch=Pitch(across_mm=100, down_mm=153),
)  # fmt: skip
AROUND = {
    "market": "GB",
    "title": "Labels",
    "house": "Saltmarsh",
    "language": "en",
    "dated": "2026-11-01",
}
LONG = "Unbeaufsichtigtlassungsgefahrenhinweis"
LABELLED = size(hazards={"GB": SKIN_AND_EYES, "EU": SKIN_AND_EYES, "US": None})


def value(one: SizeOf, stock: LabelStock, market: Any = "GB", kind: Any = "warning") -> Mapping[str, Any]:
    wanted = Labelled(
        said=sheet_value(one.recorded, one.facts, MAKER),
        market=market,
        lot="SM-30-2026305-K7QX",
        address=ADDRESS,
        sizes=sizes_of(one, market, stock, TODAY),
        scented=True,
    )
    return label_value(kind, wanted, house(one).speech)


def refused(labels: Mapping[str, Any], stock: LabelStock) -> TooLarge:
    kind = labels["kind"]
    (found,) = set_all([label_paper(kind, Printing(stock=stock), [(labels, 1)], AROUND)])
    assert isinstance(found, Refused), found
    return found.too_large[0]


def sheet(
    stock: LabelStock, one: SizeOf | None = None, market: Any = "US", kind: Any = "warning", start: int = 1
) -> bytes:
    made = value(one or size(), stock, market, kind)
    around = {**AROUND, "market": market}
    return set_one(label_paper(kind, Printing(stock=stock, start=start), [(made, 1)], around))


def words(one: SizeOf, market: Any = "GB") -> str:
    return text_of(sheet(ROLL, one, market))


def test_what_is_printed_lies_inside_its_circle() -> None:
    left_mm, top_mm, radius_mm, free_mm = 25, 20 + 93.5, 35, 1.5
    pixel_mm = MM_PER_POINT / 4

    with pypdfium2.PdfDocument(sheet(ROUND, start=3)) as paper:
        picture = paper[0].render(scale=4).to_pil().convert("L")

    places = (divmod(at, picture.width) for at, light in enumerate(picture.tobytes()) if light < 128)
    middle_mm = complex(left_mm + radius_mm, top_mm + radius_mm)
    farthest_mm = max(abs(complex(x * pixel_mm, y * pixel_mm) - middle_mm) for y, x in places)
    assert farthest_mm <= radius_mm - free_mm + pixel_mm


@pytest.mark.parametrize(("market", "number"), [("GB", "999 or 112"), ("EU", "112"), ("US", "911")])
def test_a_label_speaks_for_one_market_alone(market: str, number: str) -> None:
    text = words(size(), market)

    assert f"call {number}." in text
    assert ("Comptoir du Large" in text, "8.4 oz" in text) == (market == "EU", market == "US")


def test_a_label_says_the_figures_of_its_candle() -> None:
    assert "Maximum burn: 4 h at a time. Stop with 13 mm of wax left. Trim the wick to 6 mm." in words(
        size(), "GB"
    )
    assert "Maximum burn: 4 h at a time. Stop with 1/2 in of wax left. Trim the wick to 1/4 in." in words(
        size(), "US"
    )


def test_a_lid_is_named_only_where_it_snuffs() -> None:
    snuffing = replace(VESSEL, lid=Lid(name="steel lid", weight_g=20.0, snuffs=True))

    assert "with its lid" not in words(size())
    assert "Put it out with its lid." in words(with_vessel(size(), snuffing))


def test_a_melt_is_never_told_to_trim_or_to_burn() -> None:
    text = words(MELT)

    assert "never light it" in text
    assert "wick to" not in text


def test_a_label_names_who_answers_for_a_buyer_s_own_candle() -> None:
    shop = Contact(name="The Corner Shop", address=("1 Quay", "Oxwick"), phone="+44 1632 960009")
    own = OwnLabel(buyer="corner", brand="Corner", responsible=shop, public=("brand", "responsible"))
    one = replace(size(), recorded=replace(size().recorded, own_label=own))

    assert "The Corner Shop, 1 Quay, Oxwick, +44 1632 960009" in words(one)
    assert value(one, ROLL, kind="product")["maker"] == "Corner"


def test_a_hazard_label_is_complete_where_its_law_holds_and_absent_elsewhere() -> None:
    in_gb, in_us = words(LABELLED, "GB"), words(LABELLED, "US")

    assert "Warning May cause an allergic skin reaction. Causes serious eye irritation." in in_gb
    assert "Contains Citronellol, Geraniol, Linalool." in in_gb
    assert "Dispose of contents" in in_gb
    assert "allergic" not in in_us


def test_an_own_label_names_who_answers_for_it_and_its_brand() -> None:
    answers = Contact(name="The Lamp Room", address=("Carrow Head",), email="candles@lamp.example")
    own = OwnLabel(buyer="lamp", brand="Carrow", responsible=answers, public=("brand", "responsible"))
    one = replace(size(), recorded=replace(size().recorded, own_label=own))

    under, front = value(one, ROLL), value(one, ROLL, kind="product")

    assert under["people"] == ("The Lamp Room, Carrow Head, candles@lamp.example",)
    assert front["maker"] == "Carrow"


def test_no_line_parts_a_figure_from_its_unit_or_a_telephone_number() -> None:
    said = value(size(), ROLL)

    assert said["figures"][-1] == "Trim the wick to 6\u00a0mm."
    assert MAKER.phone is not None
    assert MAKER.phone.replace(" ", "\u00a0") in said["people"][0]


def test_a_message_with_a_word_wider_than_its_column_stands_below_the_others() -> None:
    said = value(size(), BOXES)
    first, *others = said["core"]
    short, long = (
        {**said, "core": ({**first, "words": f"{word} nie."}, *others)} for word in ("Never", LONG)
    )

    beside, below = (
        set_one(label_paper("warning", Printing(stock=BOXES), [(one, 1)], AROUND)) for one in (short, long)
    )

    assert top_of_text_mm(beside, "Keep") - top_of_text_mm(beside, "Never") < 2
    assert top_of_text_mm(below, "Keep") - top_of_text_mm(below, LONG) > 5


@pytest.mark.parametrize(
    ("kind", "changed"), [("warning", {"people": (LONG,)}), ("product", {"scent": LONG})]
)
def test_a_word_wider_than_its_label_is_refused(kind: Any, changed: Mapping[str, Any]) -> None:
    narrow = replace(ROLL, label=BoxLabel(shape="box", width_mm=34, height_mm=150))

    part = refused({**value(size(), narrow, kind=kind), **changed}, narrow)

    assert part.across
    assert part.needs_mm > part.has_mm


def test_a_round_front_with_too_many_words_is_told_by_how_much() -> None:
    many = {**value(size(), ROUND, kind="product"), "scent": " ".join(["harbour"] * 20)}

    part = refused(many, ROUND)

    assert part.needs_mm > part.has_mm


def test_spanish_repeats_no_hyphen_of_a_substance() -> None:
    substance = "alpha-Methyl-benzodioxole-propionaldehyde"
    said = {**value(size(), ROLL), "emergency": (" ".join([substance] * 9),)}
    paper = label_paper("warning", Printing(stock=ROLL), [(said, 1)], {**AROUND, "language": "es"})

    text = "".join(text_of(set_one(paper)).replace("\u200b", "").split())

    assert text.count(substance) == 9


def test_the_signal_word_stands_apart_from_the_sentence_behind_it() -> None:
    with pypdfium2.PdfDocument(sheet(BOXES, LABELLED, "GB")) as paper:
        letters = paper[0].get_textpage()
        found = letters.search("Warning May").get_next()
        assert found is not None
        last, first = (letters.get_charbox(found[0] + at) for at in (len("Warnin"), len("Warning ")))

    assert (first[0] - last[2]) * MM_PER_POINT > 2


@pytest.mark.parametrize("stock", [ROUND, BOXES, ROLL], ids=lambda stock: stock.id)
def test_no_letter_is_smaller_than_the_label_s_area_allows(stock: LabelStock) -> None:
    sizes = sizes_of(size(), "US", stock, TODAY)

    data = sheet(stock)

    assert min(letters_mm(data, "I")) >= sizes.other_mm - 0.01
    assert max(letters_mm(data, "W")) >= sizes.signal_mm - 0.01


def test_the_quantity_on_the_front_is_as_high_as_its_market_asks_and_in_the_lowest_part() -> None:
    us, gb = sheet(BOXES, kind="product", market="US"), sheet(ROUND, kind="product", market="GB")

    assert min(letters_mm(us, "z")) >= 3.175 - 0.01  # 1/8 in for a panel of 13 sq in (16 CFR 500.21).
    assert min(letters_mm(gb, "4")) >= 4.0 - 0.01  # 4 mm for 240 g (76/211/EEC).
    assert top_of_text_mm(gb, "240") >= 20 + 0.7 * 70 - 1.5


def test_the_typeface_is_as_high_as_the_sizes_take_it_to_be() -> None:
    face = (
        files("fontpkg_atkinson_hyperlegible") / "files" / "AtkinsonHyperlegible-Regular.ttf"
    ).read_bytes()
    tables = {
        face[at : at + 4]: int.from_bytes(face[at + 8 : at + 12]) for at in range(12, 12 + 16 * face[5], 16)
    }
    heights, units = tables[b"OS/2"] + 86, int.from_bytes(face[tables[b"head"] + 18 : tables[b"head"] + 20])

    small, capital = (int.from_bytes(face[at : at + 2]) / units for at in (heights, heights + 2))

    assert (small, capital) == (SMALL_LETTER_EM, CAPITAL_EM)


def test_a_warning_label_that_fits_a_circle_fits_every_larger_one() -> None:
    """Outside the US no letter grows with the label: 64 mm once held a candle that 65 to 72 mm refused."""
    stocks = [
        replace(ROUND, label=RoundLabel(shape="round", diameter_mm=diameter_mm), rows=1, columns=1)
        for diameter_mm in range(52, 100, 3)
    ]

    made = set_all(
        label_paper("warning", Printing(stock=stock), [(value(LABELLED, stock), 1)], AROUND)
        for stock in stocks
    )

    fits = [not isinstance(one, Refused) for one in made]
    assert {True, False} == set(fits)
    assert fits == sorted(fits)
