"""The shop's trade links: made from its secret and from what is written down of each."""

import secrets
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import reduce
from typing import Final

from generator.documents.pages.link_list import BuyersLink
from generator.ledgers.link_book import sealed_behind, with_link
from generator.ledgers.secret_file import NO_ROWS, SECRET_BYTES, secret_file
from generator.making.load_shop import Known
from generator.making.options import CommandOptions
from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.model.trade import Buyer, LinkVersion
from generator.model.trade_links import in_force, link_name, mark_of
from generator.problems import Problem, is_error
from generator.reading.shop_secret import HIDDEN_FILE
from generator.reading.trade_files import BUYERS, LINKS
from generator.rules.entries.link_checks import holder_faults
from generator.writing.private_file import OWNER_ALONE, write_private
from generator.writing.sealed import Link, link_of
from generator.writing.whole_files import record

MAKER: Final = "maker.yaml"


def closings(shop: Shop, secret: ShopSecret) -> Iterator[tuple[Buyer, Link]]:
    """Each buyer that has a link, in the order of their entries, and what closes its page."""
    links = in_force(shop.links)
    for buyer in shop.buyers.values():
        if buyer.id in links:
            yield buyer, link_of(secret.key, link_name(links[buyer.id]))


def in_the_way(known: Known, *, settling: bool, everything: bool = False) -> Iterator[Problem]:
    """The errors that a link is at the mercy of, or every error.

    A command that is ``settling`` whose link is whose is not held up by what it is there to settle.
    """
    files = {known.places.shown(file) for file in (MAKER, BUYERS, LINKS, HIDDEN_FILE)}
    unsettled = holder_faults(known.shop, lambda _kind, _id: True) if settling and known.shop else ()
    passed_over = {fault.at(known.places.of(fault.path)) for fault in unsettled}
    for problem in known.problems:
        if is_error(problem) and problem not in passed_over and (everything or problem.place.file in files):
            yield problem


def links_of(known: Known) -> tuple[BuyersLink, ...]:
    """Every link in the order of their buyers' entries; none while nobody has asked for one."""
    shop, secret = known.shop, known.secret
    if shop is None or secret is None:
        return ()
    versions = {id_: row.version for id_, row in in_force(shop.links).items()}
    return tuple(
        BuyersLink(buyer=buyer, version=versions[buyer.id], path=link.path, key=link.written_key)
        for buyer, link in closings(shop, secret)
    )


def links_awaited(known: Known) -> Iterator[str]:
    """What to do where there are buyers without a link."""
    shop = known.shop
    links = {} if shop is None else in_force(shop.links)
    without = [] if shop is None else [id_ for id_ in shop.buyers if id_ not in links]
    if without and known.secret is None:
        yield "No trade buyer has a link yet; make them with: wickwright link --all"
    elif without:
        yield f"No link is in force for {', '.join(without)}; make it with: wickwright link --all"


def give(asked: CommandOptions, known: Known, more: Sequence[LinkVersion]) -> Known:
    """Write down what is given out, and make the secret where there is none; what is known with both.

    The mark is written last: where a run is cut short, the book has more rows than it knows, and that is no fault.
    """
    secret = known.secret or new_secret()
    if known.secret is None:
        write_private(asked.content / HIDDEN_FILE, secret_file(secret))
    rows = sealed_behind(secret.key, known.shop.links if known.shop else (), more)
    if more:
        path = asked.content / LINKS
        before = path.read_bytes() if path.exists() else b""
        record(path, reduce(with_link, rows[-len(more) :], before))
    marked = replace(secret, mark=mark_of(secret.key, rows))
    if marked != secret:
        keep(asked, marked)
    return replace(known, shop=known.shop and replace(known.shop, links=rows), secret=marked)


def new_secret() -> ShopSecret:
    """Another secret, with which no link was given out."""
    return ShopSecret(key=secrets.token_bytes(SECRET_BYTES), mark=NO_ROWS)


def keep(asked: CommandOptions, secret: ShopSecret) -> None:
    """Put a secret in the place of the one that is there."""
    record(asked.content / HIDDEN_FILE, secret_file(secret), mode=OWNER_ALONE)
