"""A ledger that was edited, torn or merged in haste: file, line and remedy, and not a byte of it is lost."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.commands import build, issue
from generator.making.load_shop import load_shop
from generator.making.options import CommandOptions
from generator.reading.gathering import Gathering
from generator.reading.issued_sheets import read_ledgers

LEDGER = "sheets/WG-20.yaml"
RESTORE = "restore the file from a backup or version control"
CORRECT = f"{RESTORE}; then issue a correction as the next revision"


@pytest.fixture(name="asked")
def _asked(
    shop_folder: Path, ask: Callable[[Path], CommandOptions], capsys: pytest.CaptureFixture[str]
) -> CommandOptions:
    """The small shop, its sheet issued twice; between the two it was filled a little less."""
    asked, candle = ask(shop_folder), shop_folder / "candles" / "wet-garden.yaml"
    assert issue.run(asked, ["WG-20"], "first issue") == 0
    candle.write_text(candle.read_text(encoding="utf-8").replace("to: 60 mm", "to: 58 mm"), encoding="utf-8")
    assert issue.run(asked, ["WG-20"], "filled less") == 0
    capsys.readouterr()
    return asked


def edited(asked: CommandOptions, old: str, new: str, *, last: bool = False) -> int:
    """Edit the ledger once, and say on which line."""
    ledger = asked.content / LEDGER
    text = ledger.read_text(encoding="utf-8")
    at = text.rindex(old) if last else text.index(old)
    ledger.write_text(text[:at] + new + text[at + len(old) :], encoding="utf-8")
    return text.count("\n", 0, at) + 1


def told(asked: CommandOptions) -> list[str]:
    """Every fault of the shop; telling it changes no byte of the ledger."""
    ledger = asked.content / LEDGER
    before = ledger.read_bytes()
    problems = load_shop(asked).problems
    assert ledger.read_bytes() == before
    return [str(problem).replace(asked.content.as_posix(), "content") for problem in problems]


def line_of(asked: CommandOptions, text: str, *, last: bool = False) -> int:
    lines = (asked.content / LEDGER).read_text(encoding="utf-8").splitlines()
    found = [number for number, line in enumerate(lines, start=1) if text in line]
    return found[-1 if last else 0]


def test_a_ledger_as_it_was_issued_has_no_fault(asked: CommandOptions) -> None:
    assert told(asked) == []


def test_an_edited_value_is_named(asked: CommandOptions) -> None:
    edited(asked, "scent: Wet Garden", "scent: Dry Garden")

    (fault,) = told(asked)

    place, below = fault.split(": its fingerprint is ")
    assert place == (
        f"content/{LEDGER}:{line_of(asked, 'advice:')}:5: error: revision 1 of WG-20 no longer says what was issued"
    )
    assert re.fullmatch(
        "[0-9a-f]{12}, but [0-9a-f]{12} was issued\\n    why: anyone who bought a candle with that sheet "
        f"would see a different one\\n    fix: {CORRECT}",
        below,
    )


def test_an_edit_is_named_though_a_build_before_it_found_the_ledger_sound(asked: CommandOptions) -> None:
    assert build.run(asked) == 0

    edited(asked, "scent: Wet Garden", "scent: Dry Garden")

    (fault,) = told(asked)
    assert "revision 1 of WG-20 no longer says what was issued" in fault


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("reason: first issue", "reason: another"),
        ("rapeseed:\n            amount: 1000 g", "rapeseed:\n            amount: 1001 g"),
    ],
    ids=["the reason", "the record"],
)
def test_an_edit_outside_the_value_is_named_too(asked: CommandOptions, old: str, new: str) -> None:
    edited(asked, old, new)

    assert told(asked) == [
        f"content/{LEDGER}:{line_of(asked, 'seal:')}:9: error: the date, the reason or the record of "
        "revision 1 of WG-20 has been changed, or an earlier revision has\n"
        "    why: they are evidence of what was known when it was issued\n"
        f"    fix: {CORRECT}"
    ]


def test_a_missing_revision_is_named(asked: CommandOptions) -> None:
    line = edited(asked, "revision: 2", "revision: 3")

    assert told(asked)[0] == (
        f"content/{LEDGER}:{line}:13: error: revision 2 of WG-20 is missing before revision 3\n"
        "    why: anyone with a candle of that time could not be given its sheet\n"
        f"    fix: {RESTORE}"
    )


def test_several_missing_revisions_are_named_together(asked: CommandOptions) -> None:
    edited(asked, "revision: 2", "revision: 5")

    assert "error: revisions 2 to 4 of WG-20 are missing before revision 5\n" in told(asked)[0]


def test_two_revisions_with_one_number_are_named(asked: CommandOptions) -> None:
    line = edited(asked, "revision: 2", "revision: 1")

    assert told(asked)[0] == (
        f"content/{LEDGER}:{line}:13: error: revision 1 of WG-20 is here twice\n"
        "    why: two sheets would share one address, and only one could be shown there\n"
        "    fix: keep one of the two as it was issued, then issue the other one's changes again"
    )


def test_revisions_out_of_turn_are_named(asked: CommandOptions) -> None:
    ledger = asked.content / LEDGER
    head, first, second = re.split(r"^(?=- revision)", ledger.read_text(encoding="utf-8"), flags=re.MULTILINE)
    ledger.write_text(head + second + first, encoding="utf-8")

    assert [fault.split("error: ")[1].partition("\n")[0] for fault in told(asked)] == [
        "revision 1 of WG-20 is missing before revision 2",
        "revision 1 of WG-20 comes after revision 2",
    ]


def test_a_clock_that_goes_backwards_is_named(asked: CommandOptions) -> None:
    edited(asked, "on: 2026-11-01", "on: 2026-10-01", last=True)

    assert told(asked)[0] == (
        f"content/{LEDGER}:{line_of(asked, 'on: 2026-10-01')}:7: error: revision 2 of WG-20 was issued on "
        "2026-10-01, before revision 1 of 2026-11-01\n"
        "    why: there is no telling which sheet a lot was poured under\n"
        f"    fix: {RESTORE}"
    )


def test_marks_of_a_merge_are_named(asked: CommandOptions) -> None:
    line = edited(asked, "- revision: 2", "<<<<<<< HEAD\n- revision: 2")

    assert told(asked) == [
        f"content/{LEDGER}:{line}:1: error: '<<<<<<<' was left here when two versions were merged\n"
        "    why: there is no telling which revisions were issued\n"
        "    fix: keep one version as it was issued, then issue the other one's changes again"
    ]


def test_a_torn_file_is_named(asked: CommandOptions) -> None:
    ledger = asked.content / LEDGER
    ledger.write_text("rev:\n- 1\n", encoding="utf-8")

    assert told(asked) == [
        f"content/{LEDGER}:1:1: error: the file is not a list of issued revisions\n"
        "    why: the sheets sold with older candles would be lost\n"
        f"    fix: {RESTORE}"
    ]


@pytest.mark.parametrize(
    ("torn", "what"),
    [
        (lambda whole: whole[: whole.rindex(b"  record:")], "'record' is missing from this revision"),
        (lambda whole: whole[:0], "the file is empty"),
        (
            lambda whole: whole.replace(b"first issue", b"first \xff"),
            "the file is not UTF-8 text from here on",
        ),
        (lambda whole: whole.replace(b"  seal: ", b"  sael: "), "'sael' is not a key of a revision"),
        (
            lambda whole: whole.replace(b"    scent: Wet Garden\n", b"", 1),
            "'scent' is missing from this sheet",
        ),
    ],
    ids=[
        "its end is gone",
        "all of it is gone",
        "other letters",
        "a misspelt key",
        "a sheet without its scent",
    ],
)
def test_whatever_is_wrong_with_a_ledger_is_mended_from_a_copy(
    asked: CommandOptions, torn: Callable[[bytes], bytes], what: str
) -> None:
    ledger = asked.content / LEDGER
    ledger.write_bytes(torn(ledger.read_bytes()))

    faults = told(asked)

    assert what in faults[0]
    assert {fault.partition("fix: ")[2] for fault in faults} == {RESTORE}


def test_a_ledger_that_cannot_be_opened_is_told_once_and_never_to_be_removed(tmp_path: Path) -> None:
    (tmp_path / LEDGER).mkdir(parents=True)
    gathering = Gathering(tmp_path, "content", None)

    assert read_ledgers(gathering) == {}

    assert [problem.fix for problem in gathering.problems] == [RESTORE]


def test_a_candle_that_is_gone_while_its_sheet_is_there_is_an_error(asked: CommandOptions) -> None:
    candle = asked.content / "candles" / "wet-garden.yaml"
    candle.write_text(candle.read_text(encoding="utf-8").replace("WG-20\n", "WG-21\n"), encoding="utf-8")

    assert told(asked) == [
        f"content/{LEDGER}:3:1: error: a sheet was issued for WG-20, but no candle has that stock code\n"
        "    why: anyone who bought one still needs its page, and the page needs the entry\n"
        "    fix: restore stock_code: WG-20 in its candle, with status: discontinued"
    ]


def test_a_ledger_under_another_name_is_an_error(asked: CommandOptions) -> None:
    candle = asked.content / "candles" / "wet-garden.yaml"
    candle.write_text(candle.read_text(encoding="utf-8").replace("WG-20\n", "WG-21\n"), encoding="utf-8")
    (asked.content / LEDGER).rename(asked.content / "sheets" / "WG-21.yaml")

    problems = load_shop(asked).problems

    assert [problem.what for problem in problems] == [
        "this sheet was issued for WG-20, but its file is named WG-21.yaml"
    ]


def test_nothing_is_issued_while_a_ledger_is_at_fault(asked: CommandOptions) -> None:
    edited(asked, "scent: Wet Garden", "scent: Dry Garden")
    before = (asked.content / LEDGER).read_bytes()

    assert issue.run(asked, ["WG-20"], "again") == 1
    assert (asked.content / LEDGER).read_bytes() == before
