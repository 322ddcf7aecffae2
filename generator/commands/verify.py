"""``issue --verify``: every fingerprint and every issued page worked out again and compared with what is there."""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from generator.document import DeferredDocument, Document, Value
from generator.documents.frame import frame
from generator.documents.pages.safety import issued_pages
from generator.making.html_pages import rendered
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop, SoundShop, sound_shop
from generator.making.options import AT_FAULT, CommandOptions
from generator.making.progress import each_counted
from generator.making.release import SITE
from generator.making.report import report_faults, report_problems
from generator.problems import Place, Problem, is_error
from generator.rules.entries.ledger_checks import faults_within
from generator.rules.entries.publish_plan import withdrawn
from generator.writing.templates import Templates


def run(options: CommandOptions) -> int:
    """Exit code 0 when every issued sheet is as it was issued, 1 with the differences."""
    loaded = load_shop(options)
    anew = tuple(_faults_found_anew(loaded)) if isinstance(loaded, LoadedShop) else ()
    sound = sound_shop(loaded)
    if not isinstance(sound, SoundShop) or anew:
        errors = dict.fromkeys((*loaded.errors, *anew))
        return report_faults(options, errors, "issued sheets have been altered, or cannot be checked")
    house = sound.house
    papers = [paper for size in house.sizes for paper in issued_pages(house, size)]
    templates = Templates(sound.presentation.theme)
    compared = each_counted("pages compared", papers, len(papers))
    differences = tuple(_differences(compared, templates, frame(house), options.output))
    unlisted = tuple(_unlisted(papers, options))
    revisions = sum(len(ledger.revisions) for ledger in sound.shop.ledgers.values())
    pages = revisions - len(differences)
    report_problems(
        (*differences, *unlisted),
        as_json=options.as_data,
        then=f"{revisions} of {revisions} fingerprints and {pages} of {revisions} pages are as issued",
    )
    return AT_FAULT if differences or unlisted else 0


def _faults_found_anew(loaded: LoadedShop) -> Iterator[Problem]:
    """What is wrong with the ledgers, whatever an earlier build remembers of them."""
    ledgers = loaded.shop.ledgers
    for ledger in each_counted("lists of revisions checked", ledgers.values(), len(ledgers)):
        for fault in filter(is_error, faults_within(ledger)):
            yield fault.at(loaded.places.of(fault.path))


def _differences(
    papers: Iterable[DeferredDocument[Document]],
    templates: Templates,
    site: Mapping[str, Value],
    output: Path,
) -> Iterator[Problem]:
    """Every issued page that is missing from OUTPUT, or that says something else there."""
    for paper in papers:
        page = output / paper.path
        if not page.is_file():
            yield _not_as_issued(page, "the page of an issued sheet is missing", "wickwright build")
        elif page.read_bytes() != rendered(paper, templates, site):
            yield _not_as_issued(page, "the page differs from what was issued", "wickwright build")


def _unlisted(papers: Iterable[DeferredDocument[Document]], options: CommandOptions) -> Iterator[Problem]:
    """Every issued page in OUTPUT whose revision is in no list any more."""
    site = options.output / "site"
    there = (page.relative_to(site).as_posix() for page in site.glob("safety/*.html"))
    for page in withdrawn((paper.path.removeprefix(SITE) for paper in papers), there):
        yield _not_as_issued(
            site / page,
            f"the page was issued, but no file in {options.content.as_posix()}/sheets records it",
            "restore that file from version control or a backup before you build",
        )


def _not_as_issued(page: Path, what: str, fix: str) -> Problem:
    return Problem(
        place=Place(page.as_posix(), 1, 1),
        what=what,
        why="customers find the sheet for their candle at this address",
        fix=fix,
    )
