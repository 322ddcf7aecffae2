"""The burn-safety sheets that the site offers to print: every issued revision."""

from collections.abc import Iterator, Mapping

from generator.document import DeferredDocument
from generator.documents.house import House
from generator.documents.papers.printed_sheets import issued_papers
from generator.making.load_shop import Known, places_of_codes
from generator.making.pdf_papers import Pressed, pressed, refusal
from generator.problems import Place, Problem
from generator.writing.output import LazyBytes
from generator.writing.store import Store
from generator.writing.themes import Theme


def offered_papers(house: House) -> Mapping[str, tuple[str, DeferredDocument]]:
    """Every issued revision to print, with its stock code, by path."""
    return {
        paper.path: (size.facts.stock_code, paper)
        for scent in house.scents
        for size in scent.sizes
        for paper in issued_papers(house, size)
    }


def offered_in_pdf(
    house: House, known: Known, theme: Theme, store: Store
) -> tuple[Mapping[str, bytes | LazyBytes], tuple[Problem, ...]]:
    """Every issued revision to print by its path, and what stands in the way of those that cannot be set."""
    offered = offered_papers(house)
    made = pressed((paper for _, paper in offered.values()), theme, store)
    if not made.refused or known.shop is None:
        return made.files, ()
    codes = {path: code for path, (code, _) in offered.items()}
    return {}, tuple(refusals(made, codes, places_of_codes(known.shop, known.places)))


def refusals(made: Pressed, codes: Mapping[str, str], places: Mapping[str, Place]) -> Iterator[Problem]:
    """What stands in the way of each paper that was refused."""
    for refused in made.refused:
        code = codes[refused.path]
        yield refusal(refused, code, places[code])
