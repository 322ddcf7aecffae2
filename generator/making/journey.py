"""A shop's journey: entries are read, worked out, written up and laid out."""

import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict, replace
from datetime import date
from pathlib import Path
from time import monotonic

from generator.documents.frame import frame
from generator.documents.input_keys import InputKeys
from generator.documents.published import as_published, for_everybody
from generator.facts.fragrance_loads import FragranceLoads, loads_of
from generator.making.change_of_sheets import changes_told, not_in_force
from generator.making.html_pages import printed, published
from generator.making.load_shop import load_sound_shop
from generator.making.loaded_shop import SoundShop
from generator.making.options import CommandOptions
from generator.making.pages import Pages
from generator.making.pdf_papers import OfferedPapers
from generator.making.pictures import cards_of, developed, preview_pictures
from generator.making.progress import each_counted, with_progress
from generator.making.remembered import LOADS
from generator.making.report import LOG, Built
from generator.making.sealing import links_awaited, sealed_pages_of
from generator.memory import Counts
from generator.model.materials import Fragrance
from generator.model.shop import Shop
from generator.problems import in_reading_order
from generator.writing.at_work import in_two_processes, one_by_one
from generator.writing.output import Layout, ready_file
from generator.writing.program import library_versions, program_digest
from generator.writing.store import Store


class Timings:
    """How long each part of a build took, in seconds by the name of the part."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}

    @contextmanager
    def of(self, part: str) -> Iterator[None]:
        """Everything done within counts as this part."""
        started = monotonic()
        yield
        self.seconds[part] = self.seconds.get(part, 0.0) + monotonic() - started

    @property
    def total(self) -> float:
        """All parts together."""
        return sum(self.seconds.values())


def whole_journey(options: CommandOptions, store: Store) -> Built:
    """The journey of a shop from its entries to its files; the store remembers what was made before.

    Only a journey that came to its end tells what need not be remembered any more.
    """
    with Layout(options.output) as layout:
        built = _built(options, store, layout)
    if built.laid is not None:
        store.end_run()
    return built


def _built(options: CommandOptions, store: Store, layout: Layout) -> Built:
    timings, counts = Timings(), {}
    with timings.of("entries"):
        sound = load_sound_shop(options, store)
    if not isinstance(sound, SoundShop):
        return Built(problems=sound, laid=None, seconds=timings.total)
    loaded, theme = sound.loaded, sound.presentation.theme
    if options.issued_only and (refused := not_in_force(loaded)):
        return Built(problems=loaded.with_problems(refused).problems, laid=None, seconds=timings.total)
    with timings.of("loads"):
        loads = loads_by_fragrance(loaded.shop, store)
    with timings.of("pictures"):
        photos = developed(loaded.shop, options.content, store, layout)
        house = replace(sound.house, photos=photos, loads=loads, drafts=options.drafts)
        public = for_everybody(as_published(house))
        pictures = preview_pictures(public, InputKeys(store.shelf("inputs")))
        counts["cards"] = layout.add(pictures, with_progress("pictures", in_two_processes))
        house = replace(house, cards=cards_of(public))
    with timings.of("pages"):
        layout.add(published(theme))
        pages = printed(Pages(house, loaded), frame(for_everybody(house)), theme)
        counts["pages"] = layout.add(pages, with_progress("pages", in_two_processes))
    with timings.of("papers"):
        papers = OfferedPapers(house, loaded, theme)
        counts["papers"] = layout.add(papers, with_progress("papers", papers.at_work))
    if papers.problems:
        return Built(
            problems=(*loaded.problems, *in_reading_order(papers.problems)), laid=None, seconds=timings.total
        )
    with timings.of("price sheets"):
        sheets = sealed_pages_of(house, loaded, sound.presentation)
        counts["price sheets"] = layout.add(sheets, with_progress("price sheets", one_by_one))
    with timings.of("files"):
        layout.add([ready_file(LOG, _log(house.as_of, {**store.counts(), **counts}, timings))])
        laid = layout.finish(ours=_ours(options.output))
    told = (*changes_told(house, loaded), *links_awaited(loaded))
    return Built(problems=loaded.problems, laid=laid, seconds=timings.total, changes=told)


def loads_by_fragrance(shop: Shop, store: Store) -> Mapping[str, FragranceLoads]:
    """The loads at which each fragrance changes a label, by its id in the order of the shop."""
    fragrances = each_counted("fragrances", shop.fragrances.items(), len(shop.fragrances))
    keys = InputKeys(store.shelf("inputs"))
    return {id_: _loads(shop, fragrance, store, keys) for id_, fragrance in fragrances}


def _loads(shop: Shop, fragrance: Fragrance, store: Store, keys: InputKeys) -> FragranceLoads:
    of = (fragrance, shop.maker.markets, shop.as_of)
    said = (program_digest(), *map(keys.of, of))
    return store.shelf("loads", LOADS).remember(said, lambda: loads_of(*of))


def _ours(output: Path) -> tuple[str, ...]:
    """The log of an earlier build, never the same twice; a file of that name that is not ours is left alone."""
    try:
        log = json.loads((output / LOG).read_bytes())
    except (OSError, ValueError, RecursionError):
        return ()
    return (LOG,) if isinstance(log, dict) and log.keys() >= {"versions", "seconds"} else ()


def _log(as_of: date, counts: Mapping[str, Counts], timings: Timings) -> bytes:
    """``build.json``: the day, the libraries, what was known and what was made, and how long each part took."""
    log = {
        "as_of": as_of.isoformat(),
        "versions": library_versions(),
        "made": {name: asdict(count) for name, count in counts.items()},
        "seconds": {part: round(seconds, 3) for part, seconds in timings.seconds.items()},
    }
    return (json.dumps(log, indent=2, sort_keys=True) + "\n").encode()
