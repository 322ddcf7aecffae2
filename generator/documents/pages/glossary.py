"""The trade words used on the site, each with its meaning."""

import unicodedata
from collections.abc import Iterator, Mapping

from generator.document import Document, Value
from generator.documents.frame import FIGURES, GLOSSARY
from generator.documents.house import House
from generator.documents.link_previews import site_page


def glossary_page(house: House) -> Document:
    """Every word with its sentence, in alphabetical order."""
    words = house.words["glossary"]
    value: dict[str, Value] = {
        "title": words["title"],
        "description": words["description"],
        "lead": words["lead"],
        "figures": FIGURES,
        "terms": tuple(_terms(house.words["terms"], house.words["meanings"])),
    }
    return site_page(house, GLOSSARY, "pages/glossary.html", value)


def _terms(terms: Mapping[str, str], meanings: Mapping[str, str]) -> Iterator[Mapping[str, Value]]:
    for name in sorted(terms, key=lambda name: _in_the_alphabet(terms[name])):
        yield {"id": name.replace("_", "-"), "name": terms[name], "means": meanings[name]}


def _in_the_alphabet(word: str) -> str:
    """A word as dictionaries sort it: letters with accents among those without."""
    apart = unicodedata.normalize("NFKD", word).casefold()
    return "".join(letter for letter in apart if not unicodedata.combining(letter))
