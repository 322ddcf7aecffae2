"""One slip is one message, at its own place, with a way out of the maker's own figures."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.cli import main
from generator.making.load_shop import load_shop
from generator.making.options import CommandOptions
from generator.problems import Problem, is_error
from tests.conftest import EXAMPLE, PROJECT
from tests.loaded import loaded_shop

Tell = Callable[[], list[Problem]]
COLLECTION = "collections.yaml"


@pytest.fixture(name="told")
def _told(tmp_path: Path) -> Tell:
    """Every problem of the shop in ``content``."""
    asked = CommandOptions(
        content=tmp_path / "content", output=tmp_path / "output", as_of=None, as_data=False
    )
    return lambda: list(load_shop(asked).problems)


@pytest.fixture(name="example")
def _example(tmp_path: Path) -> Path:
    """A copy of the example shop."""
    return Path(shutil.copytree(EXAMPLE, tmp_path / "content"))


def rewrite(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def test_a_missing_file_of_collections_is_one_fault_of_its_own(example: Path, told: Tell) -> None:
    (example / COLLECTION).unlink()

    (fault,) = filter(is_error, told())

    assert (Path(fault.place.file).name, fault.what) == (COLLECTION, "the file is missing")


def test_a_shop_without_candles_needs_no_collections(shop_folder: Path, told: Tell) -> None:
    (shop_folder / COLLECTION).unlink()
    shutil.rmtree(shop_folder / "candles")

    assert [fault for fault in told() if Path(fault.place.file).name == COLLECTION] == []


@pytest.mark.parametrize("file", ["formats/tumbler-30.yaml", "candles/bramble-gate.yaml"])
def test_a_broken_entry_makes_no_faults_elsewhere(example: Path, told: Tell, file: str) -> None:
    before = set(told())
    entry = example / file
    entry.write_text(entry.read_text(encoding="utf-8") + "\nwobble: 3\n", encoding="utf-8")

    new = [fault for fault in told() if fault not in before]

    assert [(fault.place.file, fault.what.partition(" is ")[0]) for fault in new] == [
        ((example / file).as_posix(), "'wobble'")
    ]


def test_a_slip_in_a_wax_is_told_once_and_in_the_wax(example: Path, told: Tell) -> None:
    rewrite(example / "waxes" / "soy.yaml", "molten: 0.87", "molten: 8.7")

    (fault,) = filter(is_error, told())

    assert Path(fault.place.file).name == "soy.yaml"
    assert fault.what == "the molten density of soy is 8.7 g/ml, not between 0.5 and 5 g/ml"


def test_a_forgotten_dash_is_what_is_told(shop_folder: Path, told: Tell) -> None:
    candle = shop_folder / "candles" / "wet-garden.yaml"
    text = candle.read_text(encoding="utf-8")
    size = text[text.index("  - stock_code") :]
    candle.write_text(text + size.replace("  - stock_code: WG-20", "    stock_code: WG-30"), encoding="utf-8")

    (fault,) = told()

    assert fault.what == "'stock_code' begins another entry in this list, but has no dash"
    assert fault.fix == "  - stock_code: WG-30"
    rewrite(candle, "    stock_code: WG-30", fault.fix)
    assert [one.what for one in told() if "written twice" in one.what or "dash" in one.what] == []


def test_a_key_twice_in_one_entry_of_a_list_is_still_told(shop_folder: Path, told: Tell) -> None:
    rewrite(
        shop_folder / "candles" / "wet-garden.yaml", "    price: 18.00", "    price: 18.00\n    price: 19.00"
    )

    assert [fault.what for fault in told()] == ["'price' is written twice"]


def test_beside_and_inside_the_folder_the_way_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    main(["start", "my shop"])

    assert main(["check"]) == 1
    assert "fix: cd 'my shop', because you are in the folder above" in capsys.readouterr().out
    monkeypatch.chdir(tmp_path / "my shop" / "content")
    assert main(["check"]) == 1
    assert "fix: cd .., because you are inside the folder of entries" in capsys.readouterr().out


def test_a_photo_as_phones_keep_it_is_to_be_saved_as_jpeg(shop_folder: Path, told: Tell) -> None:
    (shop_folder / "photos").mkdir()
    (shop_folder / "photos" / "fig.heic").write_bytes(b"\0\0\0\x18ftypheic" + bytes(40))
    rewrite(
        shop_folder / "candles" / "wet-garden.yaml",
        "stock_code: WG-20",
        "stock_code: WG-20\n    photos: [fig.heic]",
    )

    (fault,) = told()

    assert (
        fault.what == "photo 'fig.heic' is a HEIC picture, which most browsers cannot show; save it as JPEG"
    )


def test_a_photo_with_brackets_in_its_name_is_to_be_renamed(shop_folder: Path, told: Tell) -> None:
    name = '"my fig (1).jpg"'
    rewrite(
        shop_folder / "candles" / "wet-garden.yaml",
        "stock_code: WG-20",
        f"stock_code: WG-20\n    photos: [{name}]",
    )

    (fault,) = told()

    assert "letters A to Z, digits, spaces, dots and dashes" in fault.what
    assert "rename the file" in fault.fix


@pytest.mark.parametrize(
    ("written", "what", "fix"),
    [
        ("wax melt", "kind is 'wax melt', which is not one of the choices", "kind: melt"),
        ("tealight", "kind 'tealight' is not supported yet", "container, or melt"),
        ("pillar", "kind 'pillar' is not supported yet", "container, or melt"),
    ],
)
def test_other_kinds_are_told_for_what_they_are(
    written: str, what: str, fix: str, shop_folder: Path, told: Tell
) -> None:
    rewrite(shop_folder / "candles" / "wet-garden.yaml", "kind: container", f"kind: {written}")

    assert [(fault.what, fault.fix) for fault in told()] == [(what, fix)]


def test_a_contact_written_as_a_list_is_not_answered_with_a_promise(shop_folder: Path, told: Tell) -> None:
    (shop_folder / "trade").mkdir()
    buyer = (
        "harbour:\n  name: Harbour\n  country: GB\n  currency: GBP\n  contact: [Ada, ada@harbour.example]\n"
    )
    (shop_folder / "trade" / "buyers.yaml").write_text(buyer, encoding="utf-8")

    (fault,) = (fault for fault in told() if fault.what.startswith("contact "))

    assert (fault.what, fault.fix) == ("contact is a list; expected one text", "contact: ...")


def test_a_label_as_a_rectangle_is_a_box_because_of_its_place(shop_folder: Path, told: Tell) -> None:
    (shop_folder / "label-stock").mkdir()
    stock = (
        "name: A\nsheet: A4\nlabel: {shape: rectangle, width: 99 mm, height: 60 mm}\nrows: 4\ncolumns: 2\n"
    )
    stock += "margin: {top: 13 mm, left: 4.6 mm}\npitch: {across: 101.6 mm, down: 67.7 mm}\n"
    (shop_folder / "label-stock" / "a.yaml").write_text(stock, encoding="utf-8")

    (fault,) = told()

    assert (fault.fix, "net weight" in fault.why) == ("shape: box", False)


def test_a_day_that_no_calendar_has_is_called_that(shop_folder: Path, told: Tell) -> None:
    rewrite(shop_folder / "maker.yaml", "as_of: today", "as_of: 2026-13-01")

    assert [fault.what for fault in told()] == ["as_of is '2026-13-01', a date that does not exist"]


BURNS = PROJECT / "generator" / "data" / "first_shop" / "burn-tests" / "WG-20.csv"


def abroad(separator: str) -> str:
    """The burn test as a German or French spreadsheet saves it; its notes hold no comma of their own."""
    return BURNS.read_text(encoding="utf-8").replace(",", separator).replace(".", ",")


@pytest.mark.parametrize(
    "text", [abroad(";"), f"sep=;\r\n{abroad(';')}", f'"sep=;"\n{abroad(";")}', abroad("\t")]
)
def test_decimal_commas_are_read_where_no_comma_parts_the_cells(
    shop_folder: Path, told: Tell, text: str
) -> None:
    asked = CommandOptions(content=shop_folder, output=shop_folder.parent / "o", as_of=None, as_data=False)
    before = loaded_shop(asked)
    (shop_folder / "burn-tests" / "WG-20.csv").write_text(text, encoding="utf-8")

    after = loaded_shop(asked)

    assert told() == []
    assert after.shop.burn_tests == before.shop.burn_tests


def test_a_comma_in_a_note_stays_a_comma(shop_folder: Path) -> None:
    text = abroad(";").replace("first burn", "flame 4,5 cm")
    (shop_folder / "burn-tests" / "WG-20.csv").write_text(text, encoding="utf-8")
    asked = CommandOptions(content=shop_folder, output=shop_folder.parent / "o", as_of=None, as_data=False)

    shop = loaded_shop(asked).shop

    (test,) = shop.burn_tests.values()
    assert test.sessions[0].note == "flame 4,5 cm"


@pytest.mark.parametrize(
    ("text", "mixed"),
    [
        (abroad(";").replace("398,2", "398.2"), True),
        (abroad(",").replace("398,2", "398,2"), False),
        (BURNS.read_text(encoding="utf-8").replace("398.2", '"398,2"').replace("380.1", '"380,1"'), False),
    ],
    ids=["points and commas", "unquoted commas between commas", "quoted commas between commas"],
)
def test_commas_that_could_mean_anything_are_one_fault_of_the_file(
    shop_folder: Path, told: Tell, text: str, *, mixed: bool
) -> None:
    (shop_folder / "burn-tests" / "WG-20.csv").write_text(text, encoding="utf-8")

    reasons = {(fault.why, fault.fix) for fault in told()}

    assert len(reasons) == 1
    assert any("figures use points" in fault.what for fault in told()) == mixed


def test_a_book_that_begins_with_its_separator_takes_a_lot(shop_folder: Path) -> None:
    book = shop_folder / "lots.csv"
    book.write_text(
        "sep=;\nlot;stock_code;poured_on;made\nL-2026-201;WG-20;2026-07-20;48\n", encoding="utf-8"
    )
    folders = ("--content", str(shop_folder), "--output", str(shop_folder.parent / "output"))

    assert main(["lots", "add", "WG-20", "--made", "12", "--lot", "L-2026-300", *folders]) == 0

    lines = book.read_text(encoding="utf-8").splitlines()
    assert lines[0] == "sep=;"
    assert lines[1].startswith("lot;stock_code;poured_on;made;")
    assert lines[3].startswith("L-2026-300;WG-20;2026-11-01;12;")
