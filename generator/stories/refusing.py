"""Which of several stock codes keeps a paper on all of them from being made."""

from collections.abc import Iterable, Iterator, Mapping

from generator.document import Document
from generator.problems import Place, Problem
from generator.stories.pressing import refusal
from generator.writing.pdf import Refused, press
from generator.writing.themes import Theme


def refusals_of_each(
    papers: Mapping[str, Iterable[Document]], theme: Theme, places: Mapping[str, Place]
) -> Iterator[Problem]:
    """What is wrong with each stock code whose own paper would be refused; of its two sizes of paper one tells all."""
    with press(theme) as machine:
        for code, (paper, *_others) in papers.items():
            result = machine.set(paper)
            if isinstance(result, Refused):
                yield refusal(result, code, places[code])
