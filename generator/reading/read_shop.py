"""The maker's whole content folder: every entry read, every fault gathered."""

from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path as FilePath
from shlex import quote

from generator.model.accepted import Accepted
from generator.model.shop import Shop
from generator.problems import Place, Places, Problem, in_reading_order
from generator.reading.burn_test_tables import read_burn_tests
from generator.reading.entries import (
    ADDITIVES,
    CANDLES,
    DYES,
    FORMATS,
    FRAGRANCES,
    LABEL_STOCK,
    MAKER,
    RECALLS,
    VESSELS,
    WAXES,
    WICKS,
    read_collections,
    read_composed,
    read_folder,
    read_maker,
)
from generator.reading.gathering import ANY, Gathering
from generator.reading.issued_sheets import read_ledgers
from generator.reading.known_places import note_unread
from generator.reading.lot_book import read_lots, read_poured
from generator.reading.page_files import artwork_names, photo_names, read_pages
from generator.reading.publish_file import read_targets
from generator.reading.source_file import ReadingShelves
from generator.reading.trade_files import read_buyers, read_links, read_prices, read_terms
from generator.reading.ufi_book import read_made_ufis


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A content folder as read.

    ``shop`` is None when nothing sensible can be checked. ``broken`` names what is there but at fault by kind and
    id: wax, fragrance, additive, dye, wick, vessel, format, candle, collection, page, recall, burn-test (by its file),
    stock-code, sheet (by its stock code), lot, poured (by its name), ufi, terms, buyer, link and price; an id of ``*``
    means any. ``accepted`` are the warnings that the entries themselves answer.
    """

    shop: Shop | None
    problems: tuple[Problem, ...]
    places: Places
    broken: frozenset[tuple[str, str]]
    accepted: tuple[Accepted, ...] = ()

    def is_broken(self, kind: str, id_: str) -> bool:
        """Whether an entry that the shop lacks is there all the same, with faults of its own."""
        return bool(self.broken & {(kind, id_), (kind, ANY)})


def read_shop(
    content: FilePath, shown_as: str, today: date, shelves: ReadingShelves | None = None
) -> Reading:
    """Read everything below ``content``, which the maker knows as ``shown_as``.

    ``today`` is the day of a shop that names no other.

    With the shelves of an earlier reading, a file that was not written since is not opened, and whatever says the
    same as before is the very same object: an entry, all entries of a kind, and the shop.
    """
    gathering = Gathering(content, shown_as, shelves)
    if not gathering.is_folder("."):
        return _no_content(gathering, content)
    maker = read_maker(gathering)
    shop_of = partial(
        Shop,
        collections=read_collections(gathering),
        waxes=read_folder(gathering, WAXES),
        fragrances=read_composed(gathering, FRAGRANCES),
        additives=read_composed(gathering, ADDITIVES),
        dyes=read_composed(gathering, DYES),
        wicks=read_folder(gathering, WICKS),
        vessels=read_folder(gathering, VESSELS),
        formats=read_folder(gathering, FORMATS),
        candles=read_folder(gathering, CANDLES),
        burn_tests=read_burn_tests(gathering),
        pages=read_pages(gathering),
        photos=photo_names(gathering),
        ledgers=read_ledgers(gathering),
        lots=read_lots(gathering),
        poured=read_poured(gathering),
        recalls=read_folder(gathering, RECALLS),
        label_stock=read_folder(gathering, LABEL_STOCK),
        artwork=artwork_names(gathering),
        terms=read_terms(gathering),
        buyers=read_buyers(gathering),
        links=read_links(gathering),
        prices=read_prices(gathering),
        targets=read_targets(gathering),
        made_ufis=read_made_ufis(gathering),
    )
    note_unread(gathering)
    if maker is None:
        return _reading(gathering, None)
    as_of = maker.as_of or today
    parts = (maker, as_of.isoformat(), *shop_of.keywords.values())
    return _reading(gathering, gathering.remember(parts, lambda: shop_of(maker=maker, as_of=as_of)))


def _no_content(gathering: Gathering, content: FilePath) -> Reading:
    gathering.problems.append(
        Problem(
            place=Place(gathering.places.shown_as, 1, 1),
            what="there is no such folder",
            why="the maker's entries are read from there",
            fix=_way_to(content),
        )
    )
    return _reading(gathering, None)


def _way_to(content: FilePath) -> str:
    """Where the maker should have gone first: she may be beside the shop's folder, or inside its entries already."""
    if (content.parent / MAKER).is_file():
        return "cd .., because you are inside the folder of entries"
    shops = sorted(path.parent.parent.name for path in content.parent.glob(f"*/{content.name}/{MAKER}"))
    if shops:
        return f"cd {', or cd '.join(map(quote, shops))}, because you are in the folder above"
    return "use --content and the folder that contains maker.yaml"


def _reading(gathering: Gathering, shop: Shop | None) -> Reading:
    return Reading(
        shop=shop,
        problems=in_reading_order(gathering.problems),
        places=gathering.places,
        broken=frozenset(gathering.broken),
        accepted=tuple(gathering.accepted),
    )
