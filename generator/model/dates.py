"""Days as ISO 8601 writes them, and what other ways of writing a day may mean."""

import re
from datetime import date
from typing import Annotated, Final

from generator.model.quantities import as_text, wrong

TODAY: Final = "today"
"""How the maker writes the day on which a command is run."""

_MONTHS: Final = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_FIRST_YEAR: Final = 1900
"""No candle sold today was poured earlier (CHOICE); rules look back some years from a day."""


def calendar_date(written: object) -> date:
    """A date as ISO 8601 writes it: ``2026-11-01``."""
    text = str(written).strip()
    is_in_order = re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text)
    found = _date(text) if is_in_order else None
    if is_in_order and found is None:
        raise wrong(
            f"is '{text}', a date that does not exist", "the papers would give a date that does not exist"
        )
    if found is None:
        raise wrong(
            f"is '{text}'; expected a date",
            "01/02 is January to some readers and February to others",
            _offered(text),
        )
    if found.year < _FIRST_YEAR:
        raise wrong(
            f"is '{text}'; expected a date from the year {_FIRST_YEAR} on",
            "a mistyped year would change everything that is counted from it",
        )
    return found


def day_or_today(written: object) -> date | None:
    """A fixed day, or None for ``today``: the day on which a command is run."""
    text = str(written).strip()
    if text == TODAY:
        return None
    if text and not any(sign.isnumeric() for sign in text):
        raise wrong(
            f"is '{text}'; expected {TODAY} or a date",
            "prices and details are as of this day",
            f"{TODAY}, or a fixed day as year-month-day",
        )
    return calendar_date(text)


def _date(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _offered(text: str) -> str:
    """The maker's own day in each possible order of its parts."""
    parts = [_as_number(part) for part in re.findall(r"[0-9]+|[a-z]+", text.lower()) if part not in _ENDINGS]
    if re.fullmatch("[0-9]{8}", text):
        parts = [text[:4], text[4:6], text[6:]]
    orders = _orders(parts)
    days = dict.fromkeys(f"{year:0>4}-{month:0>2}-{day:0>2}" for year, month, day in orders)
    possible = [day for day in days if _date(day) is not None]
    if possible:
        return ", or ".join(possible)
    return "a date, as year-month-day" if re.search("[0-9]", text) else ""


_ENDINGS: Final = ("st", "nd", "rd", "th", "of")
_Parts = tuple[str, str, str]


def _orders(parts: list[str]) -> tuple[_Parts, ...]:
    """Year, month and day in each possible order; a month in letters arrives as its number with a sign before it."""
    if len(parts) != 3:
        return ()
    first, second, third = parts
    if len(first) == 4:
        return ((first, second.lstrip("m"), third),)
    year = third if len(third) == 4 else f"20{third}"
    if first.startswith("m"):
        return ((year, first.lstrip("m"), second),)
    if second.startswith("m"):
        return ((year, second.lstrip("m"), first),)
    return ((year, second, first), (year, first, second))


def _as_number(part: str) -> str:
    if part.isdecimal():
        return part
    return f"m{_MONTHS.index(part[:3]) + 1}" if part[:3] in _MONTHS else part


_DAY: Final = (r"^\d{4}-\d{2}-\d{2}$", "2026-11-01", "year-month-day")
Day = Annotated[date, *as_text(calendar_date, *_DAY)]
DayOrToday = Annotated[
    date | None,
    *as_text(
        day_or_today,
        rf"^({TODAY}|\d{{4}}-\d{{2}}-\d{{2}})$",
        "prices and details are as of this day: today, which is also meant where the key is left out, "
        "or a fixed day such as 2026-11-01",
        f"{TODAY}, or a fixed day as year-month-day",
    ),
]
