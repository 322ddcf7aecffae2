"""``link``: a buyer's link to the price sheet, as an address to send, a table for a mail merge, or a file."""

import secrets
import sys
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from pathlib import Path
from typing import Any, Final

from generator.arguments import CommandParser
from generator.documents.csv_tables import as_table
from generator.documents.pages.link_list import BuyersLink, link_table
from generator.ledgers.books import LINK_COLUMNS, sealed_behind, with_link
from generator.ledgers.secret_file import NO_ROWS, SECRET_BYTES, secret_file
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop, SoundShop, UnreadableShop, sound_shop
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.report import Refusal, nearest_ids, publish_or, refuse, report_faults, say, say_next
from generator.making.sealing import links_of, sealed_pages_of
from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.model.trade import Buyer, LinkVersion, one_line
from generator.model.trade_links import ENDED, link_name, links_in_force, mark_of
from generator.problems import Fault, Problem
from generator.reading.shop_secret import HIDDEN_FILE
from generator.reading.trade_files import BUYERS, LINKS
from generator.rules.entries.link_checks import holder_faults
from generator.writing.whole_files import OWNER_ALONE, record, replace_file, write_private

_MAKER: Final = "maker.yaml"
NOT_MADE: Final = "no link was made"
NOT_ENDED: Final = "no link was ended"
SAFE: Final = "https://"
"""On plain http browsers decrypt nothing: Web Cryptography API, `SecureContext` on `crypto.subtle`. (MEMORY)"""
_NAME_BYTES: Final = 16
"""A link's name is random, so that the keys of one never come back with a buyer's id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkRequest:
    """Whose links are wanted, all of them where nobody is named; whether as new ones, as a file, or ended.

    ``was`` is the id to which the same shop's link was given, where it has another id or name now.
    """

    buyer: str | None
    renew: bool = False
    file: Path | None = None
    was: str | None = None

    @property
    def settles(self) -> bool:
        """Whether it says whose link it is from now on."""
        return self.renew or self.was is not None


def add_arguments(words: CommandParser) -> None:
    """Whose link, and what becomes of it."""
    whose = words.add_mutually_exclusive_group(required=True)
    whose.add_argument("buyer", metavar="BUYER", nargs="?", help="the buyer's id in buyers.yaml")
    whose.add_argument(
        "--all",
        dest="buyer",
        action="store_const",
        const=None,
        help="list every buyer's link, as a table for a mail merge",
    )
    whose.add_argument("--end-all", action="store_true", help="end every link ever issued, with a new secret")
    how = words.add_mutually_exclusive_group()
    how.add_argument(
        "--renew", action="store_true", help="issue a new link; the old one ends when you next publish"
    )
    how.add_argument(
        "--file", metavar="PATH", type=Path, help="write the sealed page to a file, to attach to a message"
    )
    how.add_argument("--end", action="store_true", help="end the link when you next publish, with no new one")
    how.add_argument(
        "--was",
        metavar="ID",
        help="keep the link of a buyer whose id or name has changed",
    )
    words.runs(_run)


def _run(options: CommandOptions, *, end_all: bool, end: bool, **request: Any) -> int:
    wanted = LinkRequest(**request)
    if end_all and not (end or wanted.settles or wanted.file is not None):
        return run_end_all(options)
    return run_end(options, wanted.buyer) if end else run(options, wanted)


@writes_content("link")
def run(options: CommandOptions, wanted: LinkRequest) -> int:
    """Exit code 0 when the links are printed, 1 when entries are in the way, 2 for a buyer that is none."""
    loaded = load_shop(options)
    in_the_way = tuple(_in_the_way(loaded, settling=wanted.settles, everything=wanted.file is not None))
    if not isinstance(loaded, LoadedShop):
        return report_faults(options, in_the_way or loaded.problems, NOT_MADE)
    in_the_way += tuple(_no_address(loaded)) if wanted.file is None else ()
    if in_the_way:
        return report_faults(options, in_the_way, NOT_MADE)
    refusal = _refusal(loaded.shop, wanted)
    if refusal is not None:
        return refuse(replace(refusal, then=NOT_MADE), as_json=options.as_data)
    given = _give(options, loaded, _rows(loaded.shop, wanted))
    if loaded.secret is None:
        kept = (options.content / HIDDEN_FILE).as_posix()
        print(f"made {kept}. Keep a copy in a safe place: no link opens without it.", file=sys.stderr)
    links = {link.buyer.id: link for link in links_of(given)}
    if wanted.buyer is None:
        _say_links(options, given, tuple(links.values()))
    elif wanted.file is not None:
        return _write_sealed_file(options, given, links[wanted.buyer], wanted.file)
    else:
        _say_link(options, given, links[wanted.buyer], wanted)
    return 0


def _say_links(options: CommandOptions, loaded: LoadedShop, links: tuple[BuyersLink, ...]) -> None:
    """A table for a mail merge."""
    web = loaded.shop.maker.web
    say(link_table(links, web).splitlines(), _as_data(loaded, links), as_json=options.as_data)


def _say_link(options: CommandOptions, loaded: LoadedShop, link: BuyersLink, wanted: LinkRequest) -> None:
    """One address; what the maker still has to do goes beside it and not in it."""
    say((link.below(_root(loaded)),), _as_data(loaded, (link,)), as_json=options.as_data)
    if options.as_data:
        return
    if wanted.renew:
        print("The old link works until you publish again.", file=sys.stderr)
    elif not (options.output / "site" / link.path).exists():
        print("It opens once you have published again.", file=sys.stderr)
    else:
        return
    say_next(publish_or(options, "wickwright build"), sys.stderr)


def _as_data(loaded: LoadedShop, links: Iterable[BuyersLink]) -> object:
    root = _root(loaded)
    return {"links": [{"buyer": link.buyer.id, "address": link.below(root)} for link in links]}


def _root(loaded: LoadedShop) -> str:
    return f"{(loaded.shop.maker.web or '').rstrip('/')}/"


def _write_sealed_file(options: CommandOptions, loaded: LoadedShop, link: BuyersLink, path: Path) -> int:
    """The page at a buyer's link, written elsewhere, for a message that takes attachments."""
    sound = sound_shop(replace(loaded, shop=replace(loaded.shop, buyers={link.buyer.id: link.buyer})))
    if not isinstance(sound, SoundShop):
        return report_faults(options, sound, "no file was written")
    (page,) = sealed_pages_of(sound.house, sound.loaded, sound.presentation)
    replace_file(path, page.make())
    lines = (
        f"wrote {path.as_posix()}. It opens in a browser with this key, which you send separately:",
        link.key,
    )
    say(lines, {"wrote": [path.as_posix()], "key": link.key}, as_json=options.as_data)
    return 0


