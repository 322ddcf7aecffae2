"""Find your candle: from the lot code on a label to the sheet of its revision, without a list of lots.

Each lot has a page whose name is the SHA-256 of the house's salt and the code. Nothing on the site lists these
pages: without a code one must guess it and send a request for each guess. The salt is public on the page, as it must
be on a site without a server: it only keeps the names of two houses apart.
"""

from collections.abc import Iterator, Mapping
from hashlib import sha256
from itertools import groupby
from typing import Final

from generator.document import Document, Value
from generator.documents.frame import FIND, SAFETY
from generator.documents.house import House, SizeOf
from generator.documents.link_previews import site_page
from generator.documents.pages.recall_notices import notices, notices_of_lot
from generator.documents.safety_sheet import names_of
from generator.documents.shelves import public_sizes
from generator.model.ledger import sheet_address
from generator.model.lots import Lot, plain_code
from generator.model.maker import Maker

LOT_PAGES: Final = "lots/"
_SALT_DIGITS: Final = 16


def find_page(house: House) -> Document:
    """The page that takes a lot code."""
    words = house.words["find"]
    value: dict[str, Value] = {
        "title": words["title"],
        "description": words["description"],
        "recalls": notices(house),
        "salt": salt_of(house.maker),
        "lots": LOT_PAGES,
        "sheets": SAFETY,
        "unknown": words["unknown"].format(email=house.maker.email),
    }
    return site_page(house, FIND, "pages/find.html", value)


def findable_lots(house: House) -> Iterator[tuple[Lot, House]]:
    """The lots that have a page, each with the house about its candle only.

    A trial's lot has none until a sheet or a recall names it, because the page would name the trial.
    """
    scents = {size.facts.stock_code: scent for scent in house.scents for size in scent.sizes}
    for code, lots in groupby(sorted(house.lots, key=_code_of), key=_code_of):
        scent = scents.get(code)
        about = house.about(*(() if scent is None else (scent.in_size(code),)), stock_codes=(code,))
        is_trial = scent is not None and not public_sizes(about.scents[0])
        for lot in lots:
            if not is_trial or lot.sheet_revision is not None or notices_of_lot(about, lot):
                yield lot, about


def _code_of(lot: Lot) -> str:
    return lot.stock_code


def lot_path(maker: Maker, code: str) -> str:
    """The address of a lot's page from the site's root."""
    return f"{LOT_PAGES}{sha256(f'{salt_of(maker)}{plain_code(code)}'.encode()).hexdigest()}.html"


def salt_of(maker: Maker) -> str:
    """The salt of a house, the same on every build."""
    return sha256(f"{maker.name}\n{maker.web}".encode()).hexdigest()[:_SALT_DIGITS]


def lot_page(house: House, lot: Lot) -> Document:
    """The page that a lot's code leads to; it says nothing of the lot except which sheet applies."""
    size = next((size for scent in house.scents for size in public_sizes(scent)), None)
    recalls = notices_of_lot(house, lot)
    return Document(
        path=f"site/{lot_path(house.maker, lot.lot)}",
        template="pages/lot.html",
        value={
            "title": house.words["find"]["lot_title"],
            "recalls": recalls,
            "goes_on": not recalls and lot.sheet_revision is not None,
            **_leading(house, lot, size),
        },
    )


def _leading(house: House, lot: Lot, size: SizeOf | None) -> Mapping[str, Value]:
    """Where the page leads, and in which words: its revision, or the nearest there is."""
    words, name = house.words["find"], _name(house, lot, size)
    if lot.sheet_revision is not None:
        told = words["lot_sheet"].format(candle=name, revision=lot.sheet_revision)
        return {
            "told": told,
            "to": sheet_address(lot.stock_code, lot.sheet_revision),
            "link": words["to_sheet"],
        }
    told = words["lot_draft"].format(candle=name, email=house.maker.email)
    if size is None:
        return {"told": told, "to": SAFETY, "link": words["to_list"]}
    return {"told": told, "to": size.facts.safety_path, "link": words["to_page"]}


def _name(house: House, lot: Lot, size: SizeOf | None) -> str:
    """The candle's name on the lot's own sheet, as on its label, else today's name."""
    words, state = house.words["find"]["candle"], house.sheets.get(lot.stock_code)
    issued = None if state is None else state.revision(lot.sheet_revision)
    if issued is not None:
        return words.format(**names_of(issued.value))
    if size is None:
        return lot.stock_code
    return words.format(scent=size.recorded.scent, size=size.recorded.size_name)
