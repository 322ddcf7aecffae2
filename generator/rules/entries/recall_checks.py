"""Checks of recall notices: whom they reach, and that nothing in them downplays the risk."""

import re
from collections.abc import Iterator
from difflib import get_close_matches
from typing import Final

from generator.model.lots import Recall, plain_code
from generator.model.shop import Shop
from generator.problems import Fault, Path, warning
from generator.rules.entries.lot_checks import stock_codes
from generator.rules.references import IsBroken

SOOTHING: Final = re.compile(
    r"\b(?:voluntar|precaution|discretion|unlikely|rare case|rare situation|specific situation|no report)\w*",
    re.IGNORECASE,
)
"""Words that downplay a risk.

Article 36(2) of Regulation (EU) 2023/988 allows none in a recall notice, and names the like of "voluntary",
"precautionary", "discretionary", "in rare situations" and that nothing has been reported (MEMORY); the rest is CHOICE.
"""

_NO_REMEDY: Final = "a recall notice must say what the buyer gets (Regulation (EU) 2023/988, Article 37)"


def recall_faults(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """Recalls of lots or stock codes that do not exist, of nothing at all, or that downplay the risk."""
    for id_, recall in shop.recalls.items():
        file = f"recalls/{id_}.yaml"
        yield from _empty(file, recall)
        yield from _unknown(file, recall, shop, is_broken)
        yield from _soothing(file, recall)


def _empty(file: str, recall: Recall) -> Iterator[Fault]:
    if not recall.lots and not recall.stock_codes:
        yield Fault(
            path=(file,),
            what="the notice names no lots and no stock codes",
            why="no one could tell whether their candle is affected",
            fix="lots: [...], or stock_codes: [...] for every lot of it",
        )
    if not recall.what_to_do:
        yield Fault(
            path=(file, "what_to_do"),
            what="what_to_do is empty",
            why="anyone with the candle at home would not know what to do with it",
            fix="what_to_do: [..., ...]",
        )
    if recall.remedy is None:
        yield warning(
            path=(file,),
            what="the notice offers no remedy",
            why=_NO_REMEDY,
            fix="remedy: ... (a repair, a replacement or a refund)",
        )


def _unknown(file: str, recall: Recall, shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    lots = {plain_code(lot.lot): lot.lot for lot in shop.lots}
    for number, written in enumerate(recall.lots):
        if plain_code(written) not in lots and not is_broken("lot", written):
            near = get_close_matches(written.upper(), sorted(lots.values()), n=1)
            yield Fault(
                path=(file, "lots", number),
                what=f"there is no lot '{written}' in content/lots.csv",
                why="anyone who looks up the lot you mean would not be warned",
                fix=near[0] if near else "use a lot from content/lots.csv",
            )
    for number, code in enumerate(recall.stock_codes):
        if code not in stock_codes(shop) and not is_broken("stock-code", code):
            near = get_close_matches(code.upper(), sorted(stock_codes(shop)), n=1)
            yield Fault(
                path=(file, "stock_codes", number),
                what=f"there is no stock code '{code}' in content/candles",
                why="the page of the candle you mean would not show the notice",
                fix=near[0] if near else "use the stock code of an entry in content/candles",
            )


def _soothing(file: str, recall: Recall) -> Iterator[Fault]:
    texts: list[tuple[Path, str]] = [((file, "hazard"), recall.hazard)]
    texts += [((file, "what_to_do", number), step) for number, step in enumerate(recall.what_to_do)]
    for path, text in texts:
        found = SOOTHING.search(text)
        if found is not None:
            yield warning(
                path=path,
                what=f"the words '{found[0]}' downplay the risk",
                why=(
                    "readers would keep the candle, and Regulation (EU) 2023/988, Article 36, "
                    "forbids such words"
                ),
                fix="state the hazard and what to do, without them",
            )
