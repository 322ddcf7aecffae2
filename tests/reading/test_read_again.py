"""A shop that is read again: what was not written since is the very same, and nothing that was is missed."""

import os
import shutil
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from generator import files
from generator.facts.gather import gather
from generator.files import Sort
from generator.memory import Remembered
from generator.problems import Place
from generator.reading import gathering
from generator.reading.read_shop import Reading, read_shop
from generator.reading.source_file import ReadingShelves
from tests.conftest import TODAY
from tests.reading.broken_shops import CASES, EXPECTED, GOOD, broken_shop

CANDLE = "candles/tide-table.yaml"
WICK = "wicks/braid-24.yaml"
TABLE = "fragrances/sea-salt.csv"
HOUR_NS = 3600 * 10**9
ReadAgain = Callable[[], Reading]


@pytest.fixture(name="content")
def _content(tmp_path: Path) -> Path:
    """A good shop to write into, one of whose compositions stands in a table."""
    content = Path(shutil.copytree(GOOD, tmp_path / "content"))
    entry = content / "fragrances/sea-salt.yaml"
    lines = entry.read_text(encoding="utf-8").splitlines(keepends=True)
    text = "".join(line for line in lines if "Linalool" not in line)
    entry.write_text(text.replace("composition:", "composition: sea-salt.csv"), encoding="utf-8")
    (content / TABLE).write_text(composition("<1 %"), encoding="utf-8")
    (content / "pages").mkdir()
    (content / "pages/care.md").write_text("# Care\n\nTrim the wick.\n", encoding="utf-8")
    (content / "lots.csv").write_text(
        "lot,stock_code,poured_on,made\nL-2026-201,TT-30,2026-07-20,48\n", encoding="utf-8"
    )
    return content


@pytest.fixture(name="again")
def _again(content: Path) -> ReadAgain:
    """Reads the shop in one process again and again."""
    return reader_of(content)


