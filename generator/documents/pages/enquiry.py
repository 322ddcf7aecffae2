"""For shops that have no link yet: what the maker chooses to say of the terms, and how to ask; never a price."""

from generator.document import Document
from generator.documents.frame import ENQUIRY
from generator.documents.house import House
from generator.documents.link_previews import preview_of_house
from generator.documents.terms import chosen_terms


def enquiry_page(house: House) -> Document:
    """The public page on how a shop comes to a price sheet of its own."""
    words, maker = house.words["enquiry"], house.maker
    description = words["description"].format(house=maker.name)
    return Document(
        path=f"site/{ENQUIRY}",
        template="pages/enquiry.html",
        value={
            "path": ENQUIRY,
            "title": words["title"],
            "description": description,
            "preview": preview_of_house(house, ENQUIRY, words["title"], description),
            "lead": words["lead"].format(house=maker.name),
            "ask": words["ask"].format(email=maker.email),
            "email": maker.email,
            "terms": () if house.terms is None else tuple(chosen_terms(house, house.terms)),
        },
    )
