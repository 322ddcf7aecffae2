"""A shop's journey: entries are read, worked out, written up and laid out."""

import gc
import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict, replace
from pathlib import Path
from time import monotonic

from generator.documents.frame import frame
from generator.documents.pages.preview_cards import card_file, cards
from generator.documents.published import as_published, for_everybody
from generator.facts.fragrance_loads import FragranceLoads, loads_of
from generator.facts.remembered import recalled_loads, remembered_loads
from generator.making.change_of_sheets import changes_told, not_in_force
from generator.making.html_pages import printed, published
from generator.making.load_shop import load_sound_shop
from generator.making.loaded_shop import SoundShop
from generator.making.options import CommandOptions
from generator.making.pages import pages_of
from generator.making.pdf_papers import offered_in_pdf
from generator.making.pictures import developed, preview_pictures
from generator.making.progress import each_counted
from generator.making.report import LOG, Built
from generator.making.sealing import links_awaited, sealed_pages_of
from generator.model.materials import Fragrance
from generator.model.shop import Shop
from generator.problems import Problem
from generator.writing.output import LazyBytes, lay_out
from generator.writing.program import library_versions, program_digest
from generator.writing.store import Store, digest


class Timings:
    """How long each part of a build took, in seconds by the name of the part."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}

    @contextmanager
    def of(self, part: str) -> Iterator[None]:
        """Whatever is done within counts as this part."""
        started = monotonic()
        yield
        self.seconds[part] = self.seconds.get(part, 0.0) + monotonic() - started

    @property
    def total(self) -> float:
        """All parts together."""
        return sum(self.seconds.values())


def whole_journey(options: CommandOptions) -> Built:
    """The journey of a shop from its entries to its files, whatever was done before."""
    gc.disable()  # Nothing here is made in circles, and looking for them costs a tenth of the time (measured).
    try:
        return _built(options)
    finally:
        gc.enable()


def _built(options: CommandOptions) -> Built:
    timings = Timings()
    with timings.of("entries"):
        sound = load_sound_shop(options)
    if not isinstance(sound, SoundShop):
        return Built(problems=sound, laid=None, seconds=timings.total)
    loaded, store = sound.loaded, sound.loaded.store
    if options.issued_only and (refused := not_in_force(loaded)):
        return Built(problems=loaded.with_problems(refused).problems, laid=None, seconds=timings.total)
    with timings.of("pictures"):
        photos = developed(loaded.shop, options.content, store)
    with timings.of("loads"):
        loads = loads_by_fragrance(loaded.shop, store)
    house = replace(sound.house, photos=photos.renditions, loads=loads, drafts=options.drafts)
    made = _made(replace(sound, house=house), timings)
    if not isinstance(made, Mapping):
        return Built(problems=(*loaded.problems, *made), laid=None, seconds=timings.total)
    files = {**photos.files, **made}
    with timings.of("files"):
        files[LOG] = _log(store, files, timings)
        laid = lay_out(options.output, files, ours=_ours(options.output))
        store.save()
    told = (*changes_told(house, loaded), *links_awaited(loaded))
    return Built(problems=loaded.problems, laid=laid, seconds=timings.total, changes=told)


def loads_by_fragrance(shop: Shop, store: Store) -> Mapping[str, FragranceLoads]:
    """The loads at which each fragrance changes a label, by its id in the order of the shop."""
    fragrances = each_counted("fragrances", shop.fragrances.items(), len(shop.fragrances))
    return {id_: _loads(shop, fragrance, store) for id_, fragrance in fragrances}


def _loads(shop: Shop, fragrance: Fragrance, store: Store) -> FragranceLoads:
    of = (fragrance, shop.maker.markets, shop.maker.as_of)
    key = digest(program_digest(), repr(of))
    return recalled_loads(store.shelf("loads").remember(key, lambda: remembered_loads(loads_of(*of))))


def _made(sound: SoundShop, timings: Timings) -> Mapping[str, bytes | LazyBytes] | tuple[Problem, ...]:
    """Every file of the site and the workshop but the photos, or what papers cannot be printed."""
    house, loaded, theme = sound.house, sound.loaded, sound.presentation.theme
    with timings.of("pictures"):
        pictured = cards(for_everybody(as_published(house)))
        pictures = preview_pictures(pictured, loaded.store)
    with timings.of("pages"):
        house = replace(house, cards={page: card_file(page) for page in pictured})
        pages = printed(pages_of(house, loaded), frame(for_everybody(house)), theme, loaded.store)
    with timings.of("papers"):
        papers, refused = offered_in_pdf(house, loaded, theme)
    if refused:
        return refused
    with timings.of("price sheets"):
        sheets = sealed_pages_of(house, loaded, sound.presentation)
    return {**pictures, **published(theme), **pages, **papers, **sheets}


def _ours(output: Path) -> tuple[str, ...]:
    """The log of an earlier build, which is never the same twice; another's file of that name is left alone."""
    try:
        log = json.loads((output / LOG).read_bytes())
    except (OSError, ValueError, RecursionError):
        return ()
    return (LOG,) if isinstance(log, dict) and log.keys() >= {"versions", "files", "store", "seconds"} else ()


def _log(store: Store, files: Mapping[str, bytes | LazyBytes], timings: Timings) -> bytes:
    """``build.json``: the libraries, what came from the store and what was made anew, how long each part took."""
    log = {
        "versions": library_versions(),
        "files": len(files),
        "store": {name: asdict(counts) for name, counts in store.counts().items()},
        "seconds": {part: round(seconds, 3) for part, seconds in timings.seconds.items()},
    }
    return (json.dumps(log, indent=2, sort_keys=True) + "\n").encode()
