"""The shop's trade links: made from its secret, and given out with every version written down."""

import secrets
from collections.abc import Iterator
from dataclasses import replace
from functools import reduce
from typing import Final

from generator.documents.links import BuyersLink
from generator.model.shop import Shop
from generator.model.trade import Buyer, LinkVersion
from generator.reading.shop_secret import HIDDEN_FILE
from generator.reading.trade import LINKS
from generator.recording.links import with_link
from generator.recording.shop_secret import SECRET_BYTES, secret_file
from generator.stories.asked import Asked
from generator.stories.shop import Known
from generator.writing.private_file import write_private
from generator.writing.sealed import Link, link_of
from generator.writing.whole_files import record

FIRST_VERSION: Final = 1


def link_to(shop: Shop, secret: bytes, buyer: Buyer) -> Link:
    """What closes a buyer's page, in the version that is in force."""
    return link_of(secret, buyer.id, _version(shop, buyer.id))


def links_of(known: Known) -> tuple[BuyersLink, ...]:
    """Every buyer's link in the order of their entries; none while nobody has asked for one."""
    shop, secret = known.shop, known.secret
    if shop is None or secret is None:
        return ()
    return tuple(_buyers_link(shop, secret, buyer) for buyer in shop.buyers.values())


def links_awaited(known: Known) -> Iterator[str]:
    """What to do where there are buyers and nobody has asked for a link yet."""
    if known.shop is not None and known.secret is None and known.shop.buyers:
        yield "No trade buyer has a link yet; make them with: wickwright link --all"


def give(asked: Asked, known: Known, rows: tuple[LinkVersion, ...]) -> Known:
    """Write down what is given out, and make the secret where there is none; what is known with both."""
    secret = known.secret or secrets.token_bytes(SECRET_BYTES)
    if known.secret is None:
        write_private(asked.content / HIDDEN_FILE, secret_file(secret))
    if rows:
        path = asked.content / LINKS
        before = path.read_bytes() if path.exists() else b""
        record(path, reduce(with_link, rows, before))
    shop = known.shop and replace(
        known.shop, links={**known.shop.links, **{row.buyer: row.version for row in rows}}
    )
    return replace(known, shop=shop, secret=secret)


def first_links(shop: Shop, buyers: tuple[str, ...]) -> Iterator[LinkVersion]:
    """A row for each of these buyers whose link was never written down."""
    for buyer in buyers:
        if buyer not in shop.links:
            yield LinkVersion(buyer=buyer, version=FIRST_VERSION, since=shop.maker.as_of)


def renewed_link(shop: Shop, buyer: str) -> LinkVersion:
    """The row that puts another link in the place of a buyer's present one."""
    return LinkVersion(buyer=buyer, version=_version(shop, buyer) + 1, since=shop.maker.as_of)


def _buyers_link(shop: Shop, secret: bytes, buyer: Buyer) -> BuyersLink:
    link = link_to(shop, secret, buyer)
    version = _version(shop, buyer.id)
    return BuyersLink(buyer=buyer, version=version, path=link.path, key=link.written_key)


def _version(shop: Shop, buyer: str) -> int:
    return shop.links.get(buyer, FIRST_VERSION)
