"""What workshop papers share: whose they are, the day, the words of the bench, and each paper size."""

from collections.abc import Iterable, Iterator, Mapping

from generator.document import Document, Value
from generator.documents.house import House
from generator.documents.pages.safety import PAPER_SIZES
from generator.documents.printed import day


def workshop_papers(
    house: House, name: str, template: str, words: Iterable[str], value: Mapping[str, Value]
) -> Iterator[Document]:
    """One paper on each paper size; ``words`` names the sentences of the bench that it prints unchanged."""
    around: dict[str, Value] = {
        "house": house.maker.name,
        "language": house.maker.language,
        "dated": house.as_of.isoformat(),
        "day": day(house.as_of, house.words),
        "words": {word: house.words["bench"][word] for word in words},
    }
    for paper in PAPER_SIZES:
        path = f"{name}-{paper}.pdf"
        yield Document(path=path, template=template, value={**around, **value, "paper": paper})