@pytest.fixture(name="opened")
def _opened(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the files that were opened."""
    opened: list[str] = []

    def read_file(path: str, sort: Sort) -> bytes:
        opened.append("/".join(path.rsplit("/", 2)[1:]))
        return files.read_file(path, sort)

    monkeypatch.setattr(gathering, "read_file", read_file)
    return opened


def composition(share: str) -> str:
    """The table of the one fragrance."""
    header, row = "substance,cas,ec,share,hazards", "Linalool,78-70-6,201-134-4"
    return f"{header}\n{row},{share},Skin Sens. 1B H317\n"


def reader_of(content: Path) -> ReadAgain:
    shelves = ReadingShelves.of_one_run()

    def read() -> Reading:
        reading = read_shop(content, "content", TODAY, shelves)
        for shelf in (shelves.parsed, shelves.digests, shelves.read):
            shelf.end_run()
        return reading

    return read


def an_hour_later(monkeypatch: pytest.MonkeyPatch) -> None:
    later = time.time_ns() + HOUR_NS
    monkeypatch.setattr(time, "time_ns", lambda: later)


def seen(reading: Reading) -> tuple[object, ...]:
    return reading.shop, reading.problems, reading.broken, reading.accepted


def written(content: Path, file: str, old: str, new: str) -> None:
    text = (content / file).read_text(encoding="utf-8")
    assert old in text
    (content / file).write_text(text.replace(old, new), encoding="utf-8")


def test_a_file_that_was_not_written_since_is_not_opened_again(
    content: Path, again: ReadAgain, opened: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    an_hour_later(monkeypatch)
    first = again()
    at_first = len(opened)
    second = again()
    written(content, WICK, "6 mm", "5 mm")
    third = again()

    assert first.shop is not None
    assert first.problems == ()
    assert at_first == len(set(opened)) == sum(path.is_file() for path in content.rglob("*"))
    assert opened[at_first:] == [WICK]
    assert second.shop is first.shop
    assert third.shop is not first.shop


def test_an_edit_that_keeps_size_and_time_is_seen_while_the_file_is_fresh(
    content: Path, again: ReadAgain, monkeypatch: pytest.MonkeyPatch
) -> None:
    state = (content / CANDLE).stat()
    monkeypatch.setattr(gathering, "state_as_text", lambda state: f"{state.st_ino} {state.st_size}")
    first = again()
    text = (content / CANDLE).read_text(encoding="utf-8")
    name = text.partition("scent: ")[2].partition("\n")[0]
    (content / CANDLE).write_text(
        text.replace(f"scent: {name}", f"scent: {'Y' * len(name)}"), encoding="utf-8"
    )
    os.utime(content / CANDLE, ns=(state.st_atime_ns, state.st_mtime_ns))
    second = again()

    assert (content / CANDLE).stat().st_size == state.st_size
    assert first.shop is not None
    assert second.shop is not None
    assert second.shop.candles["tide-table"].scent == "Y" * len(name)


def test_fresh_files_that_say_the_same_are_the_very_same_too(again: ReadAgain) -> None:
    first, second = again(), again()

    assert second.shop is first.shop


def test_a_comment_leaves_the_entry_as_it_was_and_moves_its_places(content: Path, again: ReadAgain) -> None:
    first = again()
    path = (CANDLE, "sizes")
    before = first.places.of(path)
    text = (content / CANDLE).read_text(encoding="utf-8")
    (content / CANDLE).write_text(f"# A remark.\n\n{text}", encoding="utf-8")
    second, third = again(), again()

    assert first.shop is second.shop is third.shop
    assert second.places.of(path) == third.places.of(path) == before._replace(line=before.line + 2)


def test_what_an_edit_does_not_bear_on_is_the_very_same(content: Path, again: ReadAgain) -> None:
    first = again().shop
    shutil.copy(content / CANDLE, content / "candles/second.yaml")
    written(content, "candles/second.yaml", "TT-30", "TT-31")
    second = again().shop
    (content / "candles/second.yaml").unlink()
    third = again().shop

    assert first is not None
    assert second is not None
    assert third is not None
    assert list(second.candles) == ["second", "tide-table"]
    assert second.candles["tide-table"] is first.candles["tide-table"]
    assert second.waxes is first.waxes
    assert (second.lots, second.pages, second.prices) == (first.lots, first.pages, first.prices)
    assert second.lots is first.lots
    assert second.pages is first.pages
    assert list(third.candles) == ["tide-table"]


def test_a_table_is_read_again_though_its_fragrance_is_as_it_was(content: Path, again: ReadAgain) -> None:
    first = again()
    (content / TABLE).write_text(composition("2 %"), encoding="utf-8")
    second, anew = again(), seen(read_shop(content, "content", TODAY))
    (content / TABLE).unlink()
    third = again()

    assert first.shop is not None
    assert second.shop is not None
    assert second.shop.fragrances["sea-salt"] != first.shop.fragrances["sea-salt"]
    assert seen(second) == anew
    assert [problem.what for problem in third.problems] == [
        "there is no table 'sea-salt.csv' beside this entry"
    ]
    assert third.is_broken("fragrance", "sea-salt")


def test_faults_come_and_go_with_the_words_of_a_first_reading(content: Path, again: ReadAgain) -> None:
    sound = again()
    (content / WICK).write_text("name: Braid\ncor: none\nname: x\n", encoding="utf-8")
    at_fault, still = again(), again()
    anew = read_shop(content, "content", TODAY)
    shutil.copy(GOOD / WICK, content / WICK)
    mended = again()

    assert at_fault.problems
    assert seen(at_fault) == seen(still) == seen(anew)
    assert seen(mended) == seen(sound)


def test_warnings_are_accepted_and_told_anew_where_their_lines_move(content: Path, again: ReadAgain) -> None:
    written(content, WICK, "name:", "accepted: {mark: it is so}\nnotes: Loft #4\nname:")
    first = again()
    text = (content / WICK).read_text(encoding="utf-8")
    (content / WICK).write_text(f"\n{text}", encoding="utf-8")
    second = again()

    assert [problem.place.line + 1 for problem in first.problems] == [
        each.place.line for each in second.problems
    ]
    assert first.problems
    assert seen(second) == seen(read_shop(content, "content", TODAY))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_broken_shop_is_told_from_memory_as_it_was_at_first(
    case: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = broken_shop(case, tmp_path)
    an_hour_later(monkeypatch)
    again = reader_of(content)
    anew, first, second = read_shop(content, "content", TODAY), again(), again()

    assert (case / EXPECTED).is_file()
    assert second.shop is first.shop
    assert seen(anew) == seen(first) == seen(second)


def test_a_place_in_a_file_that_is_gone_is_its_start(content: Path, again: ReadAgain) -> None:
    reading = again()
    (content / CANDLE).unlink()

    assert reading.places.of((CANDLE, "sizes")) == Place(f"content/{CANDLE}", 1, 1)


def test_a_candle_whose_entries_are_the_same_has_the_same_records(content: Path, again: ReadAgain) -> None:
    shelf: Remembered[object] = Remembered()

    def gathered() -> dict[str, object]:
        shop = again().shop
        assert shop is not None
        every = {each.recorded.stock_code: each for each in gather(shop, shelf)}
        shelf.end_run()
        assert [each.key for each in gather(shop)] == [each.key for each in every.values()]
        return dict(every)

    shutil.copy(content / CANDLE, content / "candles/second.yaml")
    written(content, "candles/second.yaml", "TT-30", "TT-31")
    first = gathered()
    (content / "candles/second.yaml").write_text(
        (content / "candles/second.yaml").read_text(encoding="utf-8").replace("scent: ", "scent: Old "),
        encoding="utf-8",
    )
    second = gathered()
    written(content, "vessels/tumbler.yaml", "name:", "notes: A new shelf.\nname:")
    third = gathered()
    (content / TABLE).write_text(composition("2 %"), encoding="utf-8")
    fourth = gathered()

    assert list(first) == list(second) == ["TT-31", "TT-30"]
    assert second["TT-30"] is first["TT-30"]
    assert second["TT-31"] != first["TT-31"]
    assert third == second
    assert fourth["TT-30"] != third["TT-30"]
