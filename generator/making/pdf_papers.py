"""Papers to PDF on two threads; what cannot be set is reported."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, Final

from generator.document import DeferredDocument, Document
from generator.documents.house import House
from generator.documents.papers.printed_sheets import issued_papers
from generator.making.loaded_shop import LoadedShop
from generator.making.progress import with_progress
from generator.memory import digest
from generator.problems import Place, Problem
from generator.writing.at_work import on_two_threads
from generator.writing.output import PlannedFile
from generator.writing.pdf import Press, Refused, press
from generator.writing.program import program_digest
from generator.writing.templates import page_key
from generator.writing.themes import Theme

_FINENESS_MM: Final = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """Papers by their path below the output folder, and those that were refused."""

    files: Mapping[str, bytes]
    refused: tuple[Refused, ...]


class OfferedPapers:
    """Every issued revision to print. ``problems`` are those of the papers that could not be set."""

    def __init__(self, house: House, loaded: LoadedShop, theme: Theme) -> None:
        self._house = house
        self._loaded = loaded
        self._theme = theme
        self._press: Press | None = None
        self.problems: list[Problem] = []

    def __iter__(self) -> Iterator[PlannedFile]:
        around = digest(self._theme.digest, program_digest())
        for size in self._house.sizes:
            for paper in issued_papers(self._house, size):
                make = partial(self._set, paper, size.facts.stock_code)
                yield PlannedFile(path=paper.path, key=page_key(paper, around), make=make)

    def at_work(self, work: Callable[[Any], Any], papers: Sequence[Any]) -> Iterator[Any]:
        """One press for all of them."""
        with press(self._theme) as self._press:
            yield from on_two_threads(work, papers)

    def _set(self, paper: DeferredDocument[Document], stock_code: str) -> bytes:
        if self._press is None:
            raise TypeError("papers are set at work")
        result = self._press.set(paper.made())
        if isinstance(result, Refused):
            place = self._loaded.places_of_codes[stock_code]
            self.problems.append(problem_of_paper(result, stock_code, place))
            return b""
        return result


def pressed(papers: Iterable[Document], theme: Theme) -> Pressed:
    """Every paper as PDF."""
    papers = tuple(papers)
    if not papers:
        return Pressed(files={}, refused=())
    with press(theme) as machine:
        set_in_type = tuple(with_progress("papers", on_two_threads)(machine.set, papers))
    return Pressed(
        files={paper.path: data for paper, data in set_in_type if not isinstance(data, Refused)},
        refused=tuple(result for _, result in set_in_type if isinstance(result, Refused)),
    )


def problem_of_paper(refused: Refused, stock_code: str, place: Place) -> Problem:
    """Why a stock code's paper was not made, placed at its entry."""
    largest = max(refused.too_large, key=lambda part: part.needs_mm - part.has_mm)
    return Problem(
        place=place,
        what=(
            f"{largest.part} of {stock_code} needs {_tenths(largest.needs_mm)}, but has "
            f"{_tenths(largest.has_mm)}"
        ),
        why="what does not fit would be cut off",
        fix="shorten the texts",
    )


def _tenths(length_mm: float) -> str:
    return f"{round(length_mm / _FINENESS_MM) * _FINENESS_MM:.1f} mm"
