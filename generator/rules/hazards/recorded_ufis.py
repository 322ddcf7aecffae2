"""The UFI of each stock code, what is recorded with it, and who notifies."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from generator.model.candle import Candle
from generator.model.countries import EEA_COUNTRIES, in_northern_ireland
from generator.model.maker import Maker
from generator.model.notified import MadeUfi, Notified
from generator.model.sheet_values import ShareRange
from generator.model.shop import Shop
from generator.model.sizes import Size


@dataclass(frozen=True, slots=True, kw_only=True)
class UfiOfCode:
    """The UFI of a stock code and what is recorded with it; ``made`` is its row, where it was made here."""

    ufi: str
    notified: Notified | None
    made: MadeUfi | None

    @property
    def shares(self) -> Mapping[str, ShareRange]:
        """What it is held to: the shares it was notified with, else those it was made for; none where nobody knows."""
        if self.notified is not None and self.notified.shares:
            return self.notified.shares
        return self.made.by_key if self.made else {}


def made_by_ufi(shop: Shop) -> Mapping[str, MadeUfi]:
    """The rows of the book of UFIs."""
    return {row.ufi: row for row in shop.made_ufis}


def ufi_of_size(made: Mapping[str, MadeUfi], candle: Candle, size: Size) -> UfiOfCode | None:
    """The UFI of a size, its own or its candle's where it has no ingredients of its own; None where it has none."""
    entry = size if size.ufi or size.ingredients else candle
    if entry.ufi is None:
        return None
    return UfiOfCode(ufi=entry.ufi, notified=entry.notified, made=made.get(entry.ufi))


def ufi_of_code(shop: Shop, stock_code: str) -> UfiOfCode | None:
    """The UFI of a stock code; None where it has none."""
    found = ((candle, size) for candle, _, size in each_size(shop) if size.stock_code == stock_code)
    return next((ufi_of_size(made_by_ufi(shop), *one) for one in found), None)


Notifier = Literal["maker", "NPIS", "contact"]


def notifier(maker: Maker) -> Notifier:
    """Who notifies: the maker in the EU or EEA herself; one in Northern Ireland by the NPIS; for others, a contact.

    Importers and downstream users established there notify, a maker outside cannot (FOUND-2nd, three pages). Annex VIII
    holds in Northern Ireland, by the NPIS (FOUND, GOV.UK).
    """
    if maker.country in EEA_COUNTRIES:
        return "maker"
    return "NPIS" if in_northern_ireland(maker.country, maker.address) else "contact"


def ways_to_notify(maker: Maker, stock_code: str) -> str:
    """What she does for a UFI, by who notifies."""
    figures = f"the figures are in `wickwright papers notification {stock_code}`"
    make = f"make one with `wickwright ufi new {stock_code}`"
    match notifier(maker):
        case "maker":
            return f"{make}, notify the mixture in each country where you sell it, and record it as ufi; {figures}"
        case "NPIS":
            return (
                f"{make}, send the notification to the NPIS for Northern Ireland, and record it as ufi; "
                f"in the EU your importer or contact there notifies; {figures}"
            )
        case _:
            return (
                "your importer or contact in the EU notifies, since a maker outside cannot, and gives you the UFI to "
                f"record as ufi: ....-....-....-....; {figures}"
            )


def each_size(shop: Shop) -> Iterator[tuple[Candle, int, Size]]:
    """Every size with its candle and its place there."""
    for candle in shop.candles.values():
        yield from ((candle, number, size) for number, size in enumerate(candle.sizes))
