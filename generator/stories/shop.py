"""What every command begins with: the entries read, checked and worked out, and every fault in its place."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from generator.documents.pages import text_faults
from generator.documents.previews import address_faults
from generator.facts.facts import Facts
from generator.facts.gather import Gathered, gather
from generator.facts.hazards import is_classified
from generator.facts.remembered import recalled, remembered
from generator.facts.work_out import Worked, work_out
from generator.model.shop import Shop
from generator.problems import Fault, Places, Problem, in_reading_order, is_error
from generator.reading.shop import read_shop
from generator.rules.checks import shop_faults, the_maker
from generator.rules.claims import claim_faults
from generator.rules.references import reference_faults
from generator.writing.program import program_digest
from generator.writing.store import Store, digest


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a command was asked: the folders, the day to speak for, and how to print faults."""

    content: Path
    output: Path
    as_of: date | None
    as_data: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """The shop, its stock codes with their facts, and everything that is wrong with it."""

    shop: Shop | None
    facts: tuple[tuple[Gathered, Facts], ...]
    problems: tuple[Problem, ...]
    places: Places

    @property
    def is_sound(self) -> bool:
        """Whether papers may be made of it."""
        return self.shop is not None and not any(is_error(problem) for problem in self.problems)

    def with_problems(self, more: Iterable[Problem]) -> "Known":
        """The same with more problems."""
        return replace(self, problems=in_reading_order((*self.problems, *more)))


def know(asked: Asked, store: Store) -> Known:
    """Read the entries, hold them against each other, and work out every figure."""
    parsed = store.shelf("parsed")
    reading = read_shop(
        asked.content,
        asked.content.as_posix(),
        lambda source, read: parsed.remember(digest(program_digest(), source), read),
    )
    shop = reading.shop
    if shop is None:
        return Known(shop=None, facts=(), problems=reading.problems, places=reading.places)
    if asked.as_of is not None:
        shop = replace(shop, maker=replace(shop.maker, as_of=asked.as_of))
    faults = [
        *reference_faults(shop, reading.is_broken),
        *shop_faults(shop),
        *address_faults(shop.maker),
        *_text_faults(shop),
    ]
    facts = []
    # Without a currency and a market that are known nothing can be worked out; both are told above.
    for gathered in () if any(is_error(fault) for fault in the_maker(shop)) else gather(shop):
        worked = _worked(gathered, store)
        faults += _at_origins(gathered, worked.faults)
        if worked.facts is not None:
            facts.append((gathered, worked.facts))
    faults += claim_faults(shop, {one.candle for _, one in facts if is_classified(one.hazards)})
    problems = (*reading.problems, *(fault.at(reading.places.of(fault.path)) for fault in faults))
    return Known(shop=shop, facts=tuple(facts), problems=in_reading_order(problems), places=reading.places)


def _text_faults(shop: Shop) -> Iterator[Fault]:
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


def _at_origins(gathered: Gathered, faults: Iterable[Fault]) -> Iterable[Fault]:
    for fault in faults:
        yield Fault(
            path=gathered.origin(fault.path),
            what=fault.what,
            why=fault.why,
            write=fault.write,
            severity=fault.severity,
        )
