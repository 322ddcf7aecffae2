"""Every file is bounded: what is no file, is too large, too deep or too much is told at its place."""

import os
import shutil
import socket
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.files import (
    DRAWING_FILE,
    ENTRY_FILE,
    LEDGER_FILE,
    PAGE_FILE,
    PHOTO_FILE,
    TABLE_FILE,
    THEME_FILE,
    NotRead,
    Sort,
    is_device_name,
    read_file,
)
from generator.problems import Stopped
from generator.reading.located import MOST_VALUES, located
from generator.reading.meant import LONGEST, nearest
from generator.reading.read_shop import read_shop
from generator.reading.text_files import LONGEST_TEXT
from generator.writing.themes import Theme
from tests.conftest import TODAY
from tests.reading.broken_shops import GOOD


@pytest.fixture(name="content")
def _content(tmp_path: Path) -> Path:
    """A good shop to write into."""
    return Path(shutil.copytree(GOOD, tmp_path / "content"))


def told(content: Path) -> list[str]:
    return [f"{problem.place} {problem.what}" for problem in read_shop(content, "content", TODAY).problems]


def socket_at(path: Path) -> None:
    here = Path.cwd()
    os.chdir(path.parent)  # A socket's whole path may have a hundred letters.
    with socket.socket(socket.AF_UNIX) as one:
        one.bind(path.name)
    os.chdir(here)


PLACED: dict[str, tuple[Callable[[Path], object], str]] = {
    "a pipe": (os.mkfifo, "this is a pipe; expected"),
    "a device": (lambda path: path.symlink_to("/dev/zero"), "this is a device; expected"),
    "a socket": (socket_at, "this is a socket; expected"),
    "a folder": (Path.mkdir, "this is a folder; expected"),
    "a broken link": (
        lambda path: path.symlink_to("gone"),
        "cannot be opened (a broken link)",
    ),
    "a link to itself": (
        lambda path: path.symlink_to(path.name),
        "cannot be opened (a broken link)",
    ),
}


@pytest.mark.parametrize(
    "file",
    [
        "maker.yaml",
        "waxes/soy.yaml",
        "lots.csv",
        "pages/care.md",
        "photos/a.jpg",
        "artwork/a.svg",
        "sheets/TT-30.yaml",
    ],
)
@pytest.mark.parametrize(("put", "what"), PLACED.values(), ids=PLACED)
def test_what_is_no_file_is_told_and_never_opened(
    content: Path, file: str, put: Callable[[Path], object], what: str
) -> None:
    (content / file).parent.mkdir(exist_ok=True)
    (content / file).unlink(missing_ok=True)
    put(content / file)

    assert [line for line in told(content) if line.startswith(f"content/{file}:1:1 ") and what in line]


@pytest.mark.parametrize("put", [os.mkfifo, Path.touch], ids=["a pipe", "a file"])
def test_a_folder_of_entries_that_is_none_is_told(content: Path, put: Callable[[Path], object]) -> None:
    put(content / "recalls")

    assert told(content) == ["content/recalls:1:1 'recalls' is not a folder"]


@pytest.mark.parametrize(
    ("file", "sort"),
    [
        ("waxes/soy.yaml", ENTRY_FILE),
        ("sheets/TT-30.yaml", LEDGER_FILE),
        ("lots.csv", TABLE_FILE),
        ("pages/care.md", PAGE_FILE),
        ("photos/a.jpg", PHOTO_FILE),
        ("artwork/a.svg", DRAWING_FILE),
    ],
)
def test_a_file_above_the_size_of_its_sort_is_refused_before_it_is_read(
    content: Path, file: str, sort: Sort, monkeypatch: pytest.MonkeyPatch
) -> None:
    (content / file).parent.mkdir(exist_ok=True)
    with (content / file).open("wb") as large:
        large.truncate(sort.most_bytes + 1)
    opened: list[str] = []
    really = os.open

    def noted(path: str | Path, flags: int) -> int:
        opened.append(str(path))
        return really(path, flags)

    monkeypatch.setattr(os, "open", noted)

    (line,) = told(content)

    assert line.startswith(f"content/{file}:1:1 the file has ")
    assert f"; {sort.noun} may have " in line
    assert str(content / file) not in opened


def test_a_file_of_just_the_size_of_its_sort_is_read(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"x" * PAGE_FILE.most_bytes)

    assert len(read_file(tmp_path / "a", PAGE_FILE)) == PAGE_FILE.most_bytes


def test_a_file_that_never_told_its_size_is_refused_all_the_same() -> None:
    with pytest.raises(NotRead, match="may have 0 kB"):
        read_file(Path("/proc/self/status"), Sort("a status", 0, "it is a test"))


def test_a_theme_s_file_that_is_too_large_is_told_at_its_place(tmp_path: Path) -> None:
    with (tmp_path / "big.css").open("wb") as large:
        large.truncate(THEME_FILE.most_bytes + 1)

    with pytest.raises(Stopped) as stopped:
        _ = Theme(name="mine", folders=(tmp_path,)).digest

    assert str(stopped.value.problem.place) == f"themes/{tmp_path.name}/big.css:1:1"