def _in_the_way(
    loaded: LoadedShop | UnreadableShop, *, settling: bool, everything: bool = False
) -> Iterator[Problem]:
    """The errors that block a link, or every error.

    A command that is ``settling`` whose link is whose is not held up by what it is there to settle.
    """
    errors = loaded.errors if everything else loaded.errors_in(_MAKER, BUYERS, LINKS, HIDDEN_FILE)
    unsettled: Iterable[Fault] = ()
    if settling and isinstance(loaded, LoadedShop):
        unsettled = holder_faults(loaded.shop, lambda _kind, _id: True)
    passed_over = {fault.at(loaded.places.of(fault.path)) for fault in unsettled}
    yield from (problem for problem in errors if problem not in passed_over)


def _no_address(loaded: LoadedShop) -> Iterator[Problem]:
    """What is wrong with the address below which links are."""
    web = loaded.shop.maker.web
    if not (web or "").startswith(SAFE):
        yield Problem(
            place=loaded.places.of((_MAKER, "web")),
            what=f"the shop's address is '{web}'" if web else "the shop has no web address",
            why=f"a link leads to a page below it, and browsers open sealed pages only at {SAFE}",
            fix=f"web: ... ({SAFE} and your site's host)",
        )


def _refusal(shop: Shop, wanted: LinkRequest) -> Refusal | None:
    if not shop.buyers:
        return Refusal(what="no buyers are recorded yet", fix=f"add one to {BUYERS}")
    if wanted.buyer is None and (wanted.settles or wanted.file is not None):
        what = "--renew, --was and --file are for one buyer's link"
        return Refusal(what=what, fix="name the buyer instead of --all")
    if wanted.buyer is not None and wanted.buyer not in shop.buyers:
        what = f"there is no buyer '{wanted.buyer}' in {BUYERS}"
        return Refusal(what=what, fix=nearest_ids(wanted.buyer, shop.buyers))
    if wanted.file is not None and wanted.file.exists():
        return Refusal(
            what=f"{wanted.file.as_posix()} exists already", fix="choose another name, or remove it"
        )
    return None if wanted.was is None or wanted.buyer is None else _not_kept(shop, wanted.buyer, wanted.was)


