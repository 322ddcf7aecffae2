"""Documents set with the theme that ships, as the house's own papers are."""

from collections.abc import Iterable

from generator.document import Document
from generator.writing.pdf import Refused, press
from generator.writing.themes import Theme
from tests.documents.sample_house import ROOT

NETLOFT = Theme(name="netloft", folders=(ROOT / "themes" / "netloft",))


def set_all(documents: Iterable[Document]) -> list[bytes | Refused]:
    """Each as PDF, or why it was refused."""
    with press(NETLOFT) as machine:
        return [machine.set(document) for document in documents]


def set_one(document: Document) -> bytes:
    """One paper, which is not refused."""
    (data,) = set_all([document])
    assert isinstance(data, bytes), data
    return data
