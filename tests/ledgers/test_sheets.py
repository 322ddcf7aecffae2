"""Appending a revision: every byte before it is kept, and what is written is read back as it was."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.ledgers.append_revision import sealed_revision, with_revision
from generator.model.canonical import canonical, fingerprint_of, parsed
from generator.model.ledger import Issued, Ledger
from generator.reading.gathering import Gathering
from generator.reading.issued_sheets import read_ledgers
from tests.documents.sample_house import issued_of, size

SAID = {"scent": "Slate & Samphire: no. 1", "vessel": {"name": "30 cl tumbler"}, "signs": ["trim", "no"]}
SHEET = parsed(issued_of(size()).said)
"""What a whole sheet says."""


def issued(revision: int = 1, value: object = SAID) -> Issued:
    said = canonical(value)  # type: ignore[arg-type]  # hypothesis gives its values no better type
    draft = Issued(
        revision=revision, on=date(2026, 10, 15), reason="first: issue", said=said,
        fingerprint=fingerprint_of(said), recorded=said, seal="",
    )  # fmt: skip
    return sealed_revision(draft, None)


def read_back(folder: Path, ledger_file: bytes) -> Ledger:
    (folder / "sheets").mkdir(exist_ok=True)
    (folder / "sheets" / "SS-30.yaml").write_bytes(ledger_file)
    gathering = Gathering(folder, "content", None)
    ledger = read_ledgers(gathering)["SS-30"]
    assert gathering.problems == []
    return ledger


def test_a_ledger_begins_by_saying_what_it_is() -> None:
    assert with_revision(b"", "SS-30", issued()).startswith(
        b"# The issued burn-safety sheets of SS-30, written by"
    )


def test_a_revision_is_plain_lines_that_anybody_can_read() -> None:
    lines = with_revision(b"", "SS-30", issued()).decode().splitlines()[2:15]

    assert lines == [
        "revisions:", "- revision: 1", "  on: 2026-10-15", '  reason: "first: issue"',
        f"  fingerprint: {issued().fingerprint}", "  value:", '    scent: "Slate & Samphire: no. 1"', "    signs:",
        "    - trim", "    - no", "    vessel:", "      name: 30 cl tumbler", "  record:",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "before",
    [b"# mine\r\nrevisions:\r\n", b"revisions:\n# no end", b"\xef\xbb\xbfrevisions:\n"],
    ids=["CRLF", "no line end", "a mark"],
)
def test_every_byte_that_stood_there_is_kept(before: bytes) -> None:
    assert with_revision(before, "SS-30", issued()).startswith(before)


def test_a_second_revision_stands_behind_the_first(tmp_path: Path) -> None:
    one = issued(value=SHEET)
    ledger = Ledger(stock_code="SS-30", revisions=(one,))
    two = sealed_revision(replace(issued(2, SHEET), seal=""), ledger)

    first = with_revision(b"", "SS-30", one)

    assert read_back(tmp_path, with_revision(first, "SS-30", two)).revisions == (one, two)


TEXTS = st.text(
    st.characters(
        min_codepoint=32,
        max_codepoint=0x2FF,
        exclude_characters="\x7f\x80\x85",
        exclude_categories=["Cc", "Cs"],
    ),
    min_size=1,
    max_size=12,
)
VALUES = st.recursive(
    TEXTS
    | st.sampled_from(
        ["null", "~", "no", "12:30", "1e3", "- a", "# b", "a: b", "'", '"', " lead", "{", "*x"]
    ),
    lambda below: (
        st.lists(below, min_size=1, max_size=3) | st.dictionaries(TEXTS, below, min_size=1, max_size=3)
    ),
    max_leaves=6,
)


@given(value=st.dictionaries(TEXTS, VALUES, min_size=1, max_size=3))
@settings(max_examples=60)
def test_any_text_is_read_back_as_it_was(value: object, tmp_path_factory: pytest.TempPathFactory) -> None:
    one = issued(value={**SHEET, "more": value})

    assert read_back(tmp_path_factory.mktemp("ledger"), with_revision(b"", "SS-30", one)).present == one
