"""For shops that have no link yet: the terms the maker chooses to show, and how to ask; never a price."""

from generator.document import Document, Value
from generator.documents.frame import ENQUIRY
from generator.documents.house import House
from generator.documents.link_previews import site_page
from generator.documents.terms import chosen_terms


def enquiry_page(house: House) -> Document:
    """The public page on how a shop gets its own price sheet."""
    words, maker = house.words["enquiry"], house.maker
    value: dict[str, Value] = {
        "title": words["title"],
        "description": words["description"].format(house=maker.name),
        "lead": words["lead"].format(house=maker.name),
        "ask": words["ask"].format(email=maker.email),
        "email": maker.email,
        "terms": () if house.terms is None else tuple(chosen_terms(house, house.terms)),
    }
    return site_page(house, ENQUIRY, "pages/enquiry.html", value)