def test_forty_thousand_misspelt_keys_are_told_by_the_first_and_their_number(content: Path) -> None:
    with (content / "waxes" / "soy.yaml").open("a", encoding="utf-8") as entry:
        entry.writelines(f"{n:x}:\n" for n in range(40_000))

    lines = told(content)

    assert len(lines) == 51
    assert [line for line in lines if line.endswith("50 errors of a wax are listed; 39950 more are not")]


def test_a_table_of_faults_is_told_by_the_first_rows_and_the_number_of_the_others(content: Path) -> None:
    rows = "".join(f"L-{n},TT-30,yesterday,1\n" for n in range(20_000))
    (content / "lots.csv").write_text(f"lot,stock_code,poured_on,made\n{rows}", encoding="utf-8")

    lines = told(content)

    assert len(lines) <= 101
    assert lines[0] == (
        "content/lots.csv:1:1 50 rows have errors, and 19950 more rows below were not checked"
    )


def test_a_header_of_unknown_columns_is_told_by_the_first(content: Path) -> None:
    header = ",".join(f"column{n}" for n in range(20_000))
    (content / "burn-tests" / "TT-30.csv").write_text(f"{header}\n1\n", encoding="utf-8")

    assert len(told(content)) == 50


def test_a_scent_of_a_hundred_kilobytes_is_told_at_its_line(content: Path) -> None:
    candle = content / "candles" / "tide-table.yaml"
    lines = candle.read_text(encoding="utf-8").splitlines()
    at = next(number for number, line in enumerate(lines) if line.startswith("scent:"))
    lines[at] = f"scent: {'x' * 100_000}"
    candle.write_text("\n".join(lines), encoding="utf-8")

    (line,) = [one for one in told(content) if "characters" in one]

    assert line.endswith(f":{at + 1}:8 this text has 100000 characters; {LONGEST_TEXT} are allowed")


def test_a_file_of_a_hundred_thousand_values_is_read_no_further() -> None:
    (problem,) = located(b"[" + b"a," * (MOST_VALUES + 9) + b"]", "entry.yaml").problems

    assert problem.what == f"the file has more than {MOST_VALUES} values up to here"


def test_no_word_is_looked_up_that_is_longer_than_every_known_one() -> None:
    assert nearest("vessel" * 10, ["vessel" * 10]) == "vessel" * 10
    assert len("vessel" * 10) == LONGEST
    assert nearest("x" * (LONGEST + 1), ["x" * (LONGEST + 1)]) is None


@pytest.mark.parametrize(
    "name", ["CON", "con.yaml", "Nul", "aux.tar.gz", "COM1", "lpt9.jpg", "prn ", "COM¹.md", "CONIN$"]
)
def test_a_name_that_windows_keeps_for_a_device_is_known(name: str) -> None:
    assert is_device_name(name)


@pytest.mark.parametrize("name", ["console", "com10", "com", "lpt", "my-con", "c-on", "auxiliary.md", ".con"])
def test_a_name_that_only_looks_like_a_device_is_free(name: str) -> None:
    assert not is_device_name(name)


def test_a_device_s_name_is_neither_a_stock_code_nor_a_photo_nor_an_entry_nor_a_page(content: Path) -> None:
    candle = content / "candles" / "tide-table.yaml"
    text = candle.read_text(encoding="utf-8").replace(
        "stock_code: TT-30", "stock_code: CON\n    photos: [aux.jpg]", 1
    )
    candle.write_text(text, encoding="utf-8")
    shutil.copy(content / "waxes" / "soy.yaml", content / "waxes" / "nul.yaml")
    (content / "pages").mkdir()
    (content / "pages" / "com1.md").write_text("# A\n", encoding="utf-8")

    kept = [line.partition(" ")[2] for line in told(content) if "Windows" in line]

    assert sorted(kept) == [
        "'com1' is a name that Windows reserves for a device",
        "'nul' is a name that Windows reserves for a device",
        "item 1 of photos is 'aux.jpg', a name that Windows reserves for a device",
        "stock_code is 'CON', a name that Windows reserves for a device",
    ]


def test_a_burn_test_of_more_than_a_thousand_sessions_is_told_at_the_first_too_many(content: Path) -> None:
    table = content / "burn-tests" / "TT-30.csv"
    header, first, *_ = table.read_text(encoding="utf-8").splitlines()
    table.write_text("\n".join([header, *[first] * 1_001]), encoding="utf-8")

    assert "content/burn-tests/TT-30.csv:1002:1 the table has 1001 sessions; one test may have 1000" in told(
        content
    )


def test_a_book_of_more_lots_than_a_build_can_hold_is_told_at_the_first_too_many(content: Path) -> None:
    rows = "".join(f"L-{n:05d}-AB,TT-30,2026-11-01,1\n" for n in range(30_001))
    (content / "lots.csv").write_text(f"lot,stock_code,poured_on,made\n{rows}", encoding="utf-8")

    assert told(content) == ["content/lots.csv:30002:1 the file lists 30001 lots; it may list 30000"]
