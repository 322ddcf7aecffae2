"""The trade: terms, buyers and the versions of their links, and the price lists."""

from dataclasses import replace
from typing import Any, Final

from generator.model.trade import Buyer, LinkVersion, PriceRow, Terms
from generator.reading.entries import is_without_id
from generator.reading.gathering import ANY, Gathering
from generator.reading.languages import languages, note_unspoken

TRADE: Final = "trade"
TERMS: Final = f"{TRADE}/terms.yaml"
BUYERS: Final = f"{TRADE}/buyers.yaml"
LINKS: Final = f"{TRADE}/links.csv"
PRICES: Final = "prices.csv"


def read_terms(gathering: Gathering) -> Terms | None:
    """What every order goes by; None where nothing is written down, or it is at fault."""
    if not gathering.has(TERMS):
        return None
    data = gathering.yaml(TERMS)
    terms = None if data is None else gathering.valid(Terms, "the terms", (TERMS,), data)
    if terms is None:
        gathering.broken.add(("terms", ANY))
    return terms


def read_buyers(gathering: Gathering) -> dict[str, Buyer]:
    """The shops: each key is a buyer's id."""
    data = gathering.yaml(BUYERS) if gathering.has(BUYERS) else {}
    if data is None:
        gathering.broken.add(("buyer", ANY))
        return {}
    return gathering.sound("buyer", ((id_, _buyer(gathering, id_, written)) for id_, written in data.items()))


def read_links(gathering: Gathering) -> tuple[LinkVersion, ...]:
    """Every row of the book of trade links; a row without a seal says nothing but buyer, version and day."""
    rows = gathering.book("link", LINKS, LinkVersion)
    return tuple(row if row.seal else replace(row, name=None, link=None) for row in rows)


def read_prices(gathering: Gathering) -> tuple[PriceRow, ...]:
    """Every price of every list, in the order of the table; none where it is at fault."""
    return gathering.book("price", PRICES, PriceRow)


def _buyer(gathering: Gathering, id_: str, written: Any) -> Buyer | None:
    at = (BUYERS, id_)
    if not gathering.is_id(gathering.places.key(at), id_):
        return None
    if not isinstance(written, dict):
        gathering.note(
            gathering.places.of(at),
            what=f"buyer '{id_}' has no keys of its own",
            why="its sheet needs a name, a country and a currency",
            write=f"{id_}: {{name: ..., country: ..., currency: ...}}",
        )
        return None
    if not is_without_id(gathering, at, written):
        return None
    buyer = gathering.valid(Buyer, "a buyer", at, {**written, "id": id_})
    if buyer is not None and buyer.language is not None:
        why = "the buyer's sheet could not be printed"
        note_unspoken(gathering, (*at, "language"), buyer.language, languages(), why)
    return buyer
