"""What a warning label of an issued sheet lacks in its market."""

from collections.abc import Iterator

from generator.ledgers.sheet import part_of, text_of, texts_of
from generator.making.load_for_papers import Ready
from generator.model.ledger import Issued
from generator.model.markets import MARKETS, Market, Particular
from generator.rules.hazards.label import identifier_due
from generator.rules.labels.label_duties import Lack, lacking


def lacks_of(shop: Ready, issued: Issued, market: Market) -> Iterator[Lack]:
    """What keeps the label of this revision from being used there."""
    yield from lacking(market, hazard_status(issued, market), frozenset(_absent(shop, issued, market)))


def hazard_status(issued: Issued, market: Market) -> str:
    """``classified``, ``none``, ``unknown`` or ``refused``; nothing where the market knows no such labels."""
    return text_of(part_of(part_of(issued.value, "hazards"), market), "status") or ""


def _absent(shop: Ready, issued: Issued, market: Market) -> Iterator[Particular]:
    said = issued.value
    if identifier_due(texts_of(part_of(part_of(said, "hazards"), market), "h")) and not text_of(said, "ufi"):
        yield "identifier"
    if text_of(said, "net_quantity_basis") != "proven":
        yield "quantity"
    if shop.shop.maker.country not in MARKETS[market].countries and not part_of(
        part_of(said, "contacts"), market
    ):
        yield "supplier"
