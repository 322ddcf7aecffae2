import os
import shutil
from decimal import Decimal
from pathlib import Path

import pytest

from generator.model.hazard_classes import HazardClass
from generator.model.materials import Constituent
from generator.model.money import Money
from generator.model.sheet_values import ShareRange
from generator.model.shop import Page, Shop
from generator.problems import Place, Severity
from generator.reading.read_shop import read_shop
from tests.conftest import TODAY
from tests.reading.broken_shops import GOOD


@pytest.fixture(name="content")
def _content(tmp_path: Path) -> Path:
    """A good shop to write into."""
    return Path(shutil.copytree(GOOD, tmp_path / "content"))


def _write(content: Path, file: str, text: str) -> None:
    path = content / file
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="")


def _shop(content: Path) -> Shop:
    reading = read_shop(content, "content", TODAY)
    assert reading.problems == ()
    assert reading.shop is not None
    return reading.shop


def test_every_entry_is_known_by_its_files_name(content: Path) -> None:
    shop = _shop(content)

    assert (list(shop.waxes), list(shop.candles), list(shop.collections)) == (
        ["soy"],
        ["tide-table"],
        ["quay"],
    )
    assert shop.waxes["soy"].id == "soy"


def test_a_burn_test_is_known_by_its_table_and_has_what_stands_beside_it(content: Path) -> None:
    test = _shop(content).burn_tests["burn-tests/TT-30.csv"]

    assert [session.after_g for session in test.sessions] == [527.8, 508.3, 489.2]
    assert test.notes is not None
    assert test.notes.by == "M. Ferrier"


def test_a_burn_test_may_stand_without_notes(content: Path) -> None:
    (content / "burn-tests/TT-30.yaml").unlink()

    assert _shop(content).burn_tests["burn-tests/TT-30.csv"].notes is None


def test_a_composition_in_a_table_becomes_its_rows(content: Path) -> None:
    text = (content / "fragrances/sea-salt.yaml").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith(("composition", "  -"))]
    _write(content, "fragrances/sea-salt.yaml", "\n".join([*lines, "composition: sea-salt.csv", ""]))
    _write(content, "fragrances/sea-salt.csv", "substance,share,hazards\nLinalool,<1 %,Skin Sens. 1B H317\n")

    reading = read_shop(content, "content", TODAY)

    assert reading.shop is not None
    assert reading.shop.fragrances["sea-salt"].composition == (
        Constituent(
            substance="Linalool",
            share=ShareRange(Decimal(0), Decimal(1)),
            hazards=(HazardClass("Skin Sens. 1B", "H317"),),
        ),
    )
    path = ("fragrances/sea-salt.yaml", "composition", 0, "hazards", 0)
    assert reading.places.of(path) == Place("content/fragrances/sea-salt.csv", 2, 15)


def test_a_pages_first_heading_is_its_title_and_not_part_of_its_text(content: Path) -> None:
    _write(
        content, "pages/care.md", "\ufeffA line.\r\n\r\n#  Candle care \r\n\r\nTrim the wick.\r\n## Soot\r\n"
    )

    page = _shop(content).pages["care"]

    assert page == Page(id="care", title="Candle care", markdown="A line.\n\n\n\nTrim the wick.\n## Soot")


@pytest.mark.parametrize(
    ("text", "title", "markdown"),
    [
        ("<!--\n# Not this -->\n# Care\nTrim.", "Care", "<!--\n# Not this -->\n\nTrim."),
        ("# Care <!-- for\nlater --> now\nTrim.", "Care", "<!--for\nlater --> now\nTrim."),
        ("# Candle <!-- x --> care\nTrim.", "Candle care", "<!--x-->\nTrim."),
    ],
    ids=["before the title", "from the title on", "within the title"],
)
def test_a_comment_is_no_part_of_a_pages_title(content: Path, text: str, title: str, markdown: str) -> None:
    _write(content, "pages/care.md", text)

    assert _shop(content).pages["care"] == Page(id="care", title=title, markdown=markdown)


def test_photos_are_names_of_pictures(content: Path) -> None:
    for name in ("front.jpg", "BACK.JPEG", "side.webp"):
        _write(content, f"photos/{name}", "")

    assert _shop(content).photos == {"front.jpg", "BACK.JPEG", "side.webp"}


def test_what_other_commands_read_and_dotted_names_are_passed_over(content: Path) -> None:
    for name in (".schema/wax.json", "trade/.draft.yaml"):
        _write(content, name, "[")
    for name in (".DS_Store", "waxes/.soy.yaml.swp"):
        _write(content, name, "[")

    assert read_shop(content, "content", TODAY).problems == ()


