"""The workshop's list of trade links: whom each is for, what to send, and a way to see what the buyer sees."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from generator.document import Document, PlainText
from generator.documents.csv_tables import BYTE_ORDER_MARK, as_table
from generator.documents.house import House
from generator.model.trade import Buyer

LINK_LIST_COLUMNS: Final = ("buyer", "name", "contact", "version", "address")
"""The columns for a mail merge; ``address`` is empty while the shop has no web address."""

LINK_LIST: Final = "workshop/links.html"
LINK_TABLE: Final = "workshop/links.csv"
_SITE_FROM_THE_WORKSHOP: Final = "../site/"


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyersLink:
    """The link of one buyer: its version, the page's path from the site's root, and the key behind the ``#``."""

    buyer: Buyer
    version: int
    path: str
    key: str

    def below(self, root: str) -> str:
        """The complete link below a site's address or folder, which ends in a slash."""
        return f"{root}{self.path}#{self.key}"


def link_table(links: Iterable[BuyersLink], web: str | None) -> str:
    """A line for each buyer, with the address to send."""
    rows = (
        {
            "buyer": link.buyer.id,
            "name": link.buyer.name,
            "contact": link.buyer.contact or "",
            "version": str(link.version),
            "address": link.below(f"{web.rstrip('/')}/") if web else "",
        }
        for link in links
    )
    return as_table(LINK_LIST_COLUMNS, rows)


def link_list(house: House, links: Sequence[BuyersLink]) -> Document:
    """Every link as a page for the maker only."""
    words, web = house.words["links"], house.maker.web
    return Document(
        path=LINK_LIST,
        template="pages/links.html",
        value={
            "title": words["title"],
            "language": house.maker.language,
            "lead": words["lead"],
            "heads": tuple(words[name] for name in ("buyer", "version", "send")),
            "see": words["see"],
            "links": tuple(
                {
                    "name": link.buyer.name,
                    "version": str(link.version),
                    "send": link.below(f"{web.rstrip('/')}/") if web else words["no_web"],
                    "from_disk": link.below(_SITE_FROM_THE_WORKSHOP),
                }
                for link in links
            ),
        },
    )


def link_list_table(links: Sequence[BuyersLink], web: str | None) -> PlainText:
    """The same as a table."""
    return PlainText(path=LINK_TABLE, text=f"{BYTE_ORDER_MARK}{link_table(links, web)}")
