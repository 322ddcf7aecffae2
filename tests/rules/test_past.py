"""The shop as it was on an earlier day."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from generator.making.options import CommandOptions
from generator.model.ledger import Issued, Ledger
from generator.model.sizes import Status
from generator.rules.entries.past import as_it_was, speaking_on
from tests.conftest import EXAMPLE
from tests.loaded import loaded_shop

THEN = date(2026, 8, 15)


@pytest.mark.usefixtures("warm_output")
def test_a_candle_that_was_added_later_was_on_trial_then(ask: Callable[[Path], CommandOptions]) -> None:
    asked = ask(EXAMPLE)
    shop = loaded_shop(asked).shop

    then = speaking_on(shop, THEN)

    later = {id_ for id_, candle in shop.candles.items() if candle.added and candle.added > THEN}
    on_trial = {id_ for id_, candle in then.candles.items() if candle.status is Status.TRIAL}
    assert later
    assert on_trial - {id_ for id_, candle in shop.candles.items() if candle.status is Status.TRIAL} == later
    assert then.as_of == THEN


@pytest.mark.usefixtures("warm_output")
def test_what_was_issued_poured_or_recalled_later_is_not_there_yet(
    ask: Callable[[Path], CommandOptions],
) -> None:
    asked = ask(EXAMPLE)
    shop = loaded_shop(asked).shop
    first = date(2026, 10, 15)
    code, ledger = next(iter(shop.ledgers.items()))
    issued = ledger.revisions[0]
    second = replace(issued, revision=2, on=date(2026, 11, 1))
    longer = replace(shop, ledgers={**shop.ledgers, code: _of(ledger, issued, second)})

    assert as_it_was(longer, first).ledgers[code].present.revision == 1
    assert as_it_was(longer, second.on).ledgers[code].present.revision == 2
    assert as_it_was(longer, THEN).ledgers == {}
    assert as_it_was(shop, first).lots == ()
    assert as_it_was(shop, THEN).recalls == {}


def _of(ledger: Ledger, *revisions: Issued) -> Ledger:
    return replace(ledger, revisions=revisions)
