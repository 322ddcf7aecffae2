"""Whether a link that has ended can come back: the book of trade links is whole, and each link is still its buyer's."""

from collections.abc import Iterator
from itertools import takewhile
from typing import Final

from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.model.trade import LinkVersion, one_line
from generator.model.trade_links import ENDED, link_name, links_in_force, mark_of, seals_of
from generator.problems import Fault, warning
from generator.rules.references import IsBroken

_LINKS: Final = "trade/links.csv"
_BUYERS: Final = "trade/buyers.yaml"
_OR_END_ALL: Final = "if there is no copy, end every link: wickwright link --end-all"
_AS_IT_WAS: Final = f"restore the file from a backup or version control; {_OR_END_ALL}"
_OPENS_AGAIN: Final = "a link that has ended could open a price sheet again"


def book_faults(rows: tuple[LinkVersion, ...], secret: ShopSecret) -> Iterator[Fault]:
    """Evidence that rows were lost, changed, moved or added by hand since ``link`` wrote them."""
    faults = tuple(_seal_faults(rows, secret))
    yield from faults or _mark_faults(rows, secret)
    yield from _version_faults(rows)


def holder_faults(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """Links whose buyer is gone, and links whose buyer's id now belongs to a shop with another name."""
    numbers = {row.buyer: number for number, row in enumerate(shop.links)}
    for id_, row in links_in_force(shop.links).items():
        buyer = shop.buyers.get(id_)
        if buyer is None and not is_broken("buyer", id_):
            yield _gone(id_, numbers[id_])
        elif buyer is not None and row.name is not None and row.name != one_line(buyer.name):
            yield _another_name(id_, row.name, buyer.name)


def _seal_faults(rows: tuple[LinkVersion, ...], secret: ShopSecret) -> Iterator[Fault]:
    older = len(tuple(takewhile(lambda row: row.seal is None, rows)))
    if secret.mark is not None:
        older = min(older, secret.mark.rows)
    should = seals_of(secret.key, rows)
    wrong = [number for number in range(older, len(rows)) if rows[number].seal != should[number]]
    written = {row.seal for row in rows} - {None}
    is_ours = secret.mark is not None and secret.mark.seal in written
    if wrong and written and not is_ours and len(wrong) == len(rows) - older:
        yield Fault(
            path=(_LINKS,),
            what="no row was written with the shop's secret that is here",
            why="no link you have given out would work, and its buyer would not be told",
            fix=f"restore content/.shop-secret from your backup, or {_AS_IT_WAS}",
        )
        return
    for number in wrong:
        yield Fault(
            path=(_LINKS, number, "seal"),
            what=(
                "the row has been altered: it was changed or added by hand, or rows above "
                "it were changed, moved or deleted"
            ),
            why=_OPENS_AGAIN,
            fix=_AS_IT_WAS,
        )


def _mark_faults(rows: tuple[LinkVersion, ...], secret: ShopSecret) -> Iterator[Fault]:
    mark = secret.mark
    if mark is None and rows:
        yield warning(
            path=(_LINKS,),
            what="the shop's secret does not record how many rows this file should have",
            why="it was made by an older version, or is an older copy; missing rows would go unnoticed",
            fix="run wickwright link --all, which records the number",
        )
    elif mark is None:
        yield _lost("the list of trade links is missing, and links were given out")
    elif len(rows) < mark.rows:
        yield _lost(_missing(mark.rows - len(rows), mark.rows))
    elif mark_of(secret.key, rows[: mark.rows]) != mark:
        yield Fault(
            path=(_LINKS, mark.rows - 1),
            what="a different row was written here with the shop's secret",
            why=_OPENS_AGAIN,
            fix=(
                "restore the file; if this is another computer's file and is right, use "
                f"that computer's content/.shop-secret; {_OR_END_ALL}"
            ),
        )


def _missing(missing: int, written: int) -> str:
    is_, was = ("is", "was") if missing == 1 else ("are", "were")
    if missing < written:
        return f"the last {missing} of the {written} rows that were written here {is_} missing"
    return f"the {f'{written} rows' if written > 1 else 'row'} that {was} written here {is_} missing"


def _lost(what: str) -> Fault:
    return Fault(path=(_LINKS,), what=what, why=_OPENS_AGAIN, fix=_AS_IT_WAS)


def _version_faults(rows: tuple[LinkVersion, ...]) -> Iterator[Fault]:
    """A later row has a higher version, unless it ends the link, or keeps it under another name."""
    last: dict[str, LinkVersion] = {}
    for number, row in enumerate(rows):
        before = last.get(row.buyer)
        last[row.buyer] = row
        if before is None or row.version > before.version:
            continue
        if row.version == before.version and (row.link == ENDED or link_name(row) == link_name(before)):
            continue
        yield Fault(
            path=(_LINKS, number, "version"),
            what=f"version {row.version} of '{row.buyer}' comes after version {before.version}",
            why=_OPENS_AGAIN,
            fix=f"restore the file; make a new link with: wickwright link {row.buyer} --renew",
        )


def _gone(id_: str, number: int) -> Fault:
    return warning(
        path=(_LINKS, number, "buyer"),
        what=f"the link of '{id_}' does not work, because no buyer has that id",
        why="if only the id was changed, the shop can no longer open its sheet",
        fix=(
            f"wickwright link {id_} --end to end it for good; or, if the same shop has "
            f"a new id, wickwright link NEW-ID --was {id_}"
        ),
    )


def _another_name(id_: str, before: str, now: str) -> Fault:
    return Fault(
        path=(_BUYERS, id_, "name"),
        what=f"'{id_}' is '{now}', but its link was given to '{before}'",
        why="if it is another shop, anyone with the old link could read its prices",
        fix=(
            f"wickwright link {id_} --renew for another shop; wickwright link {id_} --was "
            f"{id_} for the same one"
        ),
    )
