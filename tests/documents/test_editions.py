"""A burn-safety sheet is printed with the sentences of the edition in which it was issued."""

from dataclasses import replace

import pytest

from generator.documents.safety_sheet import sheet
from generator.ledgers.standing import SheetState, state_of
from generator.making.presentation import language_pack
from generator.model.burn_safety import EDITION, Sheet, sheet_as_json, sheet_from
from generator.model.ledger import Ledger
from generator.reading.languages import earlier_words_of, languages, words_of
from tests.documents.sample_house import house, issued_of, size

FIRST_LINE = "A burning candle can set a room alight, and hot wax and hot glass burn skin."
"""As the first edition printed it."""


def today() -> Sheet:
    return house(size()).sheets[size().facts.stock_code].value


def stood(edition: int | None, now: Sheet) -> SheetState:
    """How a sheet stands that was issued, and says the same now, in an edition of the words."""
    issued = issued_of(size())
    said = sheet_as_json(replace(issued.value, edition=edition))
    ledger = Ledger(stock_code=issued.value.stock_code, revisions=(replace(issued, said=said),))
    return state_of(now, ledger)


@pytest.mark.parametrize("language", languages())
def test_there_is_an_earlier_edition_for_each_but_the_newest(language: str) -> None:
    assert sorted(earlier_words_of(language)) == list(range(1, EDITION))


@pytest.mark.parametrize("language", languages())
def test_an_earlier_edition_is_filled_in_like_the_newest(language: str) -> None:
    newest = words_of(language)
    for edition in earlier_words_of(language).values():
        assert {subject: set(names) for subject, names in edition.items()} == {
            subject: set(names) for subject, names in newest.items()
        }
    assert all(sheet(replace(today(), edition=number), language_pack(language)) for number in (None, EDITION))


def test_a_sheet_of_the_first_edition_keeps_its_sentences() -> None:
    assert sheet(replace(today(), edition=None), language_pack("en"))["signal_line"] == FIRST_LINE
    assert sheet(replace(today(), edition=EDITION), language_pack("en"))["signal_line"] != FIRST_LINE


def test_the_first_edition_is_stated_nowhere_so_that_fingerprints_stay() -> None:
    assert "edition" not in sheet_as_json(replace(today(), edition=None))
    assert sheet_from(sheet_as_json(replace(today(), edition=EDITION))).edition == EDITION


def test_new_words_alone_change_no_sheet() -> None:
    state = stood(None, replace(today(), edition=EDITION))

    assert state.status == "issued"
    assert state.value.edition is None
    assert state.in_newest_words.status == "changed"
    assert state.in_newest_words.value.edition == EDITION


def test_a_sheet_that_changes_is_printed_in_the_newest_words() -> None:
    state = stood(None, replace(today(), scent="Another", edition=EDITION))

    assert state.status == "changed"
    assert state.value.edition == EDITION
