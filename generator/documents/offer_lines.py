"""What a shopper is offered: a price for what is on sale, a day for what is coming, a remark."""

from typing import Final

from generator.documents.frame import home_market
from generator.documents.house import House
from generator.documents.printed import day, money
from generator.documents.shelves import Standing, standing
from generator.model.candle import Candle
from generator.model.recorded import Recorded
from generator.model.sizes import Status

_REMARKS: Final = {
    Status.MADE_TO_ORDER: "made_to_order",
    Status.LAST_FEW: "last_few",
    Status.DISCONTINUED: "no_longer",
}


def asking_price(house: House, candle: Candle, recorded: Recorded) -> str | None:
    """The retail price, only of what is on the shelves today."""
    on_the_shelf = standing(recorded.status, candle.sold, house.as_of) is Standing.ON_THE_SHELF
    if recorded.price is None or not on_the_shelf:
        return None
    return money(recorded.price, recorded.currency, home_market(house), house.words)


def first_day(house: House, candle: Candle) -> str | None:
    """The first day of sale, if recorded and still ahead."""
    begins = candle.sold.from_ if candle.sold else None
    return day(begins, house.words) if begins and begins > house.as_of else None


def last_day(house: House, candle: Candle) -> str | None:
    """The last day of sale, if recorded."""
    ends = candle.sold.until if candle.sold else None
    return day(ends, house.words) if ends else None


def remark(house: House, status: Status) -> str | None:
    """What a shopper should know of a size's status; nothing for an ordinary one."""
    return house.words["catalogue"][_REMARKS[status]] if status in _REMARKS else None
