"""What a label lacks before it may be used."""

from typing import get_args

import pytest

from generator.model.maker import Market
from generator.rules.labels.label_duties import LACKS, OF_CLASSIFIED, Particular, lacking

EVERYTHING: frozenset[Particular] = frozenset(get_args(Particular))


def test_a_classified_label_in_the_union_needs_identifier_quantity_and_supplier() -> None:
    """CLP Art. 17(1), Art. 4(11) and Annex VIII (as marked beside each)."""
    found = list(lacking("EU", "classified", EVERYTHING))

    assert found == [LACKS["identifier"], LACKS["quantity"], LACKS["supplier"]]


@pytest.mark.parametrize("particular", ["identifier", "quantity", "supplier"])
def test_each_of_them_is_asked_for_by_itself(particular: Particular) -> None:
    assert list(lacking("EU", "classified", {particular})) == [LACKS[particular]]
    assert list(lacking("EU", "none", {particular})) == []


@pytest.mark.parametrize("market", get_args(Market))
def test_unknown_hazards_are_refused_in_every_market(market: Market) -> None:
    assert list(lacking(market, "unknown", EVERYTHING)) == [LACKS["hazards"]]


def test_every_market_says_what_it_asks_for() -> None:
    assert set(OF_CLASSIFIED) == set(get_args(Market))
