"""What a warning label must say before it may be used in a market, and what is missing."""

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from datetime import date
from typing import Final

from generator.model.markets import Market, Particular, law_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """The message about a label without one particular: what is missing, why it may not be used, what to write."""

    what: str
    why: str
    fix: str


LACKS: Final[Mapping[Particular, Lack]] = {
    "hazards": Lack(
        what="its hazards are unknown",
        why="a label without them would say there are none",
        fix="add the composition of its fragrance",
    ),
    "identifier": Lack(
        what="it has no UFI",
        why="poison centres identify the mixture by it, so the label carries it (CLP Annex VIII part A 5, MEMORY)",
        fix="ufi: the sixteen characters from whoever notified the mixture",
    ),
    "quantity": Lack(
        what="its net quantity is not proven",
        why="what is sold to the public states its nominal quantity (CLP Art. 17(1)(b), FOUND-2nd)",
        fix="weighed: five or more finished candles; or fill: {weight: ...}, if you pour to weight",
    ),
    "supplier": Lack(
        what="it names no supplier in the EU",
        why="the label must name a supplier established there since 2026-07-01 (CLP Art. 4(11), FOUND-2nd)",
        fix="eu_contact: {name: ..., address: [...], email: ..., phone: ...}",
    ),
}


def lacking(market: Market, status: str, absent: Set[Particular], on: date) -> Iterator[Lack]:
    """What keeps a label from being used on a day, of the particulars that are absent; ``status`` is its hazards'."""
    if status == "unknown":
        yield LACKS["hazards"]
    law = law_of(market)
    if status == "classified" and law is not None:
        yield from (LACKS[each] for each, since in law.label_needs.items() if each in absent and on >= since)
