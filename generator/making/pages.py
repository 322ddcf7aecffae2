"""Everything a shop says, as deferred papers: the site's pages and the workshop's papers.

Each is given a house that holds only what it is about, and what else it prints; its key is made of exactly that, so
that no page can read anything whose change it would miss.
"""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import replace
from functools import partial
from typing import Concatenate, Final, ParamSpec

from generator.document import DeferredDocument, Document, PlainText
from generator.documents.frame import (
    ENQUIRY,
    FIGURES,
    FIND,
    FURTHER,
    GLOSSARY,
    NEWS,
    NOT_FOUND,
    ROBOTS,
    SAFETY,
    SITEMAP,
    collection_path,
    page_path,
)
from generator.documents.house import HOME_PAGE, House
from generator.documents.input_keys import InputKeys
from generator.documents.pages.burn_chart import chart, chart_address, public_tracks
from generator.documents.pages.candle_page import candle_page
from generator.documents.pages.catalogue import collection_page, home_page
from generator.documents.pages.change_report import CHANGES, changes_page
from generator.documents.pages.enquiry import enquiry_page
from generator.documents.pages.feeds import news, robots, sitemap
from generator.documents.pages.figures_page import figures_page
from generator.documents.pages.find import find_page, findable_lots, lot_page, lot_path
from generator.documents.pages.glossary import glossary_page
from generator.documents.pages.link_list import LINK_LIST, LINK_TABLE, link_list, link_list_table
from generator.documents.pages.loads_page import loads_page, loads_path, scents_by_fragrance
from generator.documents.pages.markdown_pages import not_found, written_page
from generator.documents.pages.recall_notices import recall_page, recall_path
from generator.documents.pages.safety import (
    draft_page,
    has_draft,
    has_own_label_page,
    issued_pages,
    own_label_page,
    safety_page,
)
from generator.documents.pages.safety_index import safety_index
from generator.documents.pages.trade_sheet import SHEET, TRADE_TABLE, trade_sheet, trade_table
from generator.documents.pages.workshop import (
    FACTS,
    PROBLEMS,
    WORKSHOP,
    facts_file,
    problems_file,
    workshop_index,
)
from generator.documents.published import as_published, for_everybody, for_lists
from generator.documents.shelves import Standing, public_sizes, shelves
from generator.making.change_of_sheets import changes_of
from generator.making.loaded_shop import LoadedShop
from generator.making.sealing import links_of

_P = ParamSpec("_P")
_Paper = DeferredDocument[Document | PlainText]
_Papers = Iterator[_Paper]

_FURTHER: Final[Mapping[str, Callable[[House], Document]]] = {
    SAFETY: safety_index,
    FIND: find_page,
    ENQUIRY: enquiry_page,
    FIGURES: figures_page,
    GLOSSARY: glossary_page,
}
"""The page behind each link in the footer, by address; the news are a feed."""


