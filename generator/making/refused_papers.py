"""Which of several stock codes keeps a paper on all of them from being made."""

from collections.abc import Iterable, Iterator, Mapping

from generator.document import Document
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import Ready
from generator.making.load_shop import places_of_codes
from generator.making.options import CommandOptions
from generator.making.pdf_papers import refusal
from generator.making.report import tell
from generator.problems import Problem
from generator.writing.pdf import Refused, press


def tell_refusals(
    asked: CommandOptions, shop: Ready, papers: Mapping[str, Iterable[Document]], *, then: str
) -> int:
    """Tell what is wrong with each stock code whose own paper would be refused, and end at fault."""
    tell(tuple(_refusals_of_each(shop, papers)), as_json=asked.as_data, then=then)
    return AT_FAULT


def _refusals_of_each(shop: Ready, papers: Mapping[str, Iterable[Document]]) -> Iterator[Problem]:
    """Of a stock code's two sizes of paper one tells all."""
    places = places_of_codes(shop.shop, shop.known.places)
    with press(shop.presentation.theme) as machine:
        for code, (paper, *_others) in papers.items():
            result = machine.set(paper)
            if isinstance(result, Refused):
                yield refusal(result, code, places[code])
