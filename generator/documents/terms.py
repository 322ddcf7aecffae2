"""The terms of trade as printed: all of them for a buyer, the chosen ones for everyone."""

from collections.abc import Iterator, Mapping

from generator.document import Value
from generator.documents.house import House
from generator.documents.printed import day, listed, money
from generator.model.kinds import KINDS
from generator.model.markets import Market
from generator.model.money import Money
from generator.model.trade import Buyer, Terms, smallest_orders

Said = Mapping[str, Value]


def buyers_terms(house: House, terms: Terms, buyer: Buyer, market: Market) -> Iterator[Said]:
    """The terms of a buyer's orders, with the buyer's own minimum orders."""
    opening, repeat = smallest_orders(terms, buyer, house.maker.currency)
    for name, smallest in (("opening", opening), ("repeat", repeat)):
        if smallest is not None:
            yield _said(house, name, money(smallest, buyer.currency, market, house.words))
    for name, text in _texts(terms).items():
        if text is not None:
            yield _said(house, name, text)
    yield _said(house, "customs", customs(house))
    yield _said(house, "valid_name", validity(house, terms))


def chosen_terms(house: House, terms: Terms) -> Iterator[Said]:
    """The terms the maker shows to everyone, in the maker's order."""
    smallest = {"opening_order": ("opening", terms.opening), "repeat_order": ("repeat", terms.repeat)}
    for key in terms.enquiry:
        name, price = smallest.get(key, (key, None))
        text = _home_money(house, price) if key in smallest else _texts(terms).get(key)
        if text is not None:
            yield _said(house, name, text)


def validity(house: House, terms: Terms) -> str:
    """The days on which the prices hold."""
    first, last = (day(when, house.words) for when in (terms.valid_from, terms.valid_until))
    return house.words["order"]["valid"].format(first=first, last=last)


def customs(house: House) -> str:
    """What a customs paper asks of the maker's candles; a code of the maker's own with the sizes that it is for."""
    headings, own, words = set[str](), dict[str, dict[str, None]](), house.words["order"]
    for size in house.sizes:
        code = size.facts.hs_heading
        if code is not None and code == KINDS[size.facts.kind].customs_heading:
            headings.add(code)
        elif code is not None:
            own.setdefault(code, {})[size.recorded.size_name] = None
    named = [words["heading_3406"].format(heading=heading) for heading in sorted(headings)]
    named += [
        words["tariff_code"].format(code=code, sizes=listed(own[code], house.words)) for code in sorted(own)
    ]
    return listed((house.maker.origin or house.maker.country, *named), house.words)


def _texts(terms: Terms) -> Mapping[str, str | None]:
    names = ("lead_time", "payment", "carriage", "returns", "testers")
    return {name: getattr(terms, name) for name in names}


def _home_money(house: House, price: Money | None) -> str | None:
    maker = house.maker
    return None if price is None else money(price, maker.currency, maker.markets[0], house.words)


def _said(house: House, name: str, text: str) -> Said:
    return {"name": house.words["order"][name], "text": text}
