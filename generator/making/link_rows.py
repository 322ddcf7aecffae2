"""Which rows a command adds to the book of trade links; each is still to be sealed."""

import secrets
from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from typing import Final

from generator.model.shop import Shop
from generator.model.trade import Buyer, LinkVersion, one_line
from generator.model.trade_links import ENDED, in_force, link_name

_NAME_BYTES: Final = 16
"""A link's name is random, so that the keys of one never come back with a buyer's id."""


def first_links(shop: Shop, buyers: Iterable[str]) -> Iterator[LinkVersion]:
    """A row for each of these buyers that has no link."""
    links = in_force(shop.links)
    for id_ in buyers:
        if id_ not in links:
            yield new_link(shop, shop.buyers[id_])


def new_link(shop: Shop, buyer: Buyer) -> LinkVersion:
    """A link that nobody ever had, in place of the buyer's present one."""
    return _row(shop, buyer, secrets.token_hex(_NAME_BYTES), _last_version(shop, buyer.id) + 1)


def kept_link(shop: Shop, buyer: Buyer, was: str) -> Iterator[LinkVersion]:
    """The link that was given to the same shop under another name, or under another id."""
    link = in_force(shop.links)[was]
    if was == buyer.id:
        yield _row(shop, buyer, link_name(link), link.version)
    else:
        yield ended_link(shop, link)
        yield _row(shop, buyer, link_name(link), _last_version(shop, buyer.id) + 1)


def not_kept(shop: Shop, buyer: str, was: str) -> str | None:
    """Why a buyer cannot go on with the link that was given to an id."""
    links = in_force(shop.links)
    if was not in links:
        return f"no link of '{was}' is in force; a new one is made with: wickwright link {buyer}"
    if was == buyer:
        return None
    if was in shop.buyers:
        return f"'{was}' is a buyer's id still, so its link stays with it"
    return (
        f"'{buyer}' has a link of its own; end it first: wickwright link {buyer} --end"
        if buyer in links
        else None
    )


def ended_link(shop: Shop, row: LinkVersion) -> LinkVersion:
    """The row that ends a link and gives no other."""
    return replace(row, since=shop.maker.as_of, link=ENDED, seal=None)


def brought_up(shop: Shop, passed_over: Collection[str]) -> Iterator[LinkVersion]:
    """Rows from before there were seals, said again with the name of the buyer; those of nobody end."""
    for id_, row in in_force(shop.links).items():
        if row.seal is None and id_ not in passed_over:
            buyer = shop.buyers.get(id_)
            yield _row(shop, buyer, link_name(row), row.version) if buyer else ended_link(shop, row)


def _row(shop: Shop, buyer: Buyer, link: str, version: int) -> LinkVersion:
    name = one_line(buyer.name)
    return LinkVersion(buyer=buyer.id, version=version, since=shop.maker.as_of, name=name, link=link)


def _last_version(shop: Shop, buyer: str) -> int:
    return max((row.version for row in shop.links if row.buyer == buyer), default=0)
