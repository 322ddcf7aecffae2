"""The shop's trade links and the price sheets sealed behind them, each made only if something is new."""

from base64 import b64encode
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, partial

from generator.document import Document, Value
from generator.documents.frame import frame
from generator.documents.house import House
from generator.documents.input_keys import InputKeys
from generator.documents.pages.buyer_sheet import buyer_sheet
from generator.documents.pages.link_list import BuyersLink
from generator.documents.pages.sealed_page import SealedSheet, sealed_page
from generator.documents.published import as_published, for_everybody
from generator.documents.stock_lines import Stock
from generator.making.loaded_shop import LoadedShop
from generator.making.presentation import Presentation
from generator.memory import digest
from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.model.trade import Buyer, Offer, Terms
from generator.model.trade_links import link_name, links_in_force
from generator.rules.trade.prices import offers_by_buyer
from generator.writing.output import PlannedFile
from generator.writing.policy import policy_of
from generator.writing.program import program_digest
from generator.writing.sealed import Link, encrypted_page, link_of
from generator.writing.templates import Templates, shared_digest


def closings(shop: Shop, secret: ShopSecret) -> Iterator[tuple[Buyer, Link]]:
    """Each buyer with a link, in the order of their entries, and what seals its page."""
    links = links_in_force(shop.links)
    for buyer in shop.buyers.values():
        if buyer.id in links:
            yield buyer, link_of(secret.key, link_name(links[buyer.id]))


def links_of(loaded: LoadedShop) -> tuple[BuyersLink, ...]:
    """Every link in the order of the buyers' entries; none until one is asked for."""
    shop, secret = loaded.shop, loaded.secret
    if secret is None:
        return ()
    versions = {id_: row.version for id_, row in links_in_force(shop.links).items()}
    return tuple(
        BuyersLink(buyer=buyer, version=versions[buyer.id], path=link.path, key=link.written_key)
        for buyer, link in closings(shop, secret)
    )


def links_awaited(loaded: LoadedShop) -> Iterator[str]:
    """What to do where there are buyers without a link."""
    links = links_in_force(loaded.shop.links)
    without = [id_ for id_ in loaded.shop.buyers if id_ not in links]
    if without and loaded.secret is None:
        yield "No trade buyer has a link yet; make the links with: wickwright link --all"
    elif without:
        yield (f"No link is in force for {', '.join(without)}; make one with: wickwright link --all")


def sealed_pages_of(house: House, loaded: LoadedShop, presentation: Presentation) -> Iterator[PlannedFile]:
    """Every buyer's sealed page; none until a link is asked for."""
    shop, secret = loaded.shop, loaded.secret
    if secret is None or shop.terms is None:
        return
    keys = InputKeys(loaded.store.shelf("inputs"))
    sealing = Sealing(house=as_published(house), shop=shop, terms=shop.terms, presentation=presentation)
    surroundings = sealing.surroundings(keys)
    for buyer, link in closings(shop, secret):
        key = digest("sealed sheet", link.memo_key, keys.of(buyer), surroundings)
        yield PlannedFile(path=f"site/{link.path}", key=key, make=partial(sealing.page, buyer, link))


@dataclass(frozen=True, kw_only=True)
class Sealing:
    """What all sealed sheets of one run are made with; the house is as buyers may see it."""

    house: House
    shop: Shop
    terms: Terms
    presentation: Presentation

    def page(self, buyer: Buyer, link: Link) -> bytes:
        """The whole page of one link."""
        stock = self._stocks[buyer.language or self.house.maker.language]
        sheet = self._printed(buyer_sheet(stock, buyer, self._offers[buyer.id], self.terms))
        text = b64encode(encrypted_page(link, sheet)).decode()
        policy = policy_of(self._around, sheet)
        return self._printed(sealed_page(self.house, SealedSheet(path=link.path, text=text, policy=policy)))

    def surroundings(self, keys: InputKeys) -> str:
        """The digest of everything a sheet may say besides its buyer's entry."""
        shop = self.shop
        said = (self.house, shop.terms, shop.prices, shop.formats)
        printed_with = shared_digest(self._site, self.presentation.theme.digest, program_digest())
        return digest(*map(keys.of, said), printed_with)

    @cached_property
    def _stocks(self) -> Mapping[str, Stock]:
        """What shops are told, in each of their languages."""
        return {
            language: Stock(house=self.house.speaking(language)) for language in self.house.language_packs
        }

    @cached_property
    def _offers(self) -> Mapping[str, tuple[Offer, ...]]:
        return offers_by_buyer(self.shop)

    @cached_property
    def _around(self) -> bytes:
        """The page without a sheet, so that the policy knows the page's own scripts and styles."""
        return self._printed(sealed_page(self.house, SealedSheet(path="", text="", policy="")))

    @cached_property
    def _site(self) -> Mapping[str, Value]:
        return frame(for_everybody(self.house))

    @cached_property
    def _templates(self) -> Templates:
        return Templates(self.presentation.theme)

    def _printed(self, paper: Document) -> bytes:
        return self._templates.render(paper, self._site)
