"""What is poured is recorded as it was poured, whether the sheet says another thing of it or the same."""

import json
import re
from pathlib import Path

import pytest

from generator.cli import main
from generator.commands import lots_add
from generator.ledgers.books import poured_file
from generator.ledgers.record import poured_of
from generator.reading.read_shop import read_shop
from generator.writing.whole_files import record
from tests.conftest import TODAY
from tests.site.test_lots import change, issue, kept, lots, replace_everywhere


def add(shop_folder: Path, code: str, *words: str) -> int:
    return lots(shop_folder, "add", "WG-20", "--made", "12", "--lot", code, *words)


def told(shop_folder: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    capsys.readouterr()
    assert lots(shop_folder, *words) == 0
    return capsys.readouterr().out


def checked(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> list[dict[str, str]]:
    """The errors of `check`."""
    capsys.readouterr()
    main(["check", "--content", str(shop_folder), "--output", str(shop_folder.parent / "output"), "--json"])
    problems: list[dict[str, str]] = json.loads(capsys.readouterr().out)
    return [problem for problem in problems if problem["severity"] == "error"]


def officers_file(shop_folder: Path) -> str:
    output = shop_folder.parent / "output"
    assert main(["papers", "file", "WG-20", "--content", str(shop_folder), "--output", str(output)]) == 0
    return (output / "workshop" / "files" / "WG-20.html").read_text(encoding="utf-8")


@pytest.fixture(name="eighty_one")
def _eighty_one(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """One lot poured with 80 g of the oil, one with 81 g; the sheet says the same of both."""
    change(shop_folder, "wet-garden: 8 % of wax", "wet-garden: 80 g")
    issue(shop_folder, "2026-03-01")
    add(shop_folder, "L-2026-300", "--poured", "2026-10-27")
    change(shop_folder, "wet-garden: 80 g", "wet-garden: 81 g")
    assert main(["issue", "WG-20", "--reason", "a gram more", *_folders(shop_folder)]) == 2
    capsys.readouterr()
    add(shop_folder, "L-2026-301")
    return shop_folder


def _folders(shop_folder: Path) -> tuple[str, ...]:
    return ("--content", str(shop_folder), "--output", str(shop_folder.parent / "output"))


def test_a_pour_under_a_changed_formula_is_recorded_although_the_sheet_says_the_same(
    eighty_one: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = (eighty_one / "lots.csv").read_text(encoding="utf-8").splitlines()[1:]
    first, second = (row.split(",")[6] for row in rows)
    assert {first, second} == set(kept(eighty_one))
    assert capsys.readouterr().out == (
        "added lot L-2026-301: 12 of WG-20, poured on 2026-11-01, with revision 1 of its sheet\n"
        f"    Its recipe is recorded in poured/{second}.yaml. "
        "It differs from that of revision 1, though the sheet reads the same\n"
        "Next: wickwright papers labels WG-20=12 --lot L-2026-301 --stock ID\n"
    )
    assert checked(eighty_one, capsys) == []


def test_the_officers_file_shows_each_lot_with_the_formula_it_was_poured_by(eighty_one: Path) -> None:
    text = officers_file(eighty_one)

    assert re.search(r"L-2026-300: [^<]*<p[^>]*>Recipe used: [^<]* 80 g", text)
    assert re.search(r"L-2026-301: [^<]*<p[^>]*>Recipe used: [^<]* 81 g", text)


def test_the_officers_file_says_where_a_lot_has_no_formula_of_its_own(eighty_one: Path) -> None:
    book = eighty_one / "lots.csv"
    first, _ = re.findall(r"WG-20-[0-9a-f]{12}", text := book.read_text(encoding="utf-8"))
    book.write_text(text.replace(first, ""), encoding="utf-8")

    assert re.search(
        r"L-2026-300: [^<]*<p[^>]*>No recipe recorded for this lot; see the recipe with revision 1",
        officers_file(eighty_one),
    )


def test_a_formula_is_kept_once_however_often_it_is_poured(shop_folder: Path) -> None:
    issue(shop_folder, "2026-03-01")
    for number, day in enumerate(("2026-09-01", "2026-10-01", "2026-11-01")):
        add(shop_folder, f"L-2026-30{number}", "--poured", day)
        # Neither a price nor what can be bought no more nor another day of the shop changes what is poured.
        change(shop_folder, f"price: {18 + number}.00", f"price: {19 + number}.00")
        with (shop_folder / "wicks" / "cotton-18.yaml").open("a", encoding="utf-8") as wick:
            wick.write("discontinued: yes\n" if number == 0 else "")

    assert len(kept(shop_folder)) == 1


def test_a_pour_by_the_formula_of_the_sheet_says_so(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    issue(shop_folder, "2026-03-01")
    out = told(shop_folder, capsys, "add", "WG-20", "--made", "12")

    assert (
        f"    Its recipe is recorded in poured/{kept(shop_folder)[0]}.yaml, the same as in revision 1\n"
        in out
    )


def test_a_pour_of_an_earlier_day_is_told_how_to_count_by_the_formula_of_its_sheet(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    issue(shop_folder, "2026-03-01")
    change(shop_folder, "8 % of wax", "81 g")
    out = told(shop_folder, capsys, "add", "WG-20", "--made", "12", "--poured", "2026-10-30")

    assert (
        "If you poured the lot before the change, clear its formula_fingerprint in lots.csv: "
        "it then counts as poured by the recipe of revision 1\n"
    ) in out


def test_a_pour_older_than_the_present_sheet_is_kept_by_the_formula_of_its_day(shop_folder: Path) -> None:
    issue(shop_folder, "2026-03-01")
    change(shop_folder, "8 % of wax", "6 % of wax")
    issue(shop_folder, "2026-08-01")

    add(shop_folder, "L-2026-201", "--poured", "2026-07-20")

    (name,) = kept(shop_folder)
    assert "8 % of wax" in (shop_folder / "poured" / f"{name}.yaml").read_text(encoding="utf-8")


def test_a_lot_is_found_by_what_really_went_in(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    issue(shop_folder, "2026-03-01")
    replace_everywhere(shop_folder, "cotton-18", "cotton-19")
    add(shop_folder, "L-2026-300")
    replace_everywhere(shop_folder, "cotton-19", "cotton-18")

    assert told(shop_folder, capsys, "using", "cotton-18") == "'cotton-18' is in no lot in lots.csv\n"
    assert told(shop_folder, capsys, "using", "cotton-19") == (
        "'cotton-19' is in 1 lot, 12 candles:\n"
        "    L-2026-300: 12 of WG-20, poured on 2026-11-01\n"
        f"        recipe as poured, {kept(shop_folder)[0]}\n"
    )


@pytest.mark.parametrize("revision", ["", "1"], ids=["without a sheet", "under its sheet"])
def test_an_older_row_may_hold_what_another_lot_of_the_candle_was_poured_by(
    revision: str, shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    issue(shop_folder, "2026-03-01")
    (shop_folder / "lots.csv").write_text(
        f"lot,stock_code,poured_on,made,sheet_revision\nL-2026-299,WG-20,2026-10-26,12,{revision}\n",
        encoding="utf-8",
    )
    replace_everywhere(shop_folder, "cotton-18", "cotton-19")
    add(shop_folder, "L-2026-300")
    replace_everywhere(shop_folder, "cotton-19", "cotton-18")

    assert "may also be in 1 lot, 12 candles:\n    L-2026-299:" in told(
        shop_folder, capsys, "using", "cotton-19"
    )


@pytest.mark.parametrize("harm", ["lost", "edited", "unreadable"])
def test_a_formula_that_is_lost_or_edited_is_told_and_its_lots_may_hold_anything(
    harm: str, shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    add(shop_folder, "L-2026-300")
    (name,) = kept(shop_folder)
    file = shop_folder / "poured" / f"{name}.yaml"
    text = file.read_text(encoding="utf-8")
    match harm:
        case "lost":
            file.unlink()
        case "edited":
            file.write_text(text.replace("1000 g", "999 g"), encoding="utf-8")
        case _:
            file.write_text(f"<<<<<<< ours\n{text}", encoding="utf-8")

    (error,) = checked(shop_folder, capsys)
    assert Path(error["file"]).name == ("lots.csv" if harm == "lost" else file.name)
    assert "'rapeseed' may be in 1 lot, 12 candles" in told(shop_folder, capsys, "using", "rapeseed")


def test_a_lot_that_names_the_formula_of_another_stock_code_may_hold_anything(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    add(shop_folder, "L-2026-300")
    (name,) = kept(shop_folder)
    shop = read_shop(shop_folder, "content", TODAY).shop
    assert shop is not None
    other = poured_of({**shop.poured[name].record, "stock_code": "WG-30"})
    (shop_folder / "poured" / f"{other.name}.yaml").write_bytes(poured_file(other))
    book = shop_folder / "lots.csv"
    book.write_text(book.read_text(encoding="utf-8").replace(name, other.name), encoding="utf-8")

    assert "'rapeseed' may be in 1 lot" in told(shop_folder, capsys, "using", "rapeseed")


def test_the_file_of_a_formula_that_is_poured_again_stays_as_it_is(shop_folder: Path) -> None:
    add(shop_folder, "L-2026-300")
    (name,) = kept(shop_folder)
    file = shop_folder / "poured" / f"{name}.yaml"
    noted = f"# The first one of the autumn.\n{file.read_text(encoding='utf-8')}"
    file.write_text(noted, encoding="utf-8")

    assert add(shop_folder, "L-2026-301") == 0

    assert file.read_text(encoding="utf-8") == noted


def test_no_lot_is_written_down_by_a_formula_whose_file_was_edited(shop_folder: Path) -> None:
    add(shop_folder, "L-2026-300")
    (name,) = kept(shop_folder)
    file = shop_folder / "poured" / f"{name}.yaml"
    edited = file.read_text(encoding="utf-8").replace("1000 g", "999 g")
    file.write_text(edited, encoding="utf-8")
    book = (shop_folder / "lots.csv").read_bytes()

    assert add(shop_folder, "L-2026-301") == 1

    assert (file.read_text(encoding="utf-8"), (shop_folder / "lots.csv").read_bytes()) == (edited, book)


def test_no_lot_is_written_down_while_its_formula_cannot_be_told(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    issue(shop_folder, "2026-03-01")
    change(shop_folder, "8 % of wax", "8 %")
    capsys.readouterr()

    assert add(shop_folder, "L-2026-300") == 1

    assert "wet-garden.yaml" in capsys.readouterr().out
    assert not (shop_folder / "lots.csv").exists()


def test_a_run_that_is_cut_short_leaves_no_row_without_its_formula(
    shop_folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(path: Path, data: bytes) -> None:
        if path.name == "lots.csv":
            raise OSError(28, "No space left on device")
        record(path, data)

    monkeypatch.setattr(lots_add, "record", full)

    assert add(shop_folder, "L-2026-300") == 3

    assert len(kept(shop_folder)) == 1
    assert checked(shop_folder, capsys) == []


def test_a_pour_of_a_day_that_has_not_come_is_refused(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert add(shop_folder, "L-2026-300", "--poured", "2027-11-20") == 2
    assert capsys.readouterr().err == (
        "wickwright: 2027-11-20 is after 2026-11-01, the shop's as_of. No lot was added. "
        "Write the day it was poured, or add --date with today's date.\n"
    )
    assert not (shop_folder / "lots.csv").exists()
    assert not (shop_folder / "poured").exists()
    assert add(shop_folder, "L-2026-300", "--poured", "2027-11-20", "--date", "2027-11-21") == 0


@pytest.fixture(name="drawn")
def _drawn(shop_folder: Path) -> Path:
    """Four lots: of two deliveries of the oil, of the second, of one nobody wrote down, and of the first again."""
    words = {
        "L-2026-301": ("--from", "wet-garden=B4711", "--from", "wet-garden=B4712", "--from", "amber-20=G 1"),
        "L-2026-302": ("--from", "wet-garden=B4712"),
        "L-2026-303": (),
        "L-2026-304": ("--from", "wet-garden= b-4711 "),
    }
    for code, given in words.items():
        assert add(shop_folder, code, *given) == 0
    return shop_folder


def test_suppliers_lots_are_in_one_column_that_anybody_can_read(drawn: Path) -> None:
    header, *rows = (drawn / "lots.csv").read_text(encoding="utf-8").splitlines()

    assert header.endswith(",drawn_from")
    assert [row.rpartition(",")[2] for row in rows] == [
        "wet-garden:B4711; wet-garden:B4712; amber-20:G 1",
        "wet-garden:B4712",
        "",
        "wet-garden:b-4711",
    ]


def test_a_recall_of_one_suppliers_lot_names_its_lots_and_apart_those_that_do_not_say(
    drawn: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (name,) = kept(drawn)

    assert told(drawn, capsys, "using", "wet-garden", "--from", "B 4711") == (
        "lot B 4711 of 'wet-garden' is in 2 lots, 24 candles:\n"
        "    L-2026-301: 12 of WG-20, poured on 2026-11-01\n"
        f"        recipe as poured, {name}\n"
        "        supplier's lot B4711, B4712\n"
        "    L-2026-304: 12 of WG-20, poured on 2026-11-01\n"
        f"        recipe as poured, {name}\n"
        "        supplier's lot b-4711\n"
        "lot B 4711 of 'wet-garden' may also be in 1 lot, 12 candles:\n"
        "    L-2026-303: 12 of WG-20, poured on 2026-11-01\n"
        f"        recipe as poured, {name}; its lot of 'wet-garden' is not recorded\n"
        "other lots of 'wet-garden' are in 1 lot, 12 candles: B4712\n"
    )


def test_a_suppliers_lot_that_no_lot_names_is_told_with_those_that_are_named(
    drawn: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = told(drawn, capsys, "using", "amber-20", "--from", "G2")

    assert out.startswith("lot G2 of 'amber-20' may be in 3 lots, 36 candles:\n")
    assert out.endswith("other lots of 'amber-20' are in 1 lot, 12 candles: G 1\n")


def test_what_a_row_names_went_in_whatever_its_formula_says(
    drawn: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book = drawn / "lots.csv"
    book.write_text(
        book.read_text(encoding="utf-8").replace("wet-garden:B4711;", "borrowed-oil:X1;"), encoding="utf-8"
    )

    assert "'borrowed-oil' is in 1 lot, 12 candles:\n    L-2026-301" in told(
        drawn, capsys, "using", "borrowed-oil"
    )


def test_other_programs_read_suppliers_lots_and_formulas_too(
    drawn: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = json.loads(told(drawn, capsys, "using", "wet-garden", "--from", "B4711", "--json"))

    assert [(one["lot"], one["certain"], one["drawn_from"][:1]) for one in out] == [
        ("L-2026-301", True, ["wet-garden:B4711"]),
        ("L-2026-304", True, ["wet-garden:b-4711"]),
        ("L-2026-303", False, []),
    ]
    assert {(one["formula"], one["formula_fingerprint"]) for one in out} == {("as poured", kept(drawn)[0])}


def test_the_officers_file_names_the_suppliers_lots(drawn: Path) -> None:
    assert "From suppliers’ lots: wet-garden B4711; wet-garden B4712; amber-20 G 1" in officers_file(drawn)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (
            "wet-gardn=B4711",
            "'wet-gardn' is not in the recipe of WG-20. No lot was added. Write one of: "
            "amber-20, cotton-18, rapeseed, wet-garden.",
        ),
        (
            "wet-garden=B1; soy:2",
            "'B1; soy:2' is not a supplier's lot. No lot was added. Copy it from the package, without ';'.",
        ),
        (
            "wet-garden=B1\nB2",
            "'B1\nB2' is not a supplier's lot. No lot was added. Copy it from the package, without ';'.",
        ),
    ],
    ids=["of what is not in it", "two in one", "two lines"],
)
def test_a_suppliers_lot_that_could_not_be_found_again_is_refused(
    given: str, said: str, shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert add(shop_folder, "L-2026-300", "--from", given) == 2
    assert capsys.readouterr().err == f"wickwright: {said}\n"
    assert not (shop_folder / "lots.csv").exists()


@pytest.mark.parametrize("words", [("--from", "B4711"), ("--from", "=B4711"), ("--from", "wet-garden=")])
def test_a_suppliers_lot_needs_its_id_and_its_number(words: tuple[str, ...], shop_folder: Path) -> None:
    assert add(shop_folder, "L-2026-300", *words) == 2
