"""The bench's burn-test sheet, to fill in by hand while candles burn; its columns are those of the table."""

from collections.abc import Iterator
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House, SizeOf, Words
from generator.documents.papers.workshop_papers import workshop_papers
from generator.documents.printed import at_least, millimetres, number

_TEMPLATE: Final = "papers/bench_test.typ"
PIECES: Final = ("A", "B", "C")
"""The number of pieces that an unreserved figure takes (physics.md D3, CHOICE)."""

SESSIONS: Final = 11
"""Rows on a piece's page; a candle that burns longer takes a second sheet (CHOICE)."""

BENCH_COLUMNS: Final = (
    "session", "hours", "before_g", "after_g", "outcome", "flame_mm", "pool_mm", "full_pool_h", "vessel_max_c",
    "soot", "trimmed", "note",
)  # fmt: skip
"""What is recorded of a session, in the order of the table."""

_WORDS: Final = (
    "private",
    "tested_on",
    "tested_by",
    "room",
    "scale_used",
    "piece_name",
    "test_cautions",
    "outcomes",
)


def bench_papers(house: House, size: SizeOf) -> Iterator[Document]:
    """The sheet of one stock code on each size of paper."""
    words, code = house.words["bench"], size.facts.stock_code
    value: dict[str, Value] = {
        "title": words["test_title"].format(stock_code=code),
        "name": f"{size.recorded.scent}, {size.recorded.size_name}",
        "as_made": tuple(_as_made(size, house.words)),
        "limits": tuple(_limits(size, house.words)),
        "cautions": tuple(house.words["burn_test_cautions"].values()),
        "columns": tuple(house.words["burn_test_columns"][name] for name in BENCH_COLUMNS),
        "pieces": PIECES,
        "rows": tuple(str(row) for row in range(1, SESSIONS + 1)),
    }
    return workshop_papers(house, code, _TEMPLATE, _WORDS, value)


def _as_made(size: SizeOf, words: Words) -> Iterator[str]:
    yield size.object_name
    for use in size.recorded.build.wicks:
        trim = words["bench"]["trim_to"].format(trim=millimetres(use.wick.trim_mm, words))
        yield words["bench"]["piece"].format(count=use.count, name=use.wick.name) + trim
    if size.recorded.build.cure_h is not None:
        yield words["bench"]["cure"].format(days=number(f"{size.recorded.build.cure_h / 24:g}", words))


def _limits(size: SizeOf, words: Words) -> Iterator[str]:
    facts = size.facts
    if facts.session_limit_h is not None:
        yield words["bench"]["test_session"].format(hours=number(f"{facts.session_limit_h:g}", words))
    if facts.stop_depth_mm is not None:
        yield words["bench"]["test_stop"].format(depth=at_least(facts.stop_depth_mm))