def _rows(shop: Shop, wanted: LinkRequest) -> tuple[LinkVersion, ...]:
    if wanted.buyer is None:
        return (*_brought_up(shop, ()), *_first_links(shop, shop.buyers))
    buyer = shop.buyers[wanted.buyer]
    if wanted.renew:
        return (*_brought_up(shop, {buyer.id}), _new_link(shop, buyer))
    if wanted.was is not None:
        return (*_brought_up(shop, {wanted.was}), *_kept_link(shop, buyer, wanted.was))
    return (*_brought_up(shop, ()), *_first_links(shop, (buyer.id,)))


@writes_content("link")
def run_end(options: CommandOptions, id_: str | None) -> int:
    """Exit code 0 when the end is written down, 1 when the book of links is at fault, 2 for a link that is none."""
    loaded = load_shop(options)
    problems = tuple(_in_the_way(loaded, settling=True))
    if not isinstance(loaded, LoadedShop) or problems:
        return report_faults(options, problems or loaded.problems, NOT_ENDED)
    links = links_in_force(loaded.shop.links)
    if id_ is None or id_ not in links:
        what = f"'{id_}' has no link" if id_ else "--end is for one buyer's link"
        near = nearest_ids(id_, links) if id_ and links else ""
        fix = near if id_ else "write --end-all alone to end them all"
        return refuse(Refusal(what=what, then=NOT_ENDED, fix=fix), as_json=options.as_data)
    _give(options, loaded, (*_brought_up(loaded.shop, {id_}), _ended_link(loaded.shop, links[id_])))
    say(
        (f"The link of '{id_}' has ended. Its page is gone once you have published again.",),
        {"ended": [id_]},
        as_json=options.as_data,
        next_step=publish_or(options, "wickwright build"),
    )
    return 0


@writes_content("link")
def run_end_all(options: CommandOptions) -> int:
    """Exit code 0 when there is another secret and no link, 1 where there is no shop.

    The secret goes first: where a run is cut short, the old rows do not fit the new secret, and nothing opens.
    """
    loaded = load_shop(options)
    if not isinstance(loaded, LoadedShop):
        return report_faults(options, loaded.problems, NOT_ENDED)
    ended = list(links_in_force(loaded.shop.links))
    _keep(options, _new_secret())
    if (options.content / LINKS).exists():
        record(options.content / LINKS, as_table(LINK_COLUMNS, ()).encode())
    kept = (options.content / HIDDEN_FILE).as_posix()
    told = (
        f"Every link has ended, and {kept} holds a new secret. Keep a copy of it in a safe place.\n"
        "The pages are gone once you have published again."
    )
    say((told,), {"ended": ended}, as_json=options.as_data, next_step="wickwright link --all")
    return 0


