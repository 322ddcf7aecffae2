"""Checks of codes, names and addresses that may be given only once."""

import re
from collections.abc import Container, Iterator
from typing import Final

from generator.model.shop import Shop
from generator.problems import Fault, Path
from generator.rules.labels.barcode import normal_form
from generator.rules.references import sizes

_REVISION_OF: Final = re.compile(r"(.+)-r[1-9][0-9]*")
"""The end of an issued sheet's permanent address, after its stock code."""


def repeated_stock_codes(shop: Shop) -> Iterator[Fault]:
    """Two sizes with one stock code, or with codes that differ only in case."""
    first: dict[str, tuple[str, Path]] = {}
    for at, _, size, _ in sizes(shop):
        code = size.stock_code
        if code.lower() not in first:
            first[code.lower()] = (code, at)
            continue
        earlier, earlier_at = first[code.lower()]
        if earlier == code:
            what, why = (
                f"stock code {code} is used twice",
                "two candles would share one page, one label and one price",
            )
        else:
            what = f"stock codes {code} and {earlier} differ only in capitals"
            why = "on many computers and web hosts their pages would be one file"
        yield Fault(
            path=(*at, "stock_code"),
            what=what,
            why=f"{why} (the other one is in content/{earlier_at[0]})",
            fix="use a stock code that no other candle has",
        )


def taken_addresses(shop: Shop) -> Iterator[Fault]:
    """Stock codes whose burn-safety page would take the address of another page."""
    codes = {size.stock_code.lower(): size.stock_code for _, _, size, _ in sizes(shop)}
    for at, _, size, _ in sizes(shop):
        code = size.stock_code
        revised = _REVISION_OF.fullmatch(code.lower())
        other = codes.get(revised[1]) if revised else None
        if other is not None or code.lower() == "index":
            whose = "the list of all sheets" if other is None else f"an issued sheet of {other}"
            yield Fault(
                path=(*at, "stock_code"),
                what=f"stock code {code} takes the address of {whose}",
                why=f"both pages would be safety/{code}.html, and one of them would be lost",
                fix="use a stock code that no page of the site is named after",
            )


def repeated_barcodes(shop: Shop) -> Iterator[Fault]:
    """Two sizes with one barcode."""
    first: dict[str, str] = {}
    for at, _, size, _ in sizes(shop):
        if size.barcode is None:
            continue
        earlier = first.setdefault(normal_form(size.barcode), size.stock_code)
        if earlier != size.stock_code:
            yield Fault(
                path=(*at, "barcode"),
                what=f"barcode {size.barcode} is also that of {earlier}",
                why="a till would sell one as the other",
                fix="enter this candle's own number, or delete the line",
            )


def colliding_pages(shop: Shop, reserved: Container[str]) -> Iterator[Fault]:
    """A maker's page that would take the address of one of the program's; ``reserved`` are their names."""
    for id_ in shop.pages:
        if id_.lower() in reserved:
            yield Fault(
                path=(f"pages/{id_}.md",),
                what=f"pages/{id_}.md would become {id_}.html, a page the program makes itself",
                why="one of the two pages would be lost",
                fix=f"rename the file, for example to our-{id_}.md",
            )


def shared_ids(shop: Shop) -> Iterator[Fault]:
    """Two materials of different sorts under one id, so that a formula could mean either."""
    first: dict[str, str] = {}
    for folder in ("waxes", "fragrances", "additives", "dyes"):
        for id_ in getattr(shop, folder):
            earlier = first.setdefault(id_, folder)
            if earlier != folder:
                yield Fault(
                    path=(f"{folder}/{id_}.yaml",),
                    what=f"'{id_}' is also the name of a file in content/{earlier}",
                    why="a recipe that names it could mean either",
                    fix=f"rename one of the two files, for example to {id_}-{folder}.yaml",
                )
