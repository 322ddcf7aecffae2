"""Everything a shop says, as documents: the site's pages and the workshop's papers."""

from collections.abc import Callable, Iterator, Mapping
from typing import Final

from generator.document import DeferredDocument, Document, PlainText
from generator.documents.frame import ENQUIRY, FIGURES, FIND, FURTHER, GLOSSARY, SAFETY
from generator.documents.house import House
from generator.documents.pages.burn_chart import public_charts, workshop_charts
from generator.documents.pages.candle_page import candle_page
from generator.documents.pages.catalogue import catalogue
from generator.documents.pages.change_report import changes_page
from generator.documents.pages.enquiry import enquiry_page
from generator.documents.pages.feeds import feeds
from generator.documents.pages.figures_page import figures_page
from generator.documents.pages.find import find_page, lot_pages
from generator.documents.pages.glossary import glossary_page
from generator.documents.pages.link_list import link_papers
from generator.documents.pages.loads_page import loads_pages
from generator.documents.pages.markdown_pages import not_found, written_page
from generator.documents.pages.recall_notices import recall_pages
from generator.documents.pages.safety import draft_page, issued_pages, own_label_page, safety_page
from generator.documents.pages.safety_index import safety_index
from generator.documents.pages.trade_sheet import trade_sheet
from generator.documents.pages.workshop import facts_file, problems_file, workshop_index
from generator.documents.published import as_published, for_everybody
from generator.documents.shelves import public_sizes
from generator.making.change_of_sheets import changes_of
from generator.making.loaded_shop import LoadedShop
from generator.making.sealing import links_of

_FURTHER: Final[Mapping[str, Callable[[House], Document]]] = {
    SAFETY: safety_index,
    FIND: find_page,
    ENQUIRY: enquiry_page,
    FIGURES: figures_page,
    GLOSSARY: glossary_page,
}
"""What each page at the foot of the site says, by its address; the news are a feed."""


def pages_of(house: House, loaded: LoadedShop) -> Iterator[Document | DeferredDocument | PlainText]:
    """Everything a build makes but pictures, PDFs and sealed pages."""
    published = as_published(house)
    public = for_everybody(published)
    site = tuple(_site(public, published))
    yield from site
    yield from feeds(public, site)
    yield from lot_pages(published)  # Behind the feeds, because the site's map must not list them.
    yield from _sheets(house)
    yield from trade_sheet(for_everybody(house))
    yield facts_file(house)
    yield problems_file(loaded.problems)
    yield from loads_pages(house)
    yield from workshop_charts(house)
    yield from public_charts(public)
    links = links_of(loaded)
    yield from link_papers(house, links)
    yield workshop_index(house, loaded.problems, links)
    yield changes_page(house, changes_of(loaded), loaded.places)


def _sheets(house: House) -> Iterator[Document | DeferredDocument]:
    """What the site's map need not list: every revision at its own address, and the workshop's drafts."""
    for size in house.sizes:
        yield from issued_pages(house, size)
        own_label = own_label_page(house, size) if size.recorded.own_label else None
        yield from (page for page in (own_label, draft_page(house, size)) if page is not None)


def _site(house: House, published: House) -> Iterator[Document]:
    """The pages that the site's map lists; a recall names the candles of own labels as well."""
    yield from catalogue(house)
    for scent in house.scents:
        sizes = public_sizes(scent)
        if sizes:
            yield candle_page(house, scent)
            yield from (safety_page(house, size) for size in sizes)
    yield from (
        _FURTHER[page.path](house) for page in FURTHER if page.path in _FURTHER and page.is_there(house)
    )
    yield from recall_pages(published)
    yield from (written_page(house, page) for page in house.pages)
    yield not_found(house)
