"""What a warning label of an issued sheet lacks in its market."""

from collections.abc import Iterator

from generator.making.load_for_papers import Ready
from generator.model.countries import EU_COUNTRIES
from generator.model.ledger import Issued
from generator.model.maker import Market
from generator.rules.hazards.label import identifier_due
from generator.rules.labels.label_duties import Lack, Particular, lacking


def lacks_of(shop: Ready, issued: Issued, market: Market) -> Iterator[Lack]:
    """What keeps the label of this revision from being used there."""
    yield from lacking(market, hazard_status(issued, market), frozenset(_absent(shop, issued, market)))


def hazard_status(issued: Issued, market: Market) -> str:
    """``classified``, ``none``, ``unknown`` or ``refused``; nothing where the market knows no such labels."""
    label = issued.value.hazards.get(market)
    return label.status if label else ""


def _absent(shop: Ready, issued: Issued, market: Market) -> Iterator[Particular]:
    said = issued.value
    label = said.hazards.get(market)
    if label and identifier_due(label.h) and not said.ufi:
        yield "identifier"
    if said.net_quantity_basis != "proven":
        yield "quantity"
    if shop.shop.maker.country not in EU_COUNTRIES and market not in said.contacts:
        yield "supplier"
