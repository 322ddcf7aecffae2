"""``link``: what a buyer opens the price sheet with, as an address to send, a table for a mail merge, or a file."""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.commands.sealed_file import write_sealed_file
from generator.documents.pages.link_list import BuyersLink, link_table
from generator.making.exit_codes import AT_FAULT
from generator.making.link_rows import brought_up, first_links, kept_link, new_link, not_kept
from generator.making.load_shop import Known, know
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.report import Refusal, nearest_ids, refuse, say, tell
from generator.making.shop_links import MAKER, give, in_the_way, links_of
from generator.model.shop import Shop
from generator.model.trade import LinkVersion
from generator.problems import Problem
from generator.reading.shop_secret import HIDDEN_FILE
from generator.reading.trade_files import BUYERS
from generator.writing.store import Store

NOTHING: Final = "no link was made"
SAFE: Final = "https://"
"""On plain http browsers decrypt nothing: Web Cryptography API, `SecureContext` on `crypto.subtle`. (MEMORY)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Whose links are wanted, all of them where nobody is named; whether as new ones, and whether as a file.

    ``was`` is the id to which the same shop's link was given, where it has another id or name now.
    """

    buyer: str | None
    renew: bool
    file: Path | None
    was: str | None = None

    @property
    def settles(self) -> bool:
        """Whether it says whose link it is from now on."""
        return self.renew or self.was is not None


@writes_content("link")
def run(asked: CommandOptions, wanted: Wanted) -> int:
    """Exit code 0 when the links are printed, 1 when entries are in the way, 2 for a buyer that is none."""
    known = know(asked, Store(asked.output / ".store"))
    in_the_way = tuple(_in_the_way(known, wanted))
    if known.shop is None or in_the_way:
        tell(in_the_way or known.problems, as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    refusal = _refusal(known.shop, wanted)
    if refusal is not None:
        return refuse(Refusal(what=refusal, then=NOTHING), as_json=asked.as_data)
    given = give(asked, known, _rows(known.shop, wanted))
    if known.secret is None:
        kept = (asked.content / HIDDEN_FILE).as_posix()
        print(f"made {kept}: keep a copy in a safe place, since no link opens without it", file=sys.stderr)
    links = {link.buyer.id: link for link in links_of(given)}
    link = None if wanted.buyer is None else links[wanted.buyer]
    if link is not None and wanted.file is not None:
        return write_sealed_file(asked, given, link, wanted.file)
    root = f"{(known.shop.maker.web or '').rstrip('/')}/"
    given_out = links.values() if link is None else (link,)
    data = {"links": [{"buyer": each.buyer.id, "address": each.below(root)} for each in given_out]}
    if link is None:
        say(link_table(tuple(links.values()), known.shop.maker.web).splitlines(), data, as_json=asked.as_data)
        return 0
    say((link.below(root),), data, as_json=asked.as_data)
    _print_what_is_left(asked, link, wanted)
    return 0


def _in_the_way(known: Known, wanted: Wanted) -> Iterator[Problem]:
    """The errors that the link itself is at the mercy of; a file holds the sheet, so every error counts."""
    yield from in_the_way(known, settling=wanted.settles, everything=wanted.file is not None)
    web = None if known.shop is None else known.shop.maker.web
    if known.shop is not None and wanted.file is None and not (web or "").startswith(SAFE):
        yield Problem(
            place=known.places.of((MAKER, "web")),
            what=f"the shop's address is '{web}'" if web else "the shop has no address of its own",
            why=f"a link leads to a page below it, and browsers open sealed pages only at {SAFE}",
            write=f"web: ... ({SAFE} and your site's host)",
        )


def _refusal(shop: Shop, wanted: Wanted) -> str | None:
    if not shop.buyers:
        return f"there are no buyers yet; write the first into {BUYERS}"
    if wanted.buyer is None and (wanted.settles or wanted.file is not None):
        return "--renew, --was and --file are for one buyer's link; write its id in place of all"
    if wanted.buyer is not None and wanted.buyer not in shop.buyers:
        return f"there is no buyer '{wanted.buyer}' in {BUYERS}; {nearest_ids(wanted.buyer, shop.buyers)}"
    if wanted.file is not None and wanted.file.exists():
        return f"{wanted.file.as_posix()} is there already; write another name, or remove it first"
    return None if wanted.was is None or wanted.buyer is None else not_kept(shop, wanted.buyer, wanted.was)


def _rows(shop: Shop, wanted: Wanted) -> tuple[LinkVersion, ...]:
    if wanted.buyer is None:
        return (*brought_up(shop, ()), *first_links(shop, shop.buyers))
    buyer = shop.buyers[wanted.buyer]
    if wanted.renew:
        return (*brought_up(shop, {buyer.id}), new_link(shop, buyer))
    if wanted.was is not None:
        return (*brought_up(shop, {wanted.was}), *kept_link(shop, buyer, wanted.was))
    return (*brought_up(shop, ()), *first_links(shop, (buyer.id,)))


def _print_what_is_left(asked: CommandOptions, link: BuyersLink, wanted: Wanted) -> None:
    """What the maker still has to do, beside the address and not in it."""
    if wanted.renew:
        print("the old link opens nothing once the shop is built and published again", file=sys.stderr)
    elif not (asked.output / "site" / link.path).exists():
        print("its page is there once the shop is built and published", file=sys.stderr)
