"""What a label lacks before it may be used."""

from datetime import date
from typing import get_args

import pytest

from generator.model.markets import MARKETS, Market, Particular, law_of
from generator.rules.labels.label_duties import LACKS, lacking

TODAY = date(2026, 11, 1)
EVERYTHING: frozenset[Particular] = frozenset(get_args(Particular))


def test_a_classified_label_in_the_union_needs_identifier_quantity_and_supplier() -> None:
    """CLP Art. 17(1), Art. 4(11) and Annex VIII (as marked beside each)."""
    found = list(lacking("EU", "classified", EVERYTHING, TODAY))

    assert found == [LACKS["identifier"], LACKS["quantity"], LACKS["supplier"]]


@pytest.mark.parametrize("particular", ["identifier", "quantity", "supplier"])
def test_each_of_them_is_asked_for_by_itself(particular: Particular) -> None:
    assert list(lacking("EU", "classified", {particular}, TODAY)) == [LACKS[particular]]
    assert list(lacking("EU", "none", {particular}, TODAY)) == []


@pytest.mark.parametrize("market", MARKETS)
def test_unknown_hazards_are_refused_in_every_market(market: Market) -> None:
    assert list(lacking(market, "unknown", EVERYTHING, TODAY)) == [LACKS["hazards"]]


@pytest.mark.parametrize("market", MARKETS)
def test_a_classified_label_needs_what_the_law_of_its_market_names(market: Market) -> None:
    law = law_of(market)

    needed = [] if law is None else [LACKS[each] for each in law.label_needs]

    assert list(lacking(market, "classified", EVERYTHING, TODAY)) == needed
