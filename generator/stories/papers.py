"""Everything a shop says, as documents: the site's pages and the workshop's papers."""

from collections.abc import Iterator

from generator.document import Document, PlainText
from generator.documents.candle_page import candle_page
from generator.documents.catalogue import catalogue
from generator.documents.feeds import feeds
from generator.documents.figures_page import figures_page
from generator.documents.house import House, Scent, SizeOf, Words
from generator.documents.loads_page import loads_pages
from generator.documents.pages import not_found, written_page
from generator.documents.safety import safety_page
from generator.documents.safety_index import safety_index
from generator.documents.shelves import public_sizes
from generator.documents.trade import trade_sheet
from generator.documents.workshop import facts_file, problems_file, workshop_index
from generator.model.shop import Shop
from generator.reading.statements import wording
from generator.stories.pictures import Photos
from generator.stories.shop import Known


def house_of(shop: Shop, known: Known, photos: Photos, words: Words) -> House:
    """The shop as its papers see it."""
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
        words=words,
        as_of=shop.maker.as_of,
        draft=True,
        wording=wording(shop.maker.language),
        pages=tuple(shop.pages.values()),
    )


def papers_of(house: House, known: Known) -> Iterator[Document | PlainText]:
    """Every paper but the pictures."""
    site = tuple(_site(house))
    yield from site
    yield from feeds(house, site)
    yield from trade_sheet(house)
    yield facts_file(house)
    yield problems_file(known.problems)
    yield from loads_pages(house)
    yield workshop_index(house, known.problems)


def _site(house: House) -> Iterator[Document]:
    yield from catalogue(house)
    for scent in house.scents:
        sizes = public_sizes(scent)
        if sizes:
            yield candle_page(house, scent)
            yield from (safety_page(house, size) for size in sizes)
    yield safety_index(house)
    yield figures_page(house)
    yield from (written_page(house, page) for page in house.pages)
    yield not_found(house)
