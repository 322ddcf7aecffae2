"""Labels and printed sheets of the example shop, from the command to what a printer and a reader get."""

import shutil
from pathlib import Path

import pytest

from generator.cli import main
from tests.conftest import PROJECT
from tests.site.paper_tools import (
    codes_of,
    is_tagged,
    page_sizes_mm,
    paths_mm,
    tags_of,
    text_of,
    top_of_text_mm,
)

WEB = "https://quillfern.example"
WITHIN_MM = 0.1


def labels(output: Path, *words: str) -> int:
    shop = ("--content", str(PROJECT / "content"), "--output", str(output))
    return main(["papers", "labels", *words, *shop])


def made(output: Path, name: str) -> Path:
    return output / "workshop" / "papers" / "labels" / f"{name}.pdf"


SOME = (
    "SS-30=2",
    "NL-30=1",
    "BC-12=1",
    "--stock",
    "box-99x93-a4",
    "--start",
    "2",
    "--outlines",
    "--blank-lot",
)


@pytest.fixture(name="sheet", scope="module")
def _sheet(tmp_path_factory: pytest.TempPathFactory, built_example: Path) -> Path:
    """Four labels on a bought sheet, the first place left out."""
    output = tmp_path_factory.mktemp("labels")
    shutil.copytree(built_example / ".store", output / ".store")
    assert labels(output, *SOME) == 0
    return made(output, "warning-GB-box-99x93-a4")


