"""What a warning label of an issued sheet lacks in its market, and whether it says the hazards of its lot."""

from collections.abc import Iterator

from generator.model.countries import EU_COUNTRIES
from generator.model.ledger import Issued
from generator.model.lots import Lot
from generator.model.maker import Market
from generator.revisions.record import poured_of, record_of
from generator.revisions.sheet import Sheet, part_of, text_of, texts_of
from generator.rules.hazards.label import identifier_due
from generator.rules.label_duties import Lack, Particular, lacking
from generator.stories.ready import Ready


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
    if shop.shop.maker.country not in EU_COUNTRIES and not part_of(part_of(said, "contacts"), market):
        yield "supplier"


def is_of_other_hazards(shop: Ready, lot: Lot, issued: Issued, market: Market) -> bool:
    """Whether a lot was poured by a formula of which today's sheet, or another revision, says other hazards.

    The lot's row names the sheet that was in force when it was poured, and the formula may have changed before that.
    """
    poured = lot.formula_fingerprint
    if poured is None or poured == poured_of(issued.record).name:
        return False
    state = shop.house.sheets[lot.stock_code]
    revisions = state.ledger.revisions if state.ledger else ()
    said = [one.value for one in revisions if poured_of(one.record).name == poured]
    if poured_of(record_of(shop.sizes[lot.stock_code].recorded)).name == poured:
        said.append(state.value)
    return any(_hazards(value, market) != _hazards(issued.value, market) for value in said)


def _hazards(said: Sheet, market: Market) -> Sheet:
    return part_of(part_of(said, "hazards"), market)
