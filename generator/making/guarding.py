"""The shop's secret, and all that would let out a key or let a link come back that has ended."""

from collections.abc import Iterator

from generator.making.options import CommandOptions
from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.problems import Problem
from generator.reading.gathering import ANY
from generator.reading.read_shop import Reading
from generator.reading.shop_secret import exposed, read_secret
from generator.rules.entries.link_checks import book_faults, holder_faults


def guarded(
    asked: CommandOptions, shop: Shop, reading: Reading
) -> tuple[ShopSecret | None, tuple[Problem, ...]]:
    """The secret where there is one that may be used, and what is wrong with it and with the book of links."""
    shown_as = reading.places.shown_as
    secret = read_secret(asked.content, shown_as, len(shop.links))
    told = tuple(exposed(asked.content, shown_as, asked.output))
    if isinstance(secret, Problem):
        return None, (*told, secret)
    return secret, (*told, *(() if secret is None else _link_faults(shop, secret, reading)))


def _link_faults(shop: Shop, secret: ShopSecret, reading: Reading) -> Iterator[Problem]:
    if not reading.is_broken("link", ANY):
        for fault in (*book_faults(shop.links, secret), *holder_faults(shop, reading.is_broken)):
            yield fault.at(reading.places.of(fault.path))
