"""What all pages of the site share: the house's name, the navigation, who answers for the candles."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from generator.document import Value
from generator.documents.house import HOME_PAGE, House
from generator.documents.printed import day
from generator.documents.shelves import Standing, shelves
from generator.model.burn_safety import Answerable
from generator.model.maker import Contact, Maker
from generator.model.markets import Market

NOT_FOUND: Final = "404.html"
ROBOTS: Final = "robots.txt"
SITEMAP: Final = "sitemap.xml"
NEWS: Final = "feed.xml"
FIGURES: Final = "figures.html"
GLOSSARY: Final = "glossary.html"
SAFETY: Final = "safety/index.html"
FIND: Final = "find.html"
ENQUIRY: Final = "for-shops.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePage:
    """A page that a site has once: its address, the name of the word that links to it, and which houses have it."""

    path: str
    word: str
    is_there: Callable[[House], bool]


FURTHER: Final = (
    SitePage(path=SAFETY, word="nav_safety", is_there=lambda _house: True),
    SitePage(path=FIND, word="nav_find", is_there=lambda house: bool(house.lots)),
    SitePage(path=ENQUIRY, word="nav_shops", is_there=lambda house: house.terms is not None),
    SitePage(path=FIGURES, word="nav_figures", is_there=lambda _house: True),
    SitePage(path=GLOSSARY, word="nav_glossary", is_there=lambda _house: True),
    SitePage(path=NEWS, word="nav_news", is_there=lambda house: bool(house.maker.web)),
)
"""What every footer links to, in that order."""

RESERVED_PAGES: Final = frozenset(
    path.partition(".")[0]
    for path in (HOME_PAGE, NOT_FOUND, ROBOTS, SITEMAP, *(page.path for page in FURTHER))
    if "/" not in path
)
"""Names that the maker's own pages may not have."""


def frame(house: House) -> Mapping[str, Value]:
    """The value called ``site`` in every template."""
    maker, words = house.maker, house.words
    return {
        "name": maker.name,
        "line": maker.line,
        "language": maker.language,
        "home": HOME_PAGE,
        "nav": tuple(_nav(house)),
        "shelves": tuple(_collections(house)),
        "further": tuple(_further(house)),
        "contacts": tuple(_contacts(maker, words["site"])),
        "as_of": words["site"]["as_of"].format(day=day(house.as_of, words)),
        "draft": words["site"]["draft"] if _shows_a_draft(house) else None,
        "web": maker.web.rstrip("/") if maker.web else None,
        "news": NEWS if maker.web else None,
        "words": words,
    }


def _shows_a_draft(house: House) -> bool:
    return house.drafts and any(sheet.status != "issued" for sheet in house.sheets.values())


def contact(role: str, who: Maker | Contact | Answerable) -> Mapping[str, Value]:
    """Someone who answers for the candles, and in which role."""
    return {"role": role, "name": who.name, "address": who.address, "email": who.email, "phone": who.phone}


def home_market(house: House) -> Market:
    """The market whose units and words come first: the first one the maker names."""
    return house.maker.markets[0]


def collection_path(collection: str) -> str:
    """The address of a collection's page."""
    return f"collections/{collection}.html"


def page_path(page: str) -> str:
    """The address of one of the maker's own pages."""
    return f"{page}.html"


def _nav(house: House) -> list[Mapping[str, Value]]:
    candles = {"name": house.words["site"]["nav_candles"], "path": HOME_PAGE}
    return [candles, *({"name": page.title, "path": page_path(page.id)} for page in house.pages)]


def _collections(house: House) -> list[Mapping[str, Value]]:
    listed = shelves(house, Standing.ON_THE_SHELF)
    return [{"name": shelf.collection.name, "path": collection_path(shelf.id)} for shelf in listed]


def _further(house: House) -> list[Mapping[str, Value]]:
    words = house.words["site"]
    return [{"name": words[page.word], "path": page.path} for page in FURTHER if page.is_there(house)]


def _contacts(maker: Maker, words: Mapping[str, str]) -> list[Mapping[str, Value]]:
    return [
        contact(words["made_by"], maker),
        *(contact(words[f"contact_{market}"], one) for market, one in maker.contacts_by_market().items()),
    ]
