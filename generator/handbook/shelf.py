"""All pages of the handbook in reading order."""

from functools import cache
from typing import Final

from generator.handbook.keys_page import keys_page
from generator.handbook.page_text import HandbookPage, page_from
from generator.handbook_pages import MADE, PAGES
from generator.reading.shipped import PACKAGE

_FOLDER: Final = PACKAGE / "data" / "handbook"


@cache
def handbook_page(name: str) -> HandbookPage:
    """One page by its name."""
    if name == MADE:
        return keys_page(name)
    return page_from(name, (_FOLDER / f"{name}.md").read_text(encoding="utf-8"))


def handbook() -> tuple[HandbookPage, ...]:
    """Every page."""
    return tuple(map(handbook_page, PAGES))
