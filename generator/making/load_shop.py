"""What every command begins with: the entries read, checked and worked out, and every fault in its place."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from generator.documents.link_previews import address_faults
from generator.facts.facts import Facts
from generator.facts.gather import Gathered
from generator.facts.hazard_facts import is_classified
from generator.facts.plausible import doubts
from generator.ledgers.sheet import sheet_value
from generator.ledgers.standing import SheetState, state_of
from generator.making.accepting import placed
from generator.making.beside import problems_beside
from generator.making.dead_links import dead_links_of
from generator.making.guarding import guarded
from generator.making.lot_hazards import lots_of_other_hazards
from generator.making.one_writer import entries_at_rest
from generator.making.options import CommandOptions
from generator.making.presentation import Presentation, presentation_of
from generator.making.work_out_shop import remembering_ledgers, text_faults_of, worked_out
from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.problems import Place, Places, Problem, in_reading_order, is_error
from generator.reading.read_shop import read_shop
from generator.rules.entries.checks import shop_faults
from generator.rules.entries.claims import claim_faults
from generator.rules.entries.ledger_checks import ledger_faults
from generator.rules.entries.lot_checks import lot_faults
from generator.rules.entries.past import as_it_was, speaking_on
from generator.rules.entries.recall_checks import recall_faults
from generator.rules.labels.stock_checks import label_stock_faults
from generator.rules.references import reference_faults
from generator.rules.trade.price_lists import price_list_faults
from generator.rules.trade.trade_checks import trade_faults
from generator.writing.program import program_digest
from generator.writing.store import Store, digest


@dataclass(frozen=True, kw_only=True)
class Known:
    """The shop, its stock codes with their facts, what it is printed with, and everything that is wrong with it.

    ``secret`` is what the keys of trade links are made from; None until somebody asks for a link.
    """

    shop: Shop | None
    facts: tuple[tuple[Gathered, Facts], ...]
    problems: tuple[Problem, ...]
    places: Places
    presentation: Presentation | None = None
    secret: ShopSecret | None = None

    @cached_property
    def sheets(self) -> Mapping[str, SheetState]:
        """Every burn-safety sheet by stock code, and how it stands to what was issued."""
        if self.shop is None:
            return {}
        maker, ledgers = self.shop.maker, self.shop.ledgers
        return {
            facts.stock_code: state_of(
                sheet_value(gathered.recorded, facts, maker), ledgers.get(facts.stock_code)
            )
            for gathered, facts in self.facts
        }

    @property
    def is_sound(self) -> bool:
        """Whether papers may be made of it."""
        return self.shop is not None and not any(is_error(problem) for problem in self.problems)

    def as_it_was(self, day: date | None) -> "Known":
        """What its papers said on the day that was asked for: nothing that was issued, poured or recalled after it."""
        return self if self.shop is None or day is None else replace(self, shop=as_it_was(self.shop, day))

    def with_problems(self, more: Iterable[Problem]) -> "Known":
        """The same with more problems."""
        return replace(self, problems=in_reading_order((*self.problems, *more)))


def know(asked: CommandOptions, store: Store) -> Known:
    """Read the entries, work out every figure, and gather every fault: a sound shop can be built and printed."""
    parsed = store.shelf("parsed")
    with entries_at_rest(asked.content):
        reading = read_shop(
            asked.content,
            asked.content.as_posix(),
            lambda source, read: parsed.remember(digest(program_digest(), source), read),
        )
        shop = reading.shop
        if shop is None:
            return Known(shop=None, facts=(), problems=reading.problems, places=reading.places)
        if asked.as_of is not None:
            shop = speaking_on(shop, asked.as_of)
        secret, told = guarded(asked, shop, reading)
    faults = [
        *reference_faults(shop, reading.is_broken),
        *shop_faults(shop),
        *ledger_faults(shop, reading.is_broken, remembering_ledgers(store)),
        *lot_faults(shop, reading.is_broken),
        *label_stock_faults(shop),
        *recall_faults(shop, reading.is_broken),
        *trade_faults(shop, reading.is_broken),
        *price_list_faults(shop, reading.is_broken),
        *address_faults(shop.maker),
        *text_faults_of(shop),
    ]
    worked = tuple(worked_out(shop, store))
    facts = tuple((one.gathered, one.facts) for one in worked if one.facts is not None)
    faults += (fault for one in worked for fault in one.faults)
    faults += claim_faults(shop, {one.candle for _, one in facts if is_classified(one.hazards)})
    faults += doubts(shop, facts, today=asked.as_of is None)
    places = reading.places
    problems = placed(reading, faults, today=asked.as_of is None)
    known = Known(shop=shop, facts=facts, problems=problems, places=places)
    presentation = presentation_of(asked.content, shop, places)
    known = replace(
        known, secret=secret, presentation=None if isinstance(presentation, Problem) else presentation
    )
    known = known.with_problems((*told, *problems_beside(asked, shop, places, presentation, store)))
    return known.with_problems((*lots_of_other_hazards(known), *dead_links_of(known)))


def places_of_codes(shop: Shop, places: Places) -> Mapping[str, Place]:
    """Where every stock code is written."""
    return {
        size.stock_code: places.of((f"candles/{id_}.yaml", "sizes", number, "stock_code"))
        for id_, candle in shop.candles.items()
        for number, size in enumerate(candle.sizes)
    }
