"""UFIs from outside: made, read, tied to a recipe, told of, and on the page to type from."""

import json
import re
from pathlib import Path

import pytest

from generator.cli import main
from generator.reading.ufi_book import UFI_BOOK
from tests.model.ufi_values import BAD, GOOD

KEY = ("--company-key", "1828639338661")
CANDLE = "candles/wet-garden.yaml"


@pytest.fixture(name="content")
def _content(shop_folder: Path) -> Path:
    """The small shop, which sells to the EU as well, with an oil that makes the candle a sensitiser."""
    edit(
        shop_folder,
        "maker.yaml",
        "markets: [GB]",
        "markets: [GB, EU]\neu_contact: {name: Quai, address: [Nantes]}",
    )
    edit(shop_folder, "fragrances/wet-garden.yaml", "share: 1-5 %", "share: 20-30 %")
    return shop_folder


def edit(content: Path, file: str, old: str, new: str) -> None:
    text = (content / file).read_text(encoding="utf-8")
    assert old in text
    (content / file).write_text(text.replace(old, new), encoding="utf-8")


def record(content: Path, lines: str) -> None:
    """Write lines into the candle's entry, above its sizes."""
    edit(content, CANDLE, "sizes:\n", f"{lines}\nsizes:\n")


def run(content: Path, *words: str) -> int:
    return main([*words, "--content", str(content), "--output", str(content.parent / "output")])


