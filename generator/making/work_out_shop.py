"""Every stock code worked out, each from what the store remembers where its record has not changed."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from generator.documents.pages.markdown_pages import text_faults
from generator.facts.facts import Facts
from generator.facts.gather import Gathered, gather
from generator.facts.remembered import recalled, remembered
from generator.facts.work_out import Worked, work_out
from generator.model.ledger import Ledger
from generator.model.shop import Shop
from generator.problems import Fault, is_error
from generator.rules.entries.ledger_checks import faults_within
from generator.rules.entries.maker_checks import the_maker
from generator.writing.program import program_digest
from generator.writing.store import Store, digest


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut:
    """One stock code: its record, its facts where nothing stands in the way, its faults where they are written."""

    gathered: Gathered
    facts: Facts | None
    faults: tuple[Fault, ...]


def worked_out(shop: Shop, store: Store) -> Iterator[WorkedOut]:
    """Every stock code whose entries are there."""
    # Without a currency and a market that are known nothing can be worked out; both are told by the shop's checks.
    for gathered in () if any(is_error(fault) for fault in the_maker(shop)) else gather(shop):
        worked = _worked(gathered, store)
        faults = tuple(replace(fault, path=gathered.origin(fault.path)) for fault in worked.faults)
        yield WorkedOut(gathered=gathered, facts=worked.facts, faults=faults)


def remembering_ledgers(store: Store) -> Callable[[Ledger], tuple[Fault, ...]]:
    """How to find the faults of a ledger, unless this program found none before in the same file."""
    shelf = store.shelf("ledgers")

    def faults_of(ledger: Ledger) -> tuple[Fault, ...]:
        key = digest(program_digest(), ledger.stock_code, ledger.source)
        if shelf.get(key) is not None:
            return ()
        faults = tuple(faults_within(ledger))
        if not faults:
            shelf.put(key, b"")
        return faults

    return faults_of


def text_faults_of(shop: Shop) -> Iterator[Fault]:
    """What is wrong with the maker's own words."""
    for id_, page in shop.pages.items():
        yield from text_faults((f"pages/{id_}.md",), page.markdown)
    for id_, candle in shop.candles.items():
        if candle.description:
            yield from text_faults((f"candles/{id_}.yaml", "description"), candle.description)


def _worked(gathered: Gathered, store: Store) -> Worked:
    shelf, key = store.shelf("facts"), digest(program_digest(), repr(gathered.recorded))
    stored = shelf.get(key)
    if stored is not None:
        return recalled(stored)
    worked = work_out(gathered.recorded)
    shelf.put(key, remembered(worked))
    return worked