def test_every_label_lies_at_its_place_within_a_tenth_of_a_millimetre(sheet: Path) -> None:
    places = [(4.6 + 101.6 * (place % 2), 8.8 + 93.1 * (place // 2), 99.1, 93.1) for place in (1, 2, 3, 4)]
    outlines = [box for box in paths_mm(sheet) if box[2] > 95 and box[3] > 90]
    assert page_sizes_mm(sheet) == [(210.0, 297.0)]
    assert sorted(outlines) == [pytest.approx(place, abs=WITHIN_MM) for place in sorted(places)]


def test_the_code_of_each_label_leads_to_its_sheet(sheet: Path) -> None:
    issued = ("BC-12-r2", "NL-30-r3", "SS-30-r2", "SS-30-r2")

    assert sorted(codes_of(sheet)) == [f"{WEB}/safety/{one}.html" for one in issued]


def test_a_label_reads_from_the_warning_to_who_made_it(sheet: Path) -> None:
    text = text_of(sheet)

    marks = (
        "WARNING",
        "Never leave",
        "Maximum burn",
        "do not use water",
        "allergic skin reaction",
        "SS-30",
        "240 g",
        "Lot",
    )
    assert [text.index(mark) for mark in marks] == sorted(text.index(mark) for mark in marks)


def test_a_label_is_tagged_with_its_heading_and_its_pictures(sheet: Path) -> None:
    assert is_tagged(sheet)
    assert {"H1", "P", "Figure"} <= set(tags_of(sheet))


def test_the_same_labels_are_the_same_bytes(sheet: Path, warm_output: Path) -> None:
    labels(warm_output, *SOME)

    assert made(warm_output, "warning-GB-box-99x93-a4").read_bytes() == sheet.read_bytes()


@pytest.mark.parametrize(
    ("market", "number", "quantity"),
    [("GB", "call 999", "240 g"), ("EU", "call 112", "240 g"), ("US", "call 911", "8.4 oz")],
)
def test_a_label_speaks_to_one_market_alone(
    warm_output: Path, market: str, number: str, quantity: str
) -> None:
    stock = ("--stock", "box-99x93-a4", "--blank-lot", "--incomplete")
    labels(warm_output, "SS-30=1", *stock, "--market", market)

    text = text_of(made(warm_output, f"warning-{market}-box-99x93-a4"))

    others = [other for other in ("call 999", "call 911", "call 112") if number not in other]
    assert number in text
    assert quantity in text
    assert not [other for other in others if other in text]


def test_a_label_that_may_not_be_used_in_the_union_is_not_made(
    warm_output: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stock = ("SS-30=1", "--stock", "box-99x93-a4", "--blank-lot", "--market", "EU")

    assert labels(warm_output, *stock) == 1

    assert "the EU label of SS-30 may not be used: it has no UFI" in capsys.readouterr().out
    assert not made(warm_output, "warning-EU-box-99x93-a4").exists()


def test_an_incomplete_label_is_printed_for_proof_and_marked_across_its_face(warm_output: Path) -> None:
    stock = ("SS-30=1", "BC-12=1", "--stock", "box-99x93-a4", "--blank-lot", "--market", "EU")

    assert labels(warm_output, *stock, "--incomplete") == 0

    assert text_of(made(warm_output, "warning-EU-box-99x93-a4")).count("Proof: do not use") == 1


def test_an_estimate_never_stands_on_a_label(warm_output: Path, capsys: pytest.CaptureFixture[str]) -> None:
    labels(warm_output, "HF-12=1", "--stock", "box-99x93-a4", "--blank-lot")

    assert "left off for GB" in capsys.readouterr().out
    assert "77 g" not in text_of(made(warm_output, "warning-GB-box-99x93-a4"))


def test_a_label_that_does_not_fit_is_told_with_by_how_much_and_what_would_hold_it(
    warm_output: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert labels(warm_output, "BC-12=1", "--stock", "round-50-a4", "--blank-lot") == 1

    told = capsys.readouterr()
    assert (
        "BC-12 for GB needs 56.0 mm across in the smallest letters allowed, and has 47.0 mm"
        in told.out + told.err
    )
    assert (
        "--stock round-70-a4, the next size that holds it, or a fold-out label of 2 leaves or more of this size, "
        "or a tag of 52 by 74 mm (A8)" in told.out + told.err
    )
    assert not (warm_output / "workshop").exists()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("NL-22=1",), "NL-22 has no lot to print on its label"),
        (("HF-TG=1", "--blank-lot"), "the sheet of HF-TG has changed since revision 1"),
        (("NR-22=1", "--blank-lot"), "NR-22 has no issued sheet"),
    ],
    ids=["without a lot", "a changed sheet", "no sheet"],
)
def test_a_label_that_would_be_untrue_is_refused(
    warm_output: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], told: str
) -> None:
    assert labels(warm_output, *words, "--stock", "box-99x93-a4") == 1

    printed = capsys.readouterr()
    assert told in printed.out + printed.err


def test_a_classified_label_that_fits_no_50_mm_round_is_told_what_it_needs(
    warm_output: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A long label of the example shop, in the least letters that we print."""
    assert labels(warm_output, "SS-30=1", "--stock", "round-50-a4", "--blank-lot") == 1

    told = capsys.readouterr()
    assert "has 47.0 mm inside an edge of 1.5 mm: 38.0 mm too little" in told.out + told.err
    assert "--stock roll-60, the next size" in told.out + told.err
    assert "a fold-out label of 4 leaves or more of this size, or a tag of 74 by 105 mm (A7)" in (
        told.out + told.err
    )


@pytest.mark.parametrize(
    ("stock", "need"), [("round-50-a4", "94.0 mm across"), ("roll-60", "56.4 mm across")]
)
def test_a_quantity_that_fits_no_front_is_told_how_wide_it_is(
    warm_output: Path, capsys: pytest.CaptureFixture[str], stock: str, need: str
) -> None:
    assert labels(warm_output, "SS-30=1", "--stock", stock, "--kind", "product", "--market", "US") == 1

    told = capsys.readouterr()
    assert f"the product label of SS-30 for US needs {need}" in told.out + told.err
    assert "--stock box-4x2-letter, the next size that holds it" in told.out + told.err


def test_the_quantity_stands_in_the_lowest_part_of_a_product_label(warm_output: Path) -> None:
    labels(warm_output, "SS-30=1", "--stock", "box-70x37-a4", "--kind", "product", "--outlines")

    sheet = made(warm_output, "product-GB-box-70x37-a4")
    (outline,) = (box for box in paths_mm(sheet) if box[2] == pytest.approx(70, abs=WITHIN_MM))
    assert text_of(sheet).index("240 g") > text_of(sheet).index("Scented candle")
    assert top_of_text_mm(sheet, "240 g") >= outline[1] + 0.7 * outline[3]


@pytest.mark.parametrize(("stock", "ruler_mm"), [("round-50-a4", 100), ("roll-60", 50)])
def test_the_rulers_of_a_calibration_page_are_as_long_as_it_says(
    warm_output: Path, stock: str, ruler_mm: int
) -> None:
    assert labels(warm_output, "--stock", stock) == 0

    page = made(warm_output, f"calibration-{stock}")
    rulers = [box for box in paths_mm(page) if max(box[2:]) == pytest.approx(ruler_mm, abs=WITHIN_MM)]
    assert f"must measure exactly {ruler_mm} mm" in text_of(page)
    assert sorted(box[2] > box[3] for box in rulers) == [False, True]