def _give(options: CommandOptions, loaded: LoadedShop, more: Sequence[LinkVersion]) -> LoadedShop:
    """Write down what is given out, and make the secret where there is none; what is loaded with both.

    The mark is written last: where a run is cut short, the book has more rows than it knows, and that is no fault.
    """
    secret = loaded.secret or _new_secret()
    if loaded.secret is None:
        write_private(options.content / HIDDEN_FILE, secret_file(secret))
    rows = sealed_behind(secret.key, loaded.shop.links, more)
    if more:
        path = options.content / LINKS
        before = path.read_bytes() if path.exists() else b""
        record(path, reduce(with_link, rows[-len(more) :], before))
    marked = replace(secret, mark=mark_of(secret.key, rows))
    if marked != secret:
        _keep(options, marked)
    return replace(loaded, shop=replace(loaded.shop, links=rows), secret=marked)


def _new_secret() -> ShopSecret:
    """Another secret, with which no link was given out."""
    return ShopSecret(key=secrets.token_bytes(SECRET_BYTES), mark=NO_ROWS)


def _keep(options: CommandOptions, secret: ShopSecret) -> None:
    """Put a secret in the place of the one that is there."""
    record(options.content / HIDDEN_FILE, secret_file(secret), mode=OWNER_ALONE)


def _first_links(shop: Shop, buyers: Iterable[str]) -> Iterator[LinkVersion]:
    """A row for each of these buyers that has no link."""
    links = links_in_force(shop.links)
    for id_ in buyers:
        if id_ not in links:
            yield _new_link(shop, shop.buyers[id_])


def _new_link(shop: Shop, buyer: Buyer) -> LinkVersion:
    """A link that nobody ever had, in place of the buyer's present one."""
    return _row(shop, buyer, secrets.token_hex(_NAME_BYTES), _last_version(shop, buyer.id) + 1)


def _kept_link(shop: Shop, buyer: Buyer, was: str) -> Iterator[LinkVersion]:
    """The link that was given to the same shop under another name, or under another id."""
    link = links_in_force(shop.links)[was]
    if was == buyer.id:
        yield _row(shop, buyer, link_name(link), link.version)
    else:
        yield _ended_link(shop, link)
        yield _row(shop, buyer, link_name(link), _last_version(shop, buyer.id) + 1)


def _not_kept(shop: Shop, buyer: str, was: str) -> Refusal | None:
    """Why a buyer cannot go on with the link that was given to an id."""
    links = links_in_force(shop.links)
    if was not in links:
        return Refusal(what=f"'{was}' has no link", fix=f"make a new one: wickwright link {buyer}")
    if was == buyer:
        return None
    if was in shop.buyers:
        what = f"'{was}' is still in {BUYERS} and keeps its link"
        return Refusal(what=what, fix=f"make another: wickwright link {buyer}")
    if buyer not in links:
        return None
    return Refusal(what=f"'{buyer}' has its own link", fix=f"end it first: wickwright link {buyer} --end")


def _ended_link(shop: Shop, row: LinkVersion) -> LinkVersion:
    """The row that ends a link and gives no other."""
    return replace(row, since=shop.as_of, link=ENDED, seal=None)


def _brought_up(shop: Shop, passed_over: Collection[str]) -> Iterator[LinkVersion]:
    """Rows from before there were seals, said again with the name of the buyer; those of nobody end."""
    for id_, row in links_in_force(shop.links).items():
        if row.seal is None and id_ not in passed_over:
            buyer = shop.buyers.get(id_)
            yield _row(shop, buyer, link_name(row), row.version) if buyer else _ended_link(shop, row)


def _row(shop: Shop, buyer: Buyer, link: str, version: int) -> LinkVersion:
    name = one_line(buyer.name)
    return LinkVersion(buyer=buyer.id, version=version, since=shop.as_of, name=name, link=link)


def _last_version(shop: Shop, buyer: str) -> int:
    return max((row.version for row in shop.links if row.buyer == buyer), default=0)