@pytest.mark.parametrize(
    "file", ["pages/care.txt", "burn-tests/TT-30.txt", "photos/front.raw", "dyes/soot.csv"]
)
def test_a_file_that_nobody_reads_is_a_warning_and_no_entry(content: Path, file: str) -> None:
    before = _shop(content)
    _write(content, file, "x,y\n1,2\n")

    reading = read_shop(content, "content", TODAY)

    assert [(problem.place.file, problem.severity) for problem in reading.problems] == [
        (f"content/{file}", Severity.WARNING)
    ]
    assert reading.shop == before


def test_prices_keep_what_was_written(content: Path) -> None:
    assert _shop(content).formats["tumbler"].price == Money(Decimal("24.00"))


def test_problems_are_shown_under_the_name_the_maker_gave(content: Path) -> None:
    _write(content, "wicks/braid-24.yaml", "name: Braid\n")

    files = {problem.place.file for problem in read_shop(content, "../my shop", TODAY).problems}

    assert files == {"../my shop/wicks/braid-24.yaml"}


def test_a_content_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    reading = read_shop(tmp_path / "content", "content", TODAY)

    assert [str(problem) for problem in reading.problems] == [
        "content:1:1: error: there is no such folder\n"
        "    why: the maker's entries are read from there\n"
        "    fix: use --content and the folder that contains maker.yaml"
    ]
    assert reading.shop is None


@pytest.mark.skipif(os.name == "nt", reason="links need a privilege there")
def test_a_file_that_cannot_be_opened_is_told(content: Path) -> None:
    (content / "waxes" / "gone.yaml").symlink_to(content / "nowhere.yaml")

    assert [str(problem) for problem in read_shop(content, "content", TODAY).problems] == [
        "content/waxes/gone.yaml:1:1: error: the file cannot be opened (a broken link)\n"
        "    why: its contents would be missing\n"
        "    fix: make the file readable, or delete it"
    ]


def test_without_a_maker_the_other_entries_are_read_all_the_same(content: Path) -> None:
    (content / "maker.yaml").unlink()
    _write(content, "wicks/braid-24.yaml", "name: Braid\n")

    reading = read_shop(content, "content", TODAY)

    assert reading.shop is None
    assert [problem.place.file for problem in reading.problems] == [
        "content/maker.yaml",
        "content/wicks/braid-24.yaml",
        "content/wicks/braid-24.yaml",
    ]


BROKEN: dict[str, tuple[str, str, list[tuple[str, str]]]] = {
    "an entry with a fault": ("waxes/soy.yaml", "name: Soy\n", [("wax", "soy")]),
    "an entry that cannot be read": ("vessels/tumbler.yaml", "{", [("vessel", "tumbler")]),
    "collections that cannot be read": ("collections.yaml", "{", [("collection", "quay"), ("collection", "loft")]),
    "one collection": ("collections.yaml", "quay: {nam: Quay}\n", [("collection", "quay")]),
    "a burn test": ("burn-tests/TT-30.csv", "piece\n", [("burn-test", "burn-tests/TT-30.csv")]),
    "a burn test's notes": ("burn-tests/TT-30.yaml", "on: x\n", [("burn-test", "burn-tests/TT-30.csv")]),
    "a candle and its stock codes": (
        "candles/tide-table.yaml",
        "sizes: [{stock_code: TT-30}]\n",
        [("candle", "tide-table"), ("stock-code", "TT-30")],
    ),
    "a candle whose stock codes nobody can tell": ("candles/tide-table.yaml", "{", [("stock-code", "XX-99")]),
    "a page": ("pages/care.md", "No title.\n", [("page", "care")]),
}  # fmt: skip


@pytest.mark.parametrize(("file", "text", "broken"), BROKEN.values(), ids=BROKEN.keys())
def test_an_entry_at_fault_is_known_as_broken_so_that_nothing_calls_it_missing(
    content: Path, file: str, text: str, broken: list[tuple[str, str]]
) -> None:
    _write(content, file, text)

    reading = read_shop(content, "content", TODAY)

    assert [reading.is_broken(kind, id_) for kind, id_ in broken] == [True] * len(broken)
    assert not reading.is_broken("wick", "braid-24")


def test_the_lines_of_a_page_are_numbered_as_in_its_file(content: Path) -> None:
    _write(content, "pages/care.md", "Before.\n\n# Candle care\n\nTrim the wick.\n")

    reading = read_shop(content, "content", TODAY)

    assert reading.shop is not None
    line = reading.shop.pages["care"].markdown.splitlines().index("Trim the wick.") + 1
    assert str(reading.places.of(("pages/care.md", line))).endswith("pages/care.md:5:1")
