"""Recall notices: a page for each, and the few lines that lead to it wherever a buyer may look.

Article 36 of Regulation (EU) 2023/988 asks for a notice headed "Product safety recall" with a description of the
product, the hazard, what to do (beginning with: stop using it), the remedy, whom to ask, and the wish to pass it on,
in words that do not play the risk down (MEMORY).
"""

import re
from collections.abc import Iterable, Mapping
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House, Recalled, Scent, SizeOf
from generator.documents.link_previews import site_page
from generator.documents.outlines import outline_of
from generator.documents.printed import day, listed
from generator.documents.safety_sheet import names_of
from generator.drawing.drawings import Caption, shelf, standing_height_mm
from generator.model.lots import Lot, Recall, plain_code

_ADDRESS: Final = re.compile(r"[^\s@,;<>]+@[^\s@,;<>]+\.\w+")
"""A contact that is only an e-mail address."""


def recalled(recalls: Iterable[Recall], lots: Iterable[Lot]) -> tuple[Recalled, ...]:
    """Each recall with the lots it reaches, latest first."""
    poured = tuple(lots)
    latest_first = sorted(recalls, key=lambda one: (-one.on.toordinal(), one.id))
    return tuple(_reaching(one, poured) for one in latest_first)


def notices(house: House, stock_code: str | None = None) -> tuple[Mapping[str, Value], ...]:
    """The recalls in a few lines each: all, or those that reach a stock code."""
    return tuple(
        _notice(house, one, [stock_code] if stock_code else sorted(one.stock_codes))
        for one in house.recalls
        if stock_code is None or stock_code in one.stock_codes
    )


def notices_of_lot(house: House, lot: Lot) -> tuple[Mapping[str, Value], ...]:
    """The recalls that reach a lot."""
    return tuple(_notice(house, one, [lot.stock_code]) for one in house.recalls if lot in one.lots)


def _reaching(notice: Recall, poured: tuple[Lot, ...]) -> Recalled:
    named = frozenset(plain_code(code) for code in notice.lots)
    lots = tuple(
        lot for lot in poured if plain_code(lot.lot) in named or lot.stock_code in notice.stock_codes
    )
    stock_codes = frozenset((*notice.stock_codes, *(lot.stock_code for lot in lots)))
    return Recalled(notice=notice, lots=lots, stock_codes=stock_codes)


def _notice(house: House, one: Recalled, stock_codes: Iterable[str]) -> Mapping[str, Value]:
    words = house.words["recall"]
    return {
        "heading": words["heading"],
        "products": tuple(
            {"name": _name(house, code), "lots": _lots(house, one, code)} for code in stock_codes
        ),
        "stop": words["stop"],
        "path": recall_path(one.notice),
        "more": words["more"],
    }


def recall_page(house: House, one: Recalled) -> Document:
    """The page of one notice, with the candles it names."""
    words, notice = house.words["recall"], one.notice
    names = dict.fromkeys(_name(house, code) for code in sorted(one.stock_codes))
    value: dict[str, Value] = {
        "title": words["title"].format(products=listed(names, house.words)),
        "description": notice.hazard,
        "dated": words["dated"].format(day=day(notice.on, house.words)),
        "products": tuple(_product(house, one, code) for code in sorted(one.stock_codes)),
        "sold": notice.sold,
        "hazard": notice.hazard,
        "steps": (words["stop"], *notice.what_to_do),
        "remedy": notice.remedy,
        "contact": notice.contact,
        "contact_address": f"mailto:{notice.contact}" if _ADDRESS.fullmatch(notice.contact) else None,
    }
    return site_page(house, recall_path(notice), "pages/recall.html", value)


def _product(house: House, one: Recalled, stock_code: str) -> Mapping[str, Value]:
    found = _found(house, stock_code)
    return {
        "name": _name(house, stock_code),
        "lots": _lots(house, one, stock_code),
        "drawing": None if found is None else _drawing(house, *found),
    }


def _lots(house: House, one: Recalled, stock_code: str) -> str:
    words = house.words["recall"]
    if stock_code in one.notice.stock_codes:
        return words["every_lot"]
    codes = [lot.lot for lot in one.lots if lot.stock_code == stock_code]
    return words["lot" if len(codes) == 1 else "lots"].format(lots=listed(codes, house.words))


def _name(house: House, stock_code: str) -> str:
    """The candle as its buyer knows it: an own label is in no catalogue, but its sheet names it."""
    found, sheet = _found(house, stock_code), house.sheets.get(stock_code)
    words = house.words["recall"]["product"]
    if found is not None:
        recorded = found[1].recorded
        return words.format(scent=recorded.scent, size=recorded.size_name, stock_code=stock_code)
    if sheet is not None and sheet.issued is not None:
        return words.format(**names_of(sheet.issued.value))
    return stock_code


def _found(house: House, stock_code: str) -> tuple[Scent, SizeOf] | None:
    sizes = ((scent, size) for scent in house.scents for size in scent.sizes)
    return next(((scent, size) for scent, size in sizes if size.facts.stock_code == stock_code), None)


def _drawing(house: House, scent: Scent, size: SizeOf) -> str:
    outline = outline_of(size, scent.candle, house.speech.materials)
    caption = Caption(name=f"recalled-{size.facts.stock_code}-", title=size.object_name)
    return shelf((outline,), caption, standing_height_mm((outline,)))


def recall_path(notice: Recall) -> str:
    """The address of a notice's page from the site's root."""
    return f"recalls/{notice.id}.html"
