"""The shop as it was on an earlier day: without what was issued, poured, recalled or added later."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from generator.model.candle import Candle
from generator.model.ledger import Ledger
from generator.model.shop import Shop
from generator.model.sizes import Status


def speaking_on(shop: Shop, day: date) -> Shop:
    """The shop as of another day; a candle that was added later is still on trial then."""
    candles = {id_: _on_trial(candle, day) for id_, candle in shop.candles.items()}
    return replace(shop, as_of=day, candles=candles)


def as_it_was(shop: Shop, day: date) -> Shop:
    """Without the revisions, lots and recalls after the day; only for papers, never for records."""
    return replace(
        shop,
        ledgers=_issued_by(shop.ledgers, day),
        lots=tuple(lot for lot in shop.lots if lot.poured_on <= day),
        recalls={id_: recall for id_, recall in shop.recalls.items() if recall.on <= day},
    )


def _on_trial(candle: Candle, day: date) -> Candle:
    if candle.added is None or candle.added <= day:
        return candle
    sizes = tuple(replace(size, status=None) for size in candle.sizes)
    return replace(candle, status=Status.TRIAL, sizes=sizes)


def _issued_by(ledgers: Mapping[str, Ledger], day: date) -> Mapping[str, Ledger]:
    then = {
        code: tuple(revision for revision in ledger.revisions if revision.on <= day)
        for code, ledger in ledgers.items()
    }
    return {
        code: replace(ledgers[code], revisions=revisions) for code, revisions in then.items() if revisions
    }
