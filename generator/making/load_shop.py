"""What every command begins with: the entries read, checked and worked out, every fault with its place."""

import os
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from generator.documents.frame import RESERVED_PAGES
from generator.documents.link_previews import address_faults
from generator.documents.pages.markdown_pages import text_faults
from generator.facts.facts import Facts
from generator.facts.gather import Gathered, gather
from generator.facts.hazard_facts import is_classified
from generator.facts.notification_checks import notification_faults
from generator.facts.plausible import doubts
from generator.facts.work_out import Worked, work_out
from generator.making.beside import dead_links_of, problems_beside
from generator.making.loaded_shop import LoadedShop, SoundShop, UnreadableShop, sound_shop
from generator.making.lot_hazards import lots_of_other_hazards
from generator.making.one_writer import entries_at_rest
from generator.making.options import CommandOptions
from generator.making.presentation import presentation_of
from generator.making.progress import Progress, each_counted
from generator.making.remembered import WORKED
from generator.memory import Remembered
from generator.model.ledger import Ledger
from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.problems import Fault, Path, Problem, is_error
from generator.reading.gathering import ANY
from generator.reading.languages import claim_words
from generator.reading.read_shop import Reading, read_shop
from generator.reading.shop_secret import exposed, read_secret
from generator.reading.source_file import ReadingShelves
from generator.rules.entries.acceptance import settled, unneeded
from generator.rules.entries.checks import shop_faults
from generator.rules.entries.claims import claim_faults
from generator.rules.entries.ledger_checks import faults_within, ledger_faults
from generator.rules.entries.link_checks import book_faults, holder_faults
from generator.rules.entries.lot_checks import lot_faults
from generator.rules.entries.maker_checks import the_maker
from generator.rules.entries.past import speaking_on
from generator.rules.entries.recall_checks import recall_faults
from generator.rules.entries.taken_names import colliding_pages
from generator.rules.labels.stock_checks import label_stock_faults
from generator.rules.references import reference_faults
from generator.rules.trade.price_lists import price_list_faults
from generator.rules.trade.trade_checks import trade_faults
from generator.writing.program import program_digest
from generator.writing.store import AS_IT_IS, Store

_FactsAndFaults = tuple[tuple[tuple[Gathered, Facts], ...], tuple[Fault, ...]]


def worked_out(shop: Shop, store: Store) -> Iterator[tuple[Gathered, Worked]]:
    """Every stock code whose entries exist, its faults placed where they are written."""
    # Without a known currency and market nothing can be worked out; the shop's checks report both.
    if any(map(is_error, the_maker(shop))):
        return
    for gathered in gather(shop, store.shelf_of_runs("gathered")):
        worked = _worked(gathered, store)
        faults = tuple(replace(fault, path=gathered.origin(fault.path)) for fault in worked.faults)
        yield gathered, replace(worked, faults=faults)


def remembering_ledgers(store: Store) -> Callable[[Ledger], tuple[Fault, ...]]:
    """A check for faults in a ledger, skipped if this program found none before in the same file."""
    shelf = _sound_ledgers(store)

    def faults_of(ledger: Ledger) -> tuple[Fault, ...]:
        found: list[Fault] = []

        def looked_through() -> bytes:
            found.extend(faults_within(ledger))
            return b"at fault" if found else b""

        said = shelf.remember((program_digest(), ledger.stock_code, ledger.source), looked_through)
        return tuple(found or faults_within(ledger)) if said else ()

    return faults_of


def _sound_ledgers(store: Store) -> Remembered[bytes]:
    return store.shelf("sound ledgers", AS_IT_IS)


def text_faults_of(shop: Shop) -> Iterator[Fault]:
    """What is wrong with the maker's own texts."""
    for id_, page in shop.pages.items():
        yield from text_faults((f"pages/{id_}.md",), page.markdown)
    for id_, candle in shop.candles.items():
        if candle.description:
            yield from text_faults((f"candles/{id_}.yaml", "description"), candle.description)


def _worked(gathered: Gathered, store: Store) -> Worked:
    recorded = gathered.recorded
    shelf = store.shelf("facts", WORKED)
    return shelf.remember((program_digest(), gathered.key), lambda: work_out(recorded))


def load_shop(options: CommandOptions, store: Store | None = None) -> LoadedShop | UnreadableShop:
    """Read the entries, work out every figure, and gather every fault: a shop without errors can be built.

    Without a ``store``, what earlier builds kept is used, and nothing is kept of this run.
    """
    store = store or store_of(options, saves=False)
    with entries_at_rest(options.content):
        reading = _read(options, store)
        shop, places = reading.shop, reading.places
        if shop is None:
            return UnreadableShop(problems=reading.problems, places=places)
        if options.as_of is not None:
            shop = speaking_on(shop, options.as_of)
        secret, exposures = _secret_of(options, shop, reading)
    today = options.as_of is None
    facts, faults = _facts_and_faults(shop, reading, store, today=today)
    presentation = presentation_of(options.content, shop, places, store.shelf_of_runs("language packs"))
    loaded = LoadedShop(
        shop=shop,
        facts=facts,
        problems=placed(reading, faults, today=today),
        places=places,
        store=store,
        presentation=None if isinstance(presentation, Problem) else presentation,
        secret=secret,
    )
    loaded = loaded.with_problems(
        (*exposures, *problems_beside(options.content, shop, places, presentation, store))
    )
    return loaded.with_problems((*lots_of_other_hazards(loaded), *dead_links_of(loaded)))


