"""The papers on the bench, from the command to the PDF; all of them stay in the workshop."""

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest

from generator.cli import main
from generator.commands import burn_test_new, check, fills
from generator.making.options import CommandOptions
from tests.conftest import EXAMPLE
from tests.loaded import make_paper, make_papers

TIGHT = """
#set document(title: "Too much for its place")
= A head
#metadata((part: "the head", needs_mm: 41.8, has_mm: 29.9)) <too-large>
"""


@pytest.fixture(name="asked")
def _asked(shop_folder: Path, ask: Callable[[Path], CommandOptions]) -> CommandOptions:
    return ask(shop_folder)


@pytest.fixture(name="example")
def _example(warm_output: Path) -> CommandOptions:
    return CommandOptions(content=EXAMPLE, output=warm_output, as_of=None, as_data=False)


def _text(pdf: Path) -> str:
    pages = pypdfium2.PdfDocument(pdf)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def _only(folder: Path) -> Path:
    return next(folder.glob("*-a4.pdf"))


def test_a_pour_of_what_is_discontinued_says_so(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    candle = asked.content / "candles" / "wet-garden.yaml"
    candle.write_text(f"{candle.read_text(encoding='utf-8')}status: discontinued\n", encoding="utf-8")

    assert make_papers(asked, "pour", {"WG-20": 6}) == 0

    assert "WG-20 is discontinued" in capsys.readouterr().out


def test_a_pour_sheet_reads_from_its_cautions_over_setting_out_to_pouring(asked: CommandOptions) -> None:
    assert make_papers(asked, "pour", {"WG-20": 6}) == 0

    text = _text(_only(asked.output / "workshop/papers/pour"))
    marks = ["Hot wax", "Set out", "Weigh out", "Total", "Heat the wax to", "Pour at"]
    places = [text.index(mark) for mark in marks]
    assert places == sorted(places)
    assert "class B extinguisher" in text


def test_a_shop_without_a_waste_is_told_so_on_the_sheet(asked: CommandOptions) -> None:
    make_papers(asked, "pour", {"WG-20": 6})

    assert "nothing is added" in _text(_only(asked.output / "workshop/papers/pour"))


def test_the_same_pour_is_the_same_bytes(asked: CommandOptions, tmp_path: Path) -> None:
    elsewhere = CommandOptions(content=asked.content, output=tmp_path / "again", as_of=None, as_data=False)

    make_papers(asked, "pour", {"WG-20": 6})
    make_papers(elsewhere, "pour", {"WG-20": 6})

    first, second = (_only(one.output / "workshop/papers/pour") for one in (asked, elsewhere))
    assert first.read_bytes() == second.read_bytes()


@pytest.mark.parametrize(
    ("counts", "told"),
    [
        ({"HF-SB": 1}, "0.13 drops"),  # 2 drops in 1083.06 g, and 73 g of it.
        ({"HF-SB": 10}, "1 drop 0."),
        ({"SS-30": 24}, "34 drops"),  # 6 drops in 1088.18 g, and 6190 g of it.
    ],
    ids=["less than half a drop", "one", "several"],
)
def test_drops_are_counted_as_they_are_spoken_of(
    counts: dict[str, int], told: str, example: CommandOptions
) -> None:
    assert make_papers(example, "pour", counts) == 0

    assert told in _text(_only(example.output / "workshop/papers/pour"))


def test_a_pour_of_all_candles_has_a_file_name_that_every_disk_takes(example: CommandOptions) -> None:
    codes = sorted(path.stem for path in (EXAMPLE / "sheets").glob("*.yaml"))

    assert make_papers(example, "pour", dict.fromkeys(codes, 3)) == 0
    assert make_papers(example, "pour", dict.fromkeys(codes, 4)) == 0

    names = {path.name for path in (example.output / "workshop/papers/pour").iterdir()}
    assert len(names) == 4
    assert max(map(len, names)) < 140


def test_a_pot_fills_no_more_than_it_holds(asked: CommandOptions, capsys: pytest.CaptureFixture[str]) -> None:
    assert fills.run(asked, ["WG-20"], "10 g", unscented=False) == 0

    assert "WG-20: fills 0 of" in capsys.readouterr().out


def test_a_pot_without_a_unit_is_wrong_use(asked: CommandOptions) -> None:
    assert fills.run(asked, ["WG-20"], "10", unscented=False) == 2


def test_a_stock_code_that_is_named_twice_is_poured_twice(asked: CommandOptions) -> None:
    words = ["papers", "pour", "WG-20=6", "WG-20=2"]

    assert main([*words, "--content", str(asked.content), "--output", str(asked.output)]) == 0

    assert "8 × 20 cl amber jar" in _text(_only(asked.output / "workshop/papers/pour"))


def test_a_cost_sheet_says_what_is_not_recorded(asked: CommandOptions) -> None:
    assert make_paper(asked, "cost") == 0

    text = _text(_only(asked.output / "workshop/papers/cost"))
    assert "at least" in text
    assert "price not recorded" in text


def test_a_cost_sheet_tells_what_each_level_of_price_leaves(example: CommandOptions) -> None:
    assert make_paper(example, "cost", "SS-30") == 0

    text = _text(_only(example.output / "workshop/papers/cost"))
    assert "Trade level: shop 10.00 GBP" in text  # Half of 24.00 without its 20 %.
    assert "Trade level: corner 11.40 GBP" in text  # 12.00 less 5 %.


def test_a_new_burn_test_is_a_warning_until_its_first_session_and_is_never_overwritten(
    asked: CommandOptions,
) -> None:
    table, beside = (asked.content / f"burn-tests/WG-20.{ending}" for ending in ("csv", "yaml"))
    table.rename(table.with_name("WG-20-first.csv"))
    beside.rename(beside.with_name("WG-20-first.yaml"))
    entry = asked.content / "candles/wet-garden.yaml"
    entry.write_text(entry.read_text().replace("burn-tests/WG-20.csv", "burn-tests/WG-20-first.csv"))

    first = burn_test_new.run(asked, "WG-20")

    assert (first, check.run(asked), burn_test_new.run(asked, "WG-20")) == (0, 0, 2)


def test_a_table_that_is_there_stays_byte_for_byte(asked: CommandOptions) -> None:
    before = (asked.content / "burn-tests/WG-20.csv").read_bytes()

    assert burn_test_new.run(asked, "WG-20") == 2
    assert (asked.content / "burn-tests/WG-20.csv").read_bytes() == before


def test_a_bench_sheet_has_every_column_of_the_table(asked: CommandOptions) -> None:
    assert make_paper(asked, "bench", "WG-20") == 0

    text = _text(_only(asked.output / "workshop/papers/bench"))
    assert all(
        column in text for column in ("Hours", "Before, g", "After, g", "Outcome", "Flame height, mm", "Soot")
    )
    assert "Never leave a burning candle" in text


def test_a_waste_of_everything_is_a_slip_of_the_pen(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    maker = asked.content / "maker.yaml"
    maker.write_text(maker.read_text(encoding="utf-8") + "waste: 100 %\n", encoding="utf-8")

    assert make_papers(asked, "pour", {"WG-20": 6}) == 1

    told = capsys.readouterr()
    assert "waste is 100 %, more than half of what is poured" in told.out + told.err


@pytest.mark.parametrize(
    ("words", "template"),
    [
        (["pour", "SS-30=4"], "pour"),
        (["cost", "SS-30"], "cost"),
        (["bench", "SS-30"], "bench_test"),
    ],
    ids=["pour", "cost", "bench"],
)
def test_a_part_without_room_is_told_once_and_with_its_own_stock_code(
    words: list[str],
    template: str,
    example: CommandOptions,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    content, papers = shutil.copytree(EXAMPLE, tmp_path / "content"), tmp_path / "themes" / "tight" / "papers"
    papers.mkdir(parents=True)
    (papers.parent / "theme.yaml").write_text("name: tight\nextends: netloft\n", encoding="utf-8")
    (papers / f"{template}.typ").write_text(TIGHT, encoding="utf-8")
    maker = content / "maker.yaml"
    maker.write_text(
        re.sub(r"theme: .*", "theme: tight", maker.read_text(encoding="utf-8")), encoding="utf-8"
    )

    assert main(["papers", *words, "--content", str(content), "--output", str(example.output)]) == 1

    (told,) = (line for line in capsys.readouterr().out.splitlines() if "error:" in line)
    assert "error: the head of SS-30 needs 41.8 mm, but has 29.9 mm" in told
