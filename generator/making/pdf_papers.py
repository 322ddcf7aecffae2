"""Papers to PDF on two threads, each set once and remembered by all it depends on; what cannot be set is told."""

from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from typing import Final

from generator.document import DeferredDocument, Document
from generator.documents.house import House
from generator.documents.papers.printed_sheets import issued_papers
from generator.making.loaded_shop import LoadedShop
from generator.making.progress import Progress
from generator.problems import Place, Problem
from generator.writing.output import LazyBytes
from generator.writing.pdf import Refused, press
from generator.writing.program import program_digest
from generator.writing.store import Store, digest
from generator.writing.templates import page_key
from generator.writing.themes import Theme, theme_digest

THREADS: Final = 2
"""The typesetter lets go of Python's lock, so that two of them work side by side. (CHOICE)"""

_FINENESS_MM: Final = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """Papers by their path below the output folder, and those that were refused."""

    files: Mapping[str, bytes | LazyBytes]
    refused: tuple[Refused, ...]


def offered_papers(house: House) -> Mapping[str, tuple[str, DeferredDocument]]:
    """Every issued revision to print, with its stock code, by path."""
    return {
        paper.path: (size.facts.stock_code, paper)
        for size in house.sizes
        for paper in issued_papers(house, size)
    }


def offered_in_pdf(
    house: House, loaded: LoadedShop, theme: Theme
) -> tuple[Mapping[str, bytes | LazyBytes], tuple[Problem, ...]]:
    """Every issued revision to print by its path, and what stands in the way of those that cannot be set."""
    offered = offered_papers(house)
    made = pressed((paper for _, paper in offered.values()), theme, loaded.store)
    if not made.refused:
        return made.files, ()
    codes = ((refused, offered[refused.path][0]) for refused in made.refused)
    return {}, tuple(problem_of_paper(refused, code, loaded.places_of_codes[code]) for refused, code in codes)


def pressed(papers: Iterable[Document | DeferredDocument], theme: Theme, store: Store) -> Pressed:
    """Every paper as PDF; one that an earlier run set is not set again."""
    shelf, around = store.large("papers"), digest(theme_digest(theme), program_digest())
    files: dict[str, bytes | LazyBytes] = {}
    unset: dict[str, Document | DeferredDocument] = {}
    for paper in papers:
        key = page_key(paper, around)
        known = shelf.known(key, partial(_set_again, paper, theme))
        if known is None:
            unset[key] = paper
        else:
            files[paper.path] = known
    refused = []
    for (key, paper), result in zip(unset.items(), _set_in_type(unset.values(), theme), strict=True):
        if isinstance(result, Refused):
            refused.append(result)
        else:
            shelf.put(key, result)
            files[paper.path] = result
    return Pressed(files=files, refused=tuple(refused))


def problem_of_paper(refused: Refused, stock_code: str, place: Place) -> Problem:
    """Why the paper of a stock code was not made, at the entry that it is made from."""
    largest = max(refused.too_large, key=lambda part: part.needs_mm - part.has_mm)
    return Problem(
        place=place,
        what=f"{largest.part} of {stock_code} needs {_tenths(largest.needs_mm)} and has {_tenths(largest.has_mm)}",
        why="what does not fit would be cut off",
        write="shorter texts",
    )


def _tenths(length_mm: float) -> str:
    return f"{round(length_mm / _FINENESS_MM) * _FINENESS_MM:.1f} mm"


def _set_in_type(papers: Iterable[Document | DeferredDocument], theme: Theme) -> Iterator[bytes | Refused]:
    """Each paper, in the order asked for."""
    papers = tuple(papers)
    if not papers:
        return
    progress = Progress("papers", len(papers))
    with press(theme) as machine, ThreadPoolExecutor(THREADS) as threads:
        for result in threads.map(lambda paper: machine.set(paper.made()), papers):
            progress.step()
            yield result
    progress.end()


def _set_again(paper: Document | DeferredDocument, theme: Theme) -> bytes:
    """A paper that was set before and whose bytes are lost."""
    with press(theme) as machine:
        result = machine.set(paper.made())
    if isinstance(result, Refused):
        raise TypeError(f"{paper.path} was set before and is refused now")
    return result
