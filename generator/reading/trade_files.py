"""The trade: terms, buyers and the versions of their links, and the price lists."""

from dataclasses import replace
from typing import Any, Final

from generator.model.trade import Buyer, LinkVersion, PriceRow, Terms
from generator.reading.entries import is_without_id
from generator.reading.gathering import ANY, Gathering
from generator.reading.languages import languages, note_unspoken
from generator.reading.source_file import SourceFile

TRADE: Final = "trade"
TERMS: Final = f"{TRADE}/terms.yaml"
BUYERS: Final = f"{TRADE}/buyers.yaml"
LINKS: Final = f"{TRADE}/links.csv"
PRICES: Final = "prices.csv"


def read_terms(gathering: Gathering) -> Terms | None:
    """The terms of every order; None where there are none, or they have faults."""
    if not gathering.has(TERMS):
        return None
    terms = gathering.read(TERMS, _terms)
    if terms is None:
        gathering.broken.add(("terms", ANY))
    return terms


def read_buyers(gathering: Gathering) -> dict[str, Buyer]:
    """The shops: each key is a buyer's id."""
    buyers = gathering.read(BUYERS, _buyers) if gathering.has(BUYERS) else {}
    if buyers is None:
        gathering.broken.add(("buyer", ANY))
    for id_, buyer in (buyers or {}).items():
        if buyer.language is not None:
            at, why = (BUYERS, id_, "language"), "the buyer's sheet could not be printed"
            note_unspoken(gathering, at, buyer.language, languages(), why)
    return gathering.sound("buyer", (buyers or {}).items())


def read_links(gathering: Gathering) -> tuple[LinkVersion, ...]:
    """Every row of the book of trade links; a row without a seal has only buyer, version and day."""
    return gathering.book("link", LINKS, _links)


def read_prices(gathering: Gathering) -> tuple[PriceRow, ...]:
    """Every price of every list, in the order of the table; none where it has faults."""
    return gathering.book("price", PRICES, SourceFile.table, PriceRow)


def _terms(file: SourceFile) -> Terms | None:
    data = file.yaml()
    return None if data is None else file.valid(Terms, "the terms", (TERMS,), data)


def _buyers(file: SourceFile) -> dict[str, Buyer] | None:
    data = file.yaml()
    if data is None:
        return None
    return file.sound("buyer", ((id_, _buyer(file, id_, written)) for id_, written in data.items()))


def _links(file: SourceFile) -> tuple[LinkVersion, ...] | None:
    rows = file.table(LinkVersion)
    if rows is None:
        return None
    return tuple(row if row.seal else replace(row, name=None, link=None) for row in rows)


def _buyer(file: SourceFile, id_: str, written: Any) -> Buyer | None:
    at = (BUYERS, id_)
    if not file.is_id(file.places.key(at), id_):
        return None
    if not isinstance(written, dict):
        file.note(
            file.places.of(at),
            what=f"buyer '{id_}' has no keys",
            why="the buyer's sheet needs a name, a country and a currency",
            fix=f"{id_}: {{name: ..., country: ..., currency: ...}}",
        )
        return None
    if not is_without_id(file, at, written):
        return None
    return file.valid(Buyer, "a buyer", at, {**written, "id": id_})
