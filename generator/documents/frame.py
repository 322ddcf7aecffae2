"""What all pages of the site share: the house's name, the ways through the site, who answers for the candles."""

from collections.abc import Mapping

from generator.document import Value
from generator.documents.house import House
from generator.documents.printed import day
from generator.documents.shelves import Standing, shelves
from generator.model.maker import Contact, Maker
from generator.model.markets import Market

HOME: str = "index.html"
FIGURES: str = "figures.html"
GLOSSARY: str = "glossary.html"
SAFETY: str = "safety/index.html"
NEWS: str = "feed.xml"
FIND: str = "find.html"
ENQUIRY: str = "for-shops.html"


def frame(house: House) -> Mapping[str, Value]:
    """The value called ``site`` in every template."""
    maker, words = house.maker, house.words
    return {
        "name": maker.name,
        "line": maker.line,
        "language": maker.language,
        "home": HOME,
        "nav": tuple(_nav(house)),
        "shelves": tuple(_collections(house)),
        "further": tuple(_further(house)),
        "contacts": tuple(_contacts(maker, words["site"])),
        "as_of": words["site"]["as_of"].format(day=day(house.as_of, words)),
        "draft": words["site"]["draft"] if house.drafts and _any_draft(house) else None,
        "web": maker.web.rstrip("/") if maker.web else None,
        "news": NEWS if maker.web else None,
        "words": words,
    }


def _any_draft(house: House) -> bool:
    return any(sheet.status != "issued" for sheet in house.sheets.values())


def home_market(house: House) -> Market:
    """The market whose units and words stand first: the first one the maker names."""
    return house.maker.markets[0]


def collection_path(collection: str) -> str:
    """The address of a collection's page."""
    return f"collections/{collection}.html"


def page_path(page: str) -> str:
    """The address of a page of the maker's own."""
    return f"{page}.html"


def _nav(house: House) -> list[Mapping[str, Value]]:
    candles = {"name": house.words["site"]["nav_candles"], "path": HOME}
    return [candles, *({"name": page.title, "path": page_path(page.id)} for page in house.pages)]


def _collections(house: House) -> list[Mapping[str, Value]]:
    listed = shelves(house, Standing.ON_THE_SHELF)
    return [{"name": shelf.collection.name, "path": collection_path(shelf.id)} for shelf in listed]


def _further(house: House) -> list[Mapping[str, Value]]:
    words = house.words["site"]
    news = [{"name": words["nav_news"], "path": NEWS}] if house.maker.web else []
    find = [{"name": words["nav_find"], "path": FIND}] if house.lots else []
    shops = [{"name": words["nav_shops"], "path": ENQUIRY}] if house.terms else []
    return [
        {"name": words["nav_safety"], "path": SAFETY},
        *find,
        *shops,
        {"name": words["nav_figures"], "path": FIGURES},
        {"name": words["nav_glossary"], "path": GLOSSARY},
        *news,
    ]


def _contacts(maker: Maker, words: Mapping[str, str]) -> list[Mapping[str, Value]]:
    own = Contact(name=maker.name, address=maker.address, email=maker.email, phone=maker.phone)
    return [
        _contact(words["made_by"], own),
        *(_contact(words[f"contact_{market}"], one) for market, one in maker.contacts_by_market().items()),
    ]


def _contact(role: str, contact: Contact) -> Mapping[str, Value]:
    return {
        "role": role,
        "name": contact.name,
        "address": contact.address,
        "email": contact.email,
        "phone": contact.phone,
    }
