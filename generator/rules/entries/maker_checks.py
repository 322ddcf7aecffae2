"""Checks of the maker's own entry."""

from collections.abc import Iterator
from typing import Final

from generator.model.addresses import is_international
from generator.model.maker import CONTACT_KEYS, Maker, contact_path
from generator.model.markets import MARKETS, Market, known_markets
from generator.model.money import CURRENCIES
from generator.model.shop import Shop
from generator.problems import Fault, Path, warning
from generator.rules.references import sizes

MOST_WASTE_PERCENT: Final = 50.0
"""More waste than that is a slip of the pen. (CHOICE)"""


def the_maker(shop: Shop) -> Iterator[Fault]:
    """What the maker's own entry must contain for the markets she names."""
    maker = shop.maker
    if maker.currency not in CURRENCIES:
        yield Fault(
            path=("maker.yaml", "currency"),
            what=f"currency is '{maker.currency}', which is not supported",
            why="prices could not be rounded or printed",
            fix=f"{', '.join(list(CURRENCIES)[:5])} ...",
        )
    if not maker.markets:
        yield Fault(
            path=("maker.yaml", "markets"),
            what="markets is empty",
            why="guidance, net quantity and warnings follow the market",
            fix=f"markets: [{known_markets()}]",
        )
    if maker.scale_step_g <= 0:
        yield Fault(
            path=("maker.yaml", "scale_step"),
            what="scale_step is 0 g",
            why="weights are rounded to the step of the scale",
            fix="scale_step: ... g",
        )
    if maker.waste_percent is not None and maker.waste_percent > MOST_WASTE_PERCENT:
        yield Fault(
            path=("maker.yaml", "waste"),
            what=f"waste is {maker.waste_percent:g} %, more than half of what is poured",
            why="pouring weights are calculated from it",
            fix="waste: ... %, what really stays in pot, jug and test pieces",
        )
    yield from _contacts(maker)
    yield from _phones(shop)


def _phones(shop: Shop) -> Iterator[Fault]:
    """Numbers in national form, which cannot be dialled from another country."""
    maker = shop.maker
    written: list[tuple[Path, str | None]] = [(("maker.yaml", "phone"), maker.phone)]
    written += [
        (("maker.yaml", *contact_path(market), "phone"), contact.phone)
        for market, contact in maker.contacts_by_market().items()
    ]
    written += [
        ((*at, "responsible", "phone"), size.responsible.phone)
        for at, _, size, _ in sizes(shop)
        if size.responsible
    ]
    for path, number in written:
        if number is not None and not is_international(number):
            yield warning(
                path=path,
                what=f"phone is '{number}', without + and a country code",
                why=(
                    "labels and sheets print it in every market, and it cannot be dialled from "
                    "another country"
                ),
                fix=_from_abroad(number),
                check="home-phone",
            )


def _from_abroad(number: str) -> str:
    """The maker's own digits behind a +, where she wrote the 00 that is dialled before the code of a country."""
    if number.startswith("00"):
        return f"phone: +{number[2:].lstrip()}, if the digits after 00 are the country code"
    return f"phone: + and the country code before {number}, usually in place of a leading zero"


def _contacts(maker: Maker) -> Iterator[Fault]:
    known = maker.contacts_by_market()
    for market, row in MARKETS.items():
        key = CONTACT_KEYS.get(market)
        twice = key is not None and getattr(maker, key) is not None
        if market in maker.contacts and (twice or not row.needs_contact):
            yield Fault(
                path=("maker.yaml", "contacts", market),
                what=f"{market} is under contacts and under {key}" if twice else f"{market} needs no contact",
                why="two people would answer for one label" if twice else "no label there would name it",
                fix=f"delete {market} under contacts",
            )
        if (
            market in maker.markets
            and row.needs_contact
            and not (maker.country in row.countries or market in known)
        ):
            yield warning(
                path=("maker.yaml",),
                what=f"{market} is a market, but there is no {' for '.join(map(str, contact_path(market)))}",
                why="candles sold there must name someone established there who answers for their safety",
                fix=_contact_form(market),
            )


def _contact_form(market: Market) -> str:
    """What a maker writes to name who answers in a market."""
    form = "{name: ..., address: [...], email: ..., phone: ...}"
    key = CONTACT_KEYS.get(market)
    return f"contacts: {{{market}: {form}}}" if key is None else f"{key}: {form}"