def told(content: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    capsys.readouterr()
    run(content, *words)
    return capsys.readouterr().out


def made(content: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    found = re.search(r"UFI (\S{19})", told(content, capsys, "ufi", "new", "WG-20", *words))
    assert found is not None
    return found[1]


@pytest.mark.parametrize(("vat", "formulation", "printed"), GOOD[::9])
def test_a_ufi_is_read(
    vat: str, formulation: int, printed: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = json.loads(told(content, capsys, "ufi", "read", printed, "--json"))

    assert vat in data["numbers"]
    assert (data["ufi"], data["formulation"]) == (printed, formulation)


@pytest.mark.parametrize("printed", [bad for bad, _ in BAD])
def test_what_cannot_be_one_is_refused_with_the_reason(
    printed: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(content, "ufi", "read", printed) == 2

    assert f"the UFI is '{printed}'; " in capsys.readouterr().err


def test_a_company_key_is_asked_for_and_never_made_up(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(content, "ufi", "new", "WG-20") == 2

    assert "a key cannot be made up" in capsys.readouterr().err
    assert not (content / UFI_BOOK).exists()


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (("--vat", "ATU12345678"), "the check digits of 'ATU12345678' do not fit"),
        (("--vat", "US123456789"), "a country whose numbers make no UFI"),
        (("--vat", "1828639338661"), "is the other sort of number"),
        (("--company-key", "ATU12345678"), "is the other sort of number"),
        (("--company-key", "9999999999999"), "nor a company key below 2199023255552"),
        ((*KEY, "--number", "268435456"), "0 to 268435455, and 268435456 is not"),
    ],
)
def test_a_number_that_cannot_be_is_refused(
    words: tuple[str, ...], reason: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(content, "ufi", "new", "WG-20", *words) == 2

    assert reason in capsys.readouterr().err
    assert not (content / UFI_BOOK).exists()


def test_one_recipe_keeps_its_ufi_and_another_gets_the_next_number(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first, again = made(content, capsys, *KEY), made(content, capsys)
    edit(content, CANDLE, "wet-garden: 8 % of wax", "wet-garden: 5 % of wax")
    other = made(content, capsys)
    edit(content, CANDLE, "wet-garden: 5 % of wax", "wet-garden: 8 % of wax")

    assert first == again == made(content, capsys) != other
    rows = (content / UFI_BOOK).read_text(encoding="utf-8").splitlines()
    assert [row.split(",")[0] for row in rows[1:]] == [first, other]
    numbers = [
        json.loads(told(content, capsys, "ufi", "read", ufi, "--json"))["formulation"]
        for ufi in (first, other)
    ]
    assert numbers == [1, 2]


def test_no_number_is_used_twice_not_even_one_that_stands_in_an_entry_alone(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    taken = made(content, capsys, *KEY, "--number", "7")
    record(content, f"ufi: {taken}")
    (content / UFI_BOOK).unlink()
    edit(content, CANDLE, "8 % of wax", "5 % of wax")

    assert run(content, "ufi", "new", "WG-20", *KEY, "--number", "7") == 2
    assert "number 7 is taken" in capsys.readouterr().err
    other = json.loads(told(content, capsys, "ufi", "new", "WG-20", *KEY, "--json"))
    assert other["formulation"] == 8


def test_a_recipe_that_is_as_notified_gets_no_other(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    ufi = made(content, capsys, *KEY)
    record(content, f"ufi: {ufi}")

    assert run(content, "ufi", "new", "WG-20") == 2
    assert (
        f"WG-20 has UFI {ufi}, and its recipe is still what that was notified with" in capsys.readouterr().err
    )


def test_a_bare_ufi_still_reads_and_builds_with_a_warning(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record(content, "ufi: C23S-PQ2V-AMH9-VVRF")

    assert run(content, "build") == 0

    said = capsys.readouterr().out
    assert "the shares that UFI C23S-PQ2V-AMH9-VVRF was notified with are not recorded" in said
    assert "or, if it is right as it is: accepted: {notified-shares:" in said


def test_a_ufi_of_the_contact_is_tied_to_the_shares_she_notified(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    noted = (
        "notified: {by: Quai, countries: [FR], on: 2026-10-20, shares: {rapeseed: 92.6 %, wet-garden: 7.4 %}}"
    )
    record(content, f"ufi: C23S-PQ2V-AMH9-VVRF\n{noted}")
    assert "UFI" not in told(content, capsys, "check")

    edit(content, CANDLE, "8 % of wax", "5 % of wax")

    said = told(content, capsys, "check")
    assert f"{CANDLE}:" in said
    assert (
        "Wet Garden is no longer the mixture of UFI C23S-PQ2V-AMH9-VVRF: "
        "Wet garden accord moved from 7.4 % to 4.762 % (allowed: 5.92 to 8.88 %)"
    ) in said


def test_a_ufi_that_was_made_here_is_tied_to_the_shares_in_the_book(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record(content, f"ufi: {made(content, capsys, *KEY)}")
    assert "UFI" not in told(content, capsys, "check")

    edit(content, "fragrances/wet-garden.yaml", "share: 20-30 %", "share: 20-40 %")

    assert "Linalool moved from 2.222 % to 2.963 % (allowed: 1.555 to 2.889 %)" in told(
        content, capsys, "check"
    )


def test_a_label_of_a_recipe_that_has_moved_is_refused(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record(content, f"ufi: {made(content, capsys, *KEY)}")
    (content / "label-stock").mkdir()
    stock = (
        "name: Boxes\nsheet: A4\nlabel: {shape: box, width: 99.1 mm, height: 67.7 mm}\nrows: 4\ncolumns: 2\n"
    )
    stock += "margin: {top: 13 mm, left: 4.6 mm}\npitch: {across: 101.6 mm, down: 67.7 mm}\n"
    (content / "label-stock" / "boxes.yaml").write_text(stock, encoding="utf-8")
    label = ("papers", "labels", "WG-20=1", "--stock", "boxes", "--blank-lot", "--market", "EU")
    run(content, "issue", "WG-20", "--reason", "first")
    assert "notified under its UFI" not in told(content, capsys, *label)

    edit(content, CANDLE, "8 % of wax", "6 % of wax")
    run(content, "issue", "WG-20", "--reason", "less oil")

    said = told(content, capsys, *label)
    assert (
        "the EU label of WG-20 may not be used: the candle is no longer what was notified under its UFI: "
        "Wet garden accord moved from 7.407 % to 5.66 % (allowed: 5.926 to 8.888 %)"
    ) in said
    assert not list((content.parent / "output").rglob("warning-EU*.pdf"))


def test_a_notification_without_its_ufi_is_told(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    record(content, "notified: {by: Quai}")

    assert "warning: notified has no ufi beside it" in told(content, capsys, "check")


def test_one_ufi_on_two_recipes_is_told(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    record(content, "ufi: C23S-PQ2V-AMH9-VVRF")
    first = (content / CANDLE).read_text(encoding="utf-8")
    second = (
        first.replace("8 % of wax", "4 % of wax")
        .replace("WG-20\n", "WH-20\n")
        .replace("Wet Garden", "Wet Hedge")
    )
    (content / "candles" / "wet-hedge.yaml").write_text(second, encoding="utf-8")

    said = told(content, capsys, "check")

    assert "UFI C23S-PQ2V-AMH9-VVRF is also on WG-20, which has a different recipe: " in said


def test_a_ufi_that_stands_twice_in_the_book_is_an_error(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made(content, capsys, *KEY)
    book = content / UFI_BOOK
    book.write_text(
        book.read_text(encoding="utf-8") + book.read_text(encoding="utf-8").splitlines()[1] + "\n"
    )

    assert f"{UFI_BOOK}:3:1: error: UFI " in told(content, capsys, "check")


@pytest.mark.parametrize(
    ("old", "new", "who"),
    [
        (
            "country: GB",
            "country: GB",
            "your importer or contact in the EU notifies, since a maker outside cannot",
        ),
        (
            "country: GB",
            "country: FR",
            "make one with `wickwright ufi new STOCK_CODE`, notify the mixture in each",
        ),
        (
            "country: GB",
            "country: NO",
            "make one with `wickwright ufi new STOCK_CODE`, notify the mixture in each",
        ),
        ("AV1 4QN]", "BT1 4QN]", "send the notification to the NPIS for Northern Ireland"),
        ("AV1 4QN]", "AV1 4QN, Northern Ireland]", "send the notification to the NPIS for Northern Ireland"),
    ],
)
def test_who_notifies_depends_on_where_the_maker_is(
    old: str, new: str, who: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    edit(content, "maker.yaml", old, new)

    assert who in told(content, capsys, "check")


def test_a_shop_of_great_britain_alone_is_told_of_no_ufi(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    edit(content, "maker.yaml", "markets: [GB, EU]", "markets: [GB]")

    assert "ufi" not in told(content, capsys, "check").lower()


@pytest.mark.parametrize(
    ("language", "words"),
    [
        ("en", ("Who notifies", "PC-AIR-7, candles (as listed in 2018", "to fill in", "Every composition")),
        ("de", ("Wer meldet", "PC-AIR-7, Kerzen (Stand 2018", "bitte ergänzen", "7,407")),
        ("fr", ("Qui déclare", "PC-AIR-7, bougies (liste de 2018", "à compléter", "7,407")),
    ],
)
def test_the_page_to_type_from_holds_the_figures_and_says_what_is_unknown(
    language: str, words: tuple[str, ...], content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    edit(content, "maker.yaml", "language: en", f"language: {language}")

    assert run(content, "papers", "notification", "WG-20") == 0, capsys.readouterr().out

    page = (content.parent / "output/workshop/notifications/WG-20.html").read_text(encoding="utf-8")
    assert [
        text for text in (*words, "78-70-6", "Skin Sens. 1B H317", "rapeseed: 92.59 %") if text not in page
    ] == []
    assert not list((content.parent / "output").rglob("site/**/*"))


def test_an_oil_without_a_composition_is_unknown_on_the_page(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = content / "fragrances" / "wet-garden.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text[: text.index("composition:")], encoding="utf-8")

    assert run(content, "papers", "notification", "WG-20") == 0, capsys.readouterr().out

    page = (content.parent / "output/workshop/notifications/WG-20.html").read_text(encoding="utf-8")
    assert "Wet garden accord: composition not recorded." in page
    assert "No constituent reaches these limits." in page