class Pages:
    """The pages of one build, each with the part of the house that it is made from."""

    def __init__(self, house: House, loaded: LoadedShop) -> None:
        self._house = house
        self._loaded = loaded
        self._published = as_published(house)
        self._public = for_everybody(self._published)
        self._keys = InputKeys(loaded.store.shelf("inputs"))
        self._lists = self._for_lists(self._public)
        self._trade_lists = self._for_lists(for_everybody(house))
        for whole in (self._house, self._lists, self._trade_lists):
            self._keys.know(whole)

    def __iter__(self) -> _Papers:
        """Everything a build makes but pictures, PDFs and sealed pages."""
        site = tuple(self._site())
        yield from site
        yield from self._feeds(tuple(page.path for page in site))
        for lot, about in findable_lots(self._published):
            yield self._page(f"site/{lot_path(about.maker, lot.lot)}", lot_page, about, lot)
        yield from self._sheets()
        yield from self._workshop()

    def _page(
        self,
        path: str,
        make: Callable[Concatenate[House, _P], Document | PlainText],
        house: House,
        *rest: _P.args,
        **named: _P.kwargs,
    ) -> _Paper:
        """A paper made from the house and the rest it is given."""
        handed = (house, *rest, *named.values())
        depends_on = tuple(map(self._keys.of, handed))
        return DeferredDocument(path=path, depends_on=depends_on, made=partial(make, house, *rest, **named))

    def _site(self) -> _Papers:
        """The pages in the site's map; a recall also names own-label candles."""
        house, lists, words_alone = self._public, self._lists, self._public.about()
        yield self._page(f"site/{HOME_PAGE}", home_page, lists)
        for shelf in shelves(lists, Standing.ON_THE_SHELF):
            scents = (scent for scent in lists.scents if scent.candle.collection == shelf.id)
            yield self._page(f"site/{collection_path(shelf.id)}", collection_page, lists.about(*scents))
        for scent in house.scents:
            sizes = public_sizes(scent)
            if sizes:
                yield self._page(f"site/{sizes[0].facts.site_path}", candle_page, house.about(scent), scent)
            for size in sizes:
                about = house.about(replace(scent, sizes=(size,)))
                yield self._page(f"site/{size.facts.safety_path}", safety_page, about, size)
        for further in FURTHER:
            if further.path in _FURTHER and further.is_there(house):
                of = house if further.path == FIGURES else lists
                yield self._page(f"site/{further.path}", _FURTHER[further.path], of)
        for recalled in self._published.recalls:
            about = self._about_codes(recalled.stock_codes)
            yield self._page(f"site/{recall_path(recalled.notice)}", recall_page, about, recalled)
        for page in house.pages:
            yield self._page(f"site/{page_path(page.id)}", written_page, words_alone, page)
        yield self._page(f"site/{NOT_FOUND}", not_found, words_alone)

    def _about_codes(self, stock_codes: Collection[str]) -> House:
        """The published house about these stock codes, including own labels and discontinued ones."""
        found = (
            replace(scent, sizes=tuple(size for size in scent.sizes if size.facts.stock_code in stock_codes))
            for scent in self._published.scents
        )
        return self._published.about(*(scent for scent in found if scent.sizes), stock_codes=stock_codes)

    def _feeds(self, pages: tuple[str, ...]) -> _Papers:
        """What robots and feed readers ask for; the map and the news need the site's own address."""
        web = self._house.maker.web
        yield self._text(f"site/{ROBOTS}", robots, web)
        if web is not None:
            yield self._text(f"site/{SITEMAP}", sitemap, web, pages)
            yield self._page(f"site/{NEWS}", news, self._lists, web)

    def _text(self, path: str, make: Callable[_P, PlainText], *handed: _P.args, **named: _P.kwargs) -> _Paper:
        """A text file that depends on nothing of the house."""
        depends_on = tuple(map(self._keys.of, (*handed, *named.values())))
        return DeferredDocument(path=path, depends_on=depends_on, made=partial(make, *handed, **named))

    def _sheets(self) -> _Papers:
        """What the site's map need not list: every revision at its own address, drafts, charts of tests."""
        house = self._house
        shown = {size.facts.stock_code for size, _ in public_tracks(self._public)}
        for scent in house.scents:
            for size in scent.sizes:
                code, track = size.facts.stock_code, size.facts.burn_track
                yield from issued_pages(house, size)
                about = house.about(replace(scent, sizes=(size,)))
                if has_own_label_page(house, size):
                    yield self._page(f"site/{size.facts.safety_path}", own_label_page, about, size)
                if has_draft(house, size):
                    yield self._page(f"workshop/drafts/{code}.html", draft_page, about, size)
                for root in ("workshop", "site"):
                    if track is not None and (root == "workshop" or code in shown):
                        path = f"{root}/{chart_address(size)}"
                        yield self._page(path, chart, about, size, track, path)

    def _for_lists(self, house: House) -> House:
        store = self._loaded.store
        return for_lists(house, store.shelf("candles in lists"), store.shelf("records in lists"))

    def _workshop(self) -> _Papers:
        house, loaded = self._house, self._loaded
        yield self._page(SHEET, trade_sheet, self._trade_lists)
        yield self._page(TRADE_TABLE, trade_table, self._trade_lists)
        yield self._page(FACTS, facts_file, house)
        yield self._text(PROBLEMS, problems_file, loaded.problems)
        scents = scents_by_fragrance(house)
        for id_, loads in house.loads.items():
            about = house.about(*scents.get(id_, ()))
            yield self._page(f"workshop/{loads_path(id_)}", loads_page, about, id_, loads)
        links = links_of(loaded)
        if links:
            yield _private(LINK_LIST, partial(link_list, house, links))
            yield _private(LINK_TABLE, partial(link_list_table, links, house.maker.web))
        yield self._page(WORKSHOP, workshop_index, house, loaded.problems, has_links=bool(links))
        changes = partial(changes_page, house, changes_of(loaded), loaded.places)
        yield DeferredDocument(path=CHANGES, depends_on=None, made=changes)


def _private(path: str, made: Callable[[], Document | PlainText]) -> _Paper:
    """A paper that contains keys, and is never remembered."""
    return DeferredDocument(path=path, depends_on=None, made=made, private=True)
