"""Everything a shop says, as documents: the site's pages and the workshop's papers."""

from collections.abc import Iterator, Mapping

from generator.document import DeferredDocument, Document, PlainText
from generator.documents.house import House, LanguagePack, Scent, SizeOf
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
from generator.documents.pages.recall_notices import recall_pages, recalled
from generator.documents.pages.safety import draft_page, issued_pages, own_label_page, safety_page
from generator.documents.pages.safety_index import safety_index
from generator.documents.pages.trade_sheet import trade_sheet
from generator.documents.pages.workshop import facts_file, problems_file, workshop_index
from generator.documents.published import as_published, for_everybody
from generator.documents.shelves import public_sizes
from generator.making.change_of_sheets import changes_of
from generator.making.load_shop import Known
from generator.making.pictures import Photos
from generator.making.shop_links import links_of
from generator.model.shop import Shop


def house_of(shop: Shop, known: Known, photos: Photos, language_packs: Mapping[str, LanguagePack]) -> House:
    """The shop as its papers see it."""
    own = language_packs[shop.maker.language]
    sizes = {
        facts.stock_code: SizeOf(recorded=gathered.recorded, facts=facts) for gathered, facts in known.facts
    }
    scents = (
        Scent(candle=candle, sizes=tuple(sizes[size.stock_code] for size in candle.sizes))
        for candle in shop.candles.values()
    )
    return House(
        maker=shop.maker,
        collections=shop.collections,
        scents=tuple(scents),
        photos=photos.renditions,
        words=own.words,
        as_of=shop.maker.as_of,
        sheets=known.sheets,
        wording=own.wording,
        language_packs=language_packs,
        drafts=False,
        pages=tuple(shop.pages.values()),
        lots=shop.lots,
        recalls=recalled(shop.recalls.values(), shop.lots),
        terms=shop.terms,
    )


def papers_of(house: House, known: Known) -> Iterator[Document | DeferredDocument | PlainText]:
    """Every paper but the pictures."""
    published = as_published(house)
    public = for_everybody(published)
    site = tuple(_site(public, published))
    yield from site
    yield from feeds(public, site)
    yield from lot_pages(published)  # Behind the feeds, because the site's map must not list them.
    yield from _sheets(house)
    yield from trade_sheet(for_everybody(house))
    yield facts_file(house)
    yield problems_file(known.problems)
    yield from loads_pages(house)
    yield from workshop_charts(house)
    yield from public_charts(public)
    links = links_of(known)
    yield from link_papers(house, links)
    yield workshop_index(house, known.problems, links)
    yield changes_page(house, changes_of(known), known.places)


def _sheets(house: House) -> Iterator[Document | DeferredDocument]:
    """What the site's map need not list: every revision at its own address, and the workshop's drafts."""
    for scent in house.scents:
        for size in scent.sizes:
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
    yield safety_index(house)
    yield figures_page(house)
    yield glossary_page(house)
    if house.lots:
        yield find_page(house)
    if house.terms:
        yield enquiry_page(house, house.terms)
    yield from recall_pages(published)
    yield from (written_page(house, page) for page in house.pages)
    yield not_found(house)
