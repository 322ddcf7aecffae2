"""A shop's journey: entries are read, worked out, written up and laid out."""

import gc
import json
from collections.abc import Mapping
from dataclasses import asdict, replace
from pathlib import Path

from generator.documents.frame import frame
from generator.documents.house import House
from generator.documents.pages.preview_cards import card_file, cards
from generator.documents.published import as_published, for_everybody
from generator.making.change_of_sheets import changes_told, not_in_force
from generator.making.html_pages import printed, published
from generator.making.load_shop import Known, know
from generator.making.loads import loads_by_fragrance
from generator.making.offered_sheets import offered_in_pdf
from generator.making.options import CommandOptions
from generator.making.papers import house_of, papers_of
from generator.making.pictures import developed, drawn
from generator.making.presentation import Presentation
from generator.making.reporting import LOG, Built
from generator.making.sealing import sealed_sheets
from generator.making.shop_links import links_awaited
from generator.making.timings import Timings
from generator.problems import Problem
from generator.writing.output import LazyBytes, lay_out
from generator.writing.program import library_versions
from generator.writing.store import Store


def whole_journey(asked: CommandOptions) -> Built:
    """The journey of a shop from its entries to its files, whatever was done before."""
    gc.disable()  # Nothing here is made in circles, and looking for them costs a tenth of the time (measured).
    try:
        return _built(asked)
    finally:
        gc.enable()


def _built(asked: CommandOptions) -> Built:
    timings, store = Timings(), Store(asked.output / ".store")
    with timings.of("entries"):
        known = know(asked, store).as_it_was(asked.as_of)
    shop, presentation = known.shop, known.presentation
    refused = not_in_force(known) if asked.issued_only and known.is_sound else ()
    if shop is None or presentation is None or not known.is_sound or refused:
        return Built(problems=known.with_problems(refused).problems, laid=None, seconds=timings.total)
    with timings.of("pictures"):
        photos = developed(shop, asked.content, store)
    house = replace(house_of(shop, known, photos, presentation.language_packs), drafts=asked.drafts)
    with timings.of("loads"):
        house = replace(house, loads=loads_by_fragrance(shop, store))
    made = _made(house, known, presentation, store, timings)
    if not isinstance(made, Mapping):
        return Built(problems=(*known.problems, *made), laid=None, seconds=timings.total)
    files = {**photos.files, **made}
    with timings.of("files"):
        laid = lay_out(asked.output, {**files, LOG: _log(store, files, timings)}, ours=_ours(asked.output))
        store.save()
    told = (*changes_told(house, known), *links_awaited(known))
    return Built(problems=known.problems, laid=laid, seconds=timings.total, changes=told)


def _made(
    house: House, known: Known, presentation: Presentation, store: Store, timings: Timings
) -> Mapping[str, bytes | LazyBytes] | tuple[Problem, ...]:
    """Every file of the site and the workshop but the photos, or what papers cannot be printed."""
    with timings.of("pictures"):
        pictured = cards(for_everybody(as_published(house)))
        pictures = drawn(pictured, store)
    with timings.of("pages"):
        house = replace(house, cards={page: card_file(page) for page in pictured})
        pages = printed(papers_of(house, known), frame(for_everybody(house)), presentation.theme, store)
    with timings.of("papers"):
        papers, refused = offered_in_pdf(house, known, presentation.theme, store)
    if refused:
        return refused
    with timings.of("price sheets"):
        sheets = sealed_sheets(house, known, presentation, store)
    return {**pictures, **published(presentation.theme), **pages, **papers, **sheets}


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
