"""Issuing sheets: on purpose, for a reason, and never by mistake."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from generator.commands import issue
from generator.commands.build import build
from generator.making.options import CommandOptions
from tests.loaded import make_paper

CODE = "WG-20"
LOTS = """\
lot,stock_code,poured_on,made,sheet_revision,sent_to
L-2026-305,WG-20,2026-11-01,48,1,Harbour Stores
"""
RECALL = """\
lots: [L-2026-305]
hazard: The glass can crack.
what_to_do: [Put it outside.]
remedy: Your money back.
contact: hello@ferry-lane.example
on: 2026-11-10
"""


@pytest.fixture(name="asked")
def _asked(shop_folder: Path, ask: Callable[[Path], CommandOptions]) -> CommandOptions:
    return ask(shop_folder)


def ledger(asked: CommandOptions) -> Path:
    return asked.content / "sheets" / "WG-20.yaml"


def written(asked: CommandOptions, file: str, old: str, new: str) -> None:
    path = asked.content / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_what_was_issued_is_said(asked: CommandOptions, capsys: pytest.CaptureFixture[str]) -> None:
    assert issue.run(asked, [CODE], "first  issue ") == 0

    said, then = capsys.readouterr().out.splitlines()
    assert said.startswith("issued revision 1 of WG-20 on 2026-11-01 (")
    assert then == "Next: wickwright build"
    assert "reason: first issue\n" in ledger(asked).read_text(encoding="utf-8")


def test_the_day_is_that_of_the_shop_or_the_one_asked_for(asked: CommandOptions) -> None:
    issue.run(replace(asked, as_of=date(2026, 12, 24)), [CODE], "first issue")

    assert "on: 2026-12-24\n" in ledger(asked).read_text(encoding="utf-8")


def test_without_a_code_all_that_is_due_is_issued_and_then_nothing(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    assert issue.run(asked, [], "first issue") == 0
    capsys.readouterr()

    assert issue.run(asked, [], "again") == 0
    assert capsys.readouterr().out == "Nothing to issue: every sheet is up to date.\n"


@pytest.mark.parametrize(
    ("character", "name"),
    [("\x07", "U+0007"), ("\x7f", "U+007F"), ("\ufeff", "U+FEFF"), ("\udcff", "U+DCFF")],
    ids=["a bell", "a delete", "a byte order mark", "half a letter"],
)
def test_a_reason_that_could_not_be_read_back_is_refused(
    asked: CommandOptions, character: str, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert issue.run(asked, [CODE], f"first{character} issue") == 2

    assert capsys.readouterr().err == (
        f"wickwright: the reason contains a character that cannot be printed ({name}). "
        "Nothing was issued. Leave it out.\n"
    )
    assert not ledger(asked).exists()


@pytest.mark.parametrize("reason", ["", "  "], ids=["no reason", "an empty one"])
def test_a_reason_is_asked_for(
    asked: CommandOptions, reason: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert issue.run(asked, [CODE], reason) == 2
    assert capsys.readouterr().err == (
        "wickwright: a revision needs a reason. Nothing was issued. Write --reason and one line that will still "
        "make sense in ten years.\n"
    )


def test_an_unknown_code_is_wrong_use(asked: CommandOptions, capsys: pytest.CaptureFixture[str]) -> None:
    assert issue.run(asked, ["WG-2"], "first issue") == 2
    assert capsys.readouterr().err == (
        "wickwright: there is no stock code 'WG-2'. Nothing was issued. Write one of: WG-20.\n"
    )


def test_a_shop_at_fault_issues_nothing(asked: CommandOptions, capsys: pytest.CaptureFixture[str]) -> None:
    written(asked, "candles/wet-garden.yaml", "8 % of wax", "8 %")

    assert issue.run(asked, [CODE], "first issue") == 1
    assert "1 error. Nothing was issued.\nNext: " in capsys.readouterr().out
    assert not ledger(asked).exists()


def test_a_burn_test_that_blocks_the_hours_blocks_the_sheet(asked: CommandOptions) -> None:
    table = asked.content / "burn-tests" / "WG-20.csv"
    header, first, *rest = table.read_text(encoding="utf-8").splitlines()
    cells = dict(zip(header.split(","), first.split(","), strict=True)) | {
        "outcome": "fault",
        "note": "cracked",
    }
    table.write_text("\n".join((header, ",".join(cells.values()), *rest)) + "\n", encoding="utf-8")

    assert issue.run(asked, [CODE], "first issue") == 1


def test_unknown_hazards_are_never_issued_where_labels_are_a_duty(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    entry = asked.content / "fragrances" / "wet-garden.yaml"
    kept = entry.read_text(encoding="utf-8").split("composition:")[0]
    entry.write_text(kept, encoding="utf-8")

    assert issue.run(asked, [CODE], "first issue") == 1
    assert (
        capsys.readouterr()
        .err.splitlines()[-1]
        .startswith("wickwright: the hazards of WG-20 are unknown, and it is sold in GB. ")
    )
    assert not ledger(asked).exists()


def test_issue_gives_the_reason_why_hazards_are_unknown(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    entry = asked.content / "fragrances" / "wet-garden.yaml"
    old = entry.read_text(encoding="utf-8").replace("sheet_dated: 2026", "sheet_dated: 2015")
    entry.write_text(old, encoding="utf-8")

    assert issue.run(asked, [CODE], "first issue") == 1
    assert capsys.readouterr().err.splitlines()[-1] == (
        "wickwright: the hazards of WG-20 are unknown, and it is sold in GB. Nothing was issued. wet-garden: its "
        "safety data sheet is dated 2015-02-10; sheets from before 2021-11-01 are too old to classify by."
    )


def test_what_says_the_same_is_not_issued_again(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    issue.run(asked, [CODE], "first issue")
    before = ledger(asked).read_bytes()
    capsys.readouterr()

    assert issue.run(asked, [CODE], "again") == 2
    assert capsys.readouterr().err.startswith("wickwright: WG-20 has not changed since revision 1 (")
    assert ledger(asked).read_bytes() == before


def test_a_day_before_the_last_revision_is_refused(
    asked: CommandOptions, capsys: pytest.CaptureFixture[str]
) -> None:
    issue.run(asked, [CODE], "first issue")
    written(asked, "candles/wet-garden.yaml", "to: 60 mm", "to: 58 mm")
    capsys.readouterr()

    assert issue.run(replace(asked, as_of=date(2026, 10, 1)), [CODE], "filled less") == 2
    assert capsys.readouterr().err == (
        "wickwright: revision 1 of WG-20 was issued on 2026-11-01, after 2026-10-01. Nothing was issued. "
        "Write --date 2026-11-01 or a later day, and check the clock of this computer.\n"
    )


def test_a_candle_without_an_issued_sheet_is_listed_without_hours(asked: CommandOptions) -> None:
    build(asked)

    pages = [
        (asked.output / "site" / page).read_text(encoding="utf-8")
        for page in ("candles/wet-garden.html", "index.html")
    ]
    assert ["Burn time" in page or "(estimate)" in page for page in pages] == [False, False]
    assert "No burn-safety sheet has been issued" in (asked.output / "site/safety/WG-20.html").read_text(
        encoding="utf-8"
    )


def test_what_no_sheet_says_changes_no_sheet(asked: CommandOptions) -> None:
    issue.run(asked, [CODE], "first issue")
    written(asked, "candles/wet-garden.yaml", "price: 18.00", "price: 19.00")

    assert build(replace(asked, issued_only=True)).laid is not None


def test_the_makers_file_holds_everything_and_stays_in_the_workshop(asked: CommandOptions) -> None:
    issue.run(asked, [CODE], "first issue")

    assert make_paper(asked, "file", CODE) == 0

    text = (asked.output / "workshop" / "files" / "WG-20.html").read_text(encoding="utf-8")
    for part in (
        "1000 g",
        "8 % of wax",
        "dated 10 February 2026",
        "burn-tests/WG-20.csv",
        "Before, g",
        "<td>398.2</td>",
        "Revision 1 of 1 November 2026: first issue",
    ):
        assert part in text


def test_the_makers_file_tells_whom_a_sheet_is_for_and_that_nobody_takes_it_for_food(
    asked: CommandOptions,
) -> None:
    written(asked, "fragrances/wet-garden.yaml", "sheet_dated:", "sheet_for: EU\nsheet_dated:")
    written(asked, "candles/wet-garden.yaml", "price: 18.00", "looks_like_food: no\n    price: 18.00")

    assert make_paper(asked, "file", CODE) == 0

    text = (asked.output / "workshop" / "files" / "WG-20.html").read_text(encoding="utf-8")
    assert ", dated 10 February 2026, written for: European Union</h3>" in text
    assert "<li>According to the maker, nobody could take it for food.</li>" in text


def test_the_makers_file_tells_what_each_revision_was_made_by_and_what_became_of_its_lots(
    asked: CommandOptions,
) -> None:
    issue.run(asked, [CODE], "first issue")
    written(asked, "candles/wet-garden.yaml", "8 % of wax", "6 % of wax")
    (asked.content / "lots.csv").write_text(LOTS, encoding="utf-8")
    (asked.content / "recalls").mkdir()
    (asked.content / "recalls" / "glass.yaml").write_text(RECALL, encoding="utf-8")

    assert make_paper(asked, "file", CODE) == 0

    text = (asked.output / "workshop" / "files" / "WG-20.html").read_text(encoding="utf-8")
    assert re.search(r"Recipe on record then: [^<]* 1000 g; [^<]* 8 % of wax", text)
    assert "under revision 1; sent to Harbour Stores" in text
    assert "10 November 2026: The glass can crack. (L-2026-305)" in text


def test_the_makers_file_tells_of_risks_wherever_they_are_recorded(asked: CommandOptions) -> None:
    fragrance = asked.content / "fragrances" / "wet-garden.yaml"
    kept = fragrance.read_text(encoding="utf-8").split("composition:")[0]
    fragrance.write_text(f"{kept}notes: Section 3 asked for.\n", encoding="utf-8")
    notes = asked.content / "burn-tests" / "WG-20.yaml"
    notes.write_text(f"{notes.read_text(encoding='utf-8')}notes: One flame was high.\n", encoding="utf-8")

    assert make_paper(asked, "file", CODE) == 0

    text = (asked.output / "workshop" / "files" / "WG-20.html").read_text(encoding="utf-8")
    assert "<li>Section 3 asked for.</li>" in text
    assert "<li>One flame was high.</li>" in text
    assert "has no composition: the hazards of its candles stay unknown" in text
