"""What day it is. Nothing else in the program asks, but for waits and for the times of files and signatures."""

from datetime import date


def local_day() -> date:
    """Today, where the maker is."""
    return date.today()  # noqa: DTZ011  (her own calendar, whatever the zone)