def _facts_and_faults(shop: Shop, reading: Reading, store: Store, *, today: bool) -> _FactsAndFaults:
    """Of the very same shop they are not looked for again, and what they were made with stays known."""
    shelf: Remembered[_FactsAndFaults] = store.shelf_of_runs("facts and faults")
    return shelf.remember_whole(
        (shop, repr(sorted(reading.broken)), str(today)),
        lambda: _found(shop, reading, store, today=today),
        (
            store.shelf_of_runs("gathered"),
            store.shelf("facts", WORKED),
            store.shelf("moved from notified"),
            _sound_ledgers(store),
        ),
    )


def _found(shop: Shop, reading: Reading, store: Store, *, today: bool) -> _FactsAndFaults:
    codes = sum(len(candle.sizes) for candle in shop.candles.values())
    worked = tuple(each_counted("stock codes worked out", worked_out(shop, store), codes))
    facts = tuple((gathered, one.facts) for gathered, one in worked if one.facts is not None)
    faults = (
        *_faults_of_entries(shop, reading, store),
        *(fault for _, one in worked for fault in one.faults),
        *claim_faults(shop, {one.candle for _, one in facts if is_classified(one.hazards)}, claim_words()),
        *notification_faults(shop, facts, store.shelf("moved from notified")),
        *doubts(shop, facts, today=today),
    )
    return facts, faults


def _read(options: CommandOptions, store: Store) -> Reading:
    """Every entry as it is written; what was read before in the same bytes is not read again."""
    content = options.content
    files = sum(name.endswith((".yaml", ".csv", ".md")) for _, _, names in os.walk(content) for name in names)
    progress = Progress("files read", files)
    shelves = ReadingShelves(
        program=program_digest(),
        parsed=store.shelf("parsed", AS_IT_IS),
        digests=store.shelf("digests of files"),
        read=store.shelf("read files"),
        step=progress.step,
    )
    reading = read_shop(content, content.as_posix(), options.today, shelves)
    progress.end()
    return reading


def _faults_of_entries(shop: Shop, reading: Reading, store: Store) -> Iterator[Fault]:
    """Where entries contradict each other."""
    yield from reference_faults(shop, reading.is_broken)
    yield from shop_faults(shop)
    yield from colliding_pages(shop, RESERVED_PAGES)
    yield from ledger_faults(shop, reading.is_broken, remembering_ledgers(store))
    yield from lot_faults(shop, reading.is_broken)
    yield from label_stock_faults(shop)
    yield from recall_faults(shop, reading.is_broken)
    yield from trade_faults(shop, reading.is_broken)
    yield from price_list_faults(shop, reading.is_broken)
    yield from address_faults(shop.maker)
    yield from text_faults_of(shop)


def placed(reading: Reading, faults: Iterable[Fault], *, today: bool) -> tuple[Problem, ...]:
    """Every fault with its place, warnings with the reasons for which they were accepted.

    An acceptance that is no longer needed is reported only where the shop is sound and as of its own day: only then
    is every warning present.
    """
    places = reading.places
    told: list[tuple[Path, Problem]] = [
        ((problem.place.file.removeprefix(f"{places.shown_as}/"),), problem) for problem in reading.problems
    ]
    told += [(fault.path, fault.at(places.of(fault.path))) for fault in faults]
    problems = [settled(problem, path, reading.accepted, places) for path, problem in told]
    if today and not any(map(is_error, problems)):
        problems += [fault.at(places.key(fault.path)) for fault in unneeded(reading.accepted, told)]
    return tuple(problems)


def _secret_of(
    options: CommandOptions, shop: Shop, reading: Reading
) -> tuple[ShopSecret | None, tuple[Problem, ...]]:
    """The secret if there is one that may be used, and everything that would leak a key or bring back an ended link."""
    shown_as = reading.places.shown_as
    secret = read_secret(options.content, shown_as, len(shop.links))
    exposures = tuple(exposed(options.content, shown_as, options.output))
    if isinstance(secret, Problem):
        return None, (*exposures, secret)
    return secret, (*exposures, *(() if secret is None else _link_faults(shop, secret, reading)))


def _link_faults(shop: Shop, secret: ShopSecret, reading: Reading) -> Iterator[Problem]:
    if not reading.is_broken("link", ANY):
        for fault in (*book_faults(shop.links, secret), *holder_faults(shop, reading.is_broken)):
            yield fault.at(reading.places.of(fault.path))


def store_of(options: CommandOptions, *, saves: bool) -> Store:
    """What earlier builds into this output kept."""
    return Store(options.output / ".store", saves=saves)


def load_sound_shop(options: CommandOptions, store: Store | None = None) -> SoundShop | tuple[Problem, ...]:
    """The shop as of the day asked for, or its problems if one of them is an error."""
    loaded = load_shop(options, store)
    return sound_shop(loaded.as_it_was(options.as_of) if isinstance(loaded, LoadedShop) else loaded)
