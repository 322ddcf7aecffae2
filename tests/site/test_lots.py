"""Lots from outside: written down once and for ever, and found again on the day something is called back."""

import json
import re
import shutil
from pathlib import Path

import pytest

from generator.cli import main
from generator.model.lots import UNAMBIGUOUS

BOOK = "lot,stock_code,poured_on,made,sheet_revision,sent_to,kettle\nL-2026-201,WG-20,2026-07-20,48,,Harbour Stores,2\n"


def lots(shop_folder: Path, *words: str) -> int:
    output = shop_folder.parent / "output"
    return main(["lots", *words, "--content", str(shop_folder), "--output", str(output)])


@pytest.fixture(name="book")
def _book(shop_folder: Path) -> Path:
    """A book with one lot and a column of the maker's own."""
    book = shop_folder / "lots.csv"
    book.write_text(BOOK, encoding="utf-8")
    return book


@pytest.fixture(name="issued_twice")
def _issued_twice(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The small shop with its sheet issued in March and, with another name for the jar, in August."""
    issue(shop_folder, "2026-03-01")
    rename(shop_folder, "20 cl", "Brown 20 cl")
    issue(shop_folder, "2026-08-01")
    capsys.readouterr()


def issue(shop_folder: Path, day: str) -> None:
    folders = ("--content", str(shop_folder), "--output", str(shop_folder.parent / "output"))
    assert main(["issue", "WG-20", "--reason", "for a test", "--date", day, *folders]) == 0


def rename(shop_folder: Path, before: str, after: str) -> None:
    vessel = shop_folder / "vessels" / "amber-20.yaml"
    vessel.write_text(vessel.read_text(encoding="utf-8").replace(before, after), encoding="utf-8")


def replace_everywhere(shop_folder: Path, before: str, after: str) -> None:
    """Give a wick another id, in its file's name and wherever it is named."""
    (shop_folder / "wicks" / f"{before}.yaml").rename(shop_folder / "wicks" / f"{after}.yaml")
    for entry in (*shop_folder.glob("candles/*.yaml"), *shop_folder.glob("burn-tests/*.yaml")):
        entry.write_text(entry.read_text(encoding="utf-8").replace(before, after), encoding="utf-8")


def kept(shop_folder: Path) -> tuple[str, ...]:
    """The names of the formulas that are kept."""
    return tuple(sorted(path.stem for path in (shop_folder / "poured").glob("*.yaml")))


def change(shop_folder: Path, before: str, after: str) -> None:
    """Write something else into the candle's entry."""
    entry = shop_folder / "candles" / "wet-garden.yaml"
    text = entry.read_text(encoding="utf-8")
    assert before in text
    entry.write_text(text.replace(before, after), encoding="utf-8")


def without_formulas(shop_folder: Path) -> None:
    """The book as older programs left it: no lot names the formula it was poured by."""
    book = shop_folder / "lots.csv"
    text = re.sub(r"WG-20-[0-9a-f]{12}\b", "", book.read_text(encoding="utf-8"))
    book.write_text(text, encoding="utf-8")
    shutil.rmtree(shop_folder / "poured")


def test_a_new_lot_is_a_row_below_the_others(shop_folder: Path, book: Path) -> None:
    code = lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-300", "--poured", "2026-10-27")

    (name,) = kept(shop_folder)
    header, row = BOOK.splitlines()
    assert (code, book.read_text(encoding="utf-8").splitlines()) == (
        0,
        [f"{header},formula_fingerprint", row, f"L-2026-300,WG-20,2026-10-27,12,,,,{name}"],
    )


def test_a_code_of_the_program_has_the_day_of_the_shop_and_four_letters_that_nobody_can_guess(
    shop_folder: Path, book: Path
) -> None:
    for _ in range(5):
        lots(shop_folder, "add", "WG-20", "--made", "12")

    codes = [row.partition(",")[0] for row in book.read_text(encoding="utf-8").splitlines()[2:]]
    assert all(re.fullmatch(rf"WG-20-2026305-[{UNAMBIGUOUS}]{{4}}", code) for code in codes)
    assert len(set(codes)) == 5


def test_the_first_lot_makes_the_book(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-300")

    assert capsys.readouterr().out == (
        "added lot L-2026-300: 12 of WG-20, poured on 2026-11-01, but no sheet has been issued: "
        "`wickwright issue WG-20` before you sell it\n"
        f"    Its recipe is recorded in poured/{kept(shop_folder)[0]}.yaml\n"
        'Next: wickwright issue WG-20 --reason "..."\n'
    )
    assert (shop_folder / "lots.csv").read_text(encoding="utf-8").startswith("lot,stock_code,poured_on,made,")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("WG-21",), "there is no stock code 'WG-21'. No lot was added. Write one of: WG-20."),
        (
            ("WG-20", "--lot", "l2026201"),
            "lots.csv already has lot L-2026-201. No lot was added. Choose another code.",
        ),
        (
            ("WG-20", "--lot", "<b>"),
            "'<b>' is not a lot code. No lot was added. Use letters, digits and dashes.",
        ),
    ],
    ids=["an unknown stock code", "a lot that is there", "no code"],
)
def test_what_cannot_be_a_lot_is_refused_and_the_book_stays(
    words: tuple[str, ...], told: str, shop_folder: Path, book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = lots(shop_folder, "add", *words, "--made", "12")

    assert (code, capsys.readouterr().err) == (2, f"wickwright: {told}\n")
    assert book.read_text(encoding="utf-8") == BOOK


def test_a_book_at_fault_gets_no_row(shop_folder: Path, book: Path) -> None:
    book.write_text(BOOK.replace(",48,", ",many,"), encoding="utf-8")

    assert lots(shop_folder, "add", "WG-20", "--made", "12") == 1
    assert book.read_text(encoding="utf-8") == BOOK.replace(",48,", ",many,")


def test_a_fault_elsewhere_does_not_keep_a_pour_from_being_written_down(
    shop_folder: Path, book: Path
) -> None:
    (shop_folder / "waxes" / "another.yaml").write_text("name: Another\n", encoding="utf-8")

    assert lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-300") == 0
    assert "L-2026-300" in book.read_text(encoding="utf-8")


@pytest.mark.parametrize("made", ["0", "many", "10000", "-3"])
def test_how_many_is_a_number(made: str, shop_folder: Path) -> None:
    assert lots(shop_folder, "add", "WG-20", f"--made={made}") == 2


@pytest.mark.parametrize("used", ["rapeseed", "wet-garden", "amber-20", "cotton-18"])
@pytest.mark.usefixtures("book")
def test_every_material_vessel_and_wick_leads_to_its_lots(
    used: str, shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert lots(shop_folder, "using", used) == 0
    assert capsys.readouterr().out == (
        f"'{used}' is in 1 lot, 48 candles:\n"
        "    L-2026-201: 48 of WG-20, poured on 2026-07-20\n"
        "        current recipe, because its row names no sheet revision\n"
        "        sent to Harbour Stores\n"
    )


@pytest.mark.usefixtures("issued_twice")
def test_a_lot_gets_the_revision_that_was_in_force_on_its_day(shop_folder: Path) -> None:
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-201", "--poured", "2026-07-20")
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-300", "--poured", "2026-10-27")

    rows = (shop_folder / "lots.csv").read_text(encoding="utf-8").splitlines()[1:]
    assert [row.split(",")[4] for row in rows] == ["1", "2"]


@pytest.mark.usefixtures("issued_twice")
def test_a_book_without_a_column_for_the_revision_gets_one(shop_folder: Path) -> None:
    book = shop_folder / "lots.csv"
    book.write_text("lot,stock_code,poured_on,made\nL-2026-201,WG-20,2026-07-20,48\n", encoding="utf-8")

    assert lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-300") == 0

    assert book.read_text(encoding="utf-8") == (
        "lot,stock_code,poured_on,made,sheet_revision,formula_fingerprint\n"
        "L-2026-201,WG-20,2026-07-20,48\n"
        f"L-2026-300,WG-20,2026-11-01,12,2,{kept(shop_folder)[0]}\n"
    )


@pytest.mark.usefixtures("issued_twice")
def test_a_lot_older_than_its_first_sheet_is_not_told_to_issue_what_is_issued(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-020", "--poured", "2026-01-20")

    assert capsys.readouterr().out == (
        "added lot L-2026-020: 12 of WG-20, poured on 2026-01-20, before its first sheet was issued on 2026-03-01. "
        "If its labels carry revision 1, write that as its sheet_revision in lots.csv\n"
        f"    Its recipe is recorded in poured/{kept(shop_folder)[0]}.yaml, and later in revision 1\n"
    )


@pytest.mark.usefixtures("issued_twice")
def test_the_lots_of_a_sheet_that_cannot_be_read_are_not_at_fault_too(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-201", "--poured", "2026-07-20")
    sheet = shop_folder / "sheets" / "WG-20.yaml"
    sheet.write_text(f"<<<<<<< ours\n{sheet.read_text(encoding='utf-8')}", encoding="utf-8")
    capsys.readouterr()

    main(["check", "--content", str(shop_folder), "--output", str(shop_folder.parent / "output")])

    assert "lots.csv" not in capsys.readouterr().out


@pytest.mark.usefixtures("issued_twice")
def test_pouring_a_candle_that_changed_since_its_sheet_is_told(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rename(shop_folder, "Brown", "Green")

    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-300")

    assert capsys.readouterr().out.endswith(
        "with revision 2 of its sheet. The candle has changed since: `wickwright issue WG-20` before you sell it\n"
        f"    Its recipe is recorded in poured/{kept(shop_folder)[0]}.yaml. "
        "It differs from that of revision 2\n"
        'Next: wickwright issue WG-20 --reason "..."\n'
    )


@pytest.mark.usefixtures("issued_twice")
def test_a_lot_is_known_by_the_formula_that_was_recorded_with_its_sheet(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-201", "--poured", "2026-07-20")
    without_formulas(shop_folder)
    replace_everywhere(shop_folder, "cotton-18", "cotton-19")
    capsys.readouterr()

    lots(shop_folder, "using", "cotton-18")
    lots(shop_folder, "using", "cotton-19")

    assert capsys.readouterr().out == (
        "'cotton-18' is in 1 lot, 12 candles:\n"
        "    L-2026-201: 12 of WG-20, poured on 2026-07-20\n"
        "        recipe of revision 1 of its sheet\n"
        "'cotton-19' is in no lot in lots.csv\n"
    )


@pytest.mark.usefixtures("issued_twice")
def test_a_lot_may_hold_what_the_candle_got_while_its_sheet_was_in_force(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    replace_everywhere(shop_folder, "cotton-18", "cotton-19")
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-300", "--poured", "2026-10-27")
    without_formulas(shop_folder)
    capsys.readouterr()

    lots(shop_folder, "using", "cotton-19")

    assert capsys.readouterr().out == (
        "'cotton-19' may be in 1 lot, 12 candles:\n"
        "    L-2026-300: 12 of WG-20, poured on 2026-10-27\n"
        "        revision 2 of its sheet does not contain it, but another recipe does\n"
    )


def test_a_lot_poured_before_the_next_revision_may_hold_what_that_recorded(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    issue(shop_folder, "2026-03-01")
    replace_everywhere(shop_folder, "cotton-18", "cotton-19")
    rename(shop_folder, "20 cl", "Brown 20 cl")
    lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", "L-2026-201", "--poured", "2026-07-20")
    without_formulas(shop_folder)
    issue(shop_folder, "2026-08-01")
    capsys.readouterr()

    lots(shop_folder, "using", "cotton-19", "--json")

    (told,) = json.loads(capsys.readouterr().out)
    assert (told["lot"], told["formula"], told["certain"]) == ("L-2026-201", "as issued", False)


@pytest.mark.usefixtures("issued_twice")
def test_a_lot_without_a_revision_may_hold_what_any_revision_recorded(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop_folder / "lots.csv").write_text(BOOK, encoding="utf-8")
    replace_everywhere(shop_folder, "cotton-18", "cotton-19")

    lots(shop_folder, "using", "cotton-18")

    assert capsys.readouterr().out.startswith("'cotton-18' may be in 1 lot, 48 candles:\n")


@pytest.mark.usefixtures("book")
def test_lots_are_told_to_other_programs_too(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lots(shop_folder, "using", "rapeseed", "--json")

    assert json.loads(capsys.readouterr().out) == [
        {
            "lot": "L-2026-201",
            "stock_code": "WG-20",
            "poured_on": "2026-07-20",
            "made": 48,
            "sheet_revision": None,
            "formula": "present",
            "formula_fingerprint": None,
            "drawn_from": [],
            "certain": True,
            "sent_to": ["Harbour Stores"],
        }
    ]


@pytest.mark.usefixtures("book")
def test_something_that_nobody_has_is_wrong_use(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert lots(shop_folder, "using", "rapesed") == 2
    assert (
        "there is no material, vessel or wick 'rapesed'. No lots were searched. Write one of: rapeseed.\n"
        in capsys.readouterr().err
    )


def test_a_book_that_cannot_be_read_never_says_that_no_lot_is_meant(shop_folder: Path, book: Path) -> None:
    book.write_text(BOOK.replace(",48,", ",many,"), encoding="utf-8")

    assert lots(shop_folder, "using", "rapeseed") == 1


@pytest.mark.usefixtures("book")
def test_a_lot_whose_formula_is_gone_is_told_as_one_that_may_be_meant(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop_folder / "candles" / "wet-garden.yaml").unlink()

    lots(shop_folder, "using", "rapeseed")

    assert capsys.readouterr().out.startswith("'rapeseed' may be in 1 lot, 48 candles:\n")
