"""Classes with which a candle is not put on a shelf: the reason is said instead of a label."""

from collections.abc import Iterable
from typing import Final

from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.reasons import Reason

BANNED: Final = frozenset({"Muta. 1A", "Muta. 1B", "Carc. 1A", "Carc. 1B", "Repr. 1A", "Repr. 1B"})
AIRWAYS: Final = frozenset({"Resp. Sens. 1", "Resp. Sens. 1A", "Resp. Sens. 1B"})
TACTILE: Final = frozenset({
    "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Acute Tox. 4", "Asp. Tox. 1", "Carc. 2", "Muta. 2",
    "Repr. 2", "Skin Corr. 1", "Skin Corr. 1A", "Skin Corr. 1B", "Skin Corr. 1C", "STOT RE 1", "STOT RE 2",
    "STOT SE 1", "STOT SE 2",
})  # fmt: skip


def refusals(classes: Iterable[HazardClass]) -> tuple[Reason, ...]:
    """Why a candle of these classes is refused; empty where it may be sold with a label."""
    return tuple(reason for outcome in classes for reason in _refusal(outcome))


def _refusal(outcome: HazardClass) -> tuple[Reason, ...]:
    if outcome.name in BANNED:
        text = f"{outcome}: may not be sold to consumers at all"
        return (Reason(kind="refused", text=text, source="REACH Annex XVII entries 28 to 30", mark="MEMORY"),)
    if outcome.name in AIRWAYS:
        text = f"{outcome}: a candle is breathed; ask a safety adviser before it is sold"
        return (Reason(kind="refused", text=text, source="CLP Annex I Table 3.4.5", mark="PRACTICE"),)
    if outcome.name in TACTILE:
        text = f"{outcome}: needs a mark for the blind or a child-proof lid; ask a safety adviser first"
        return (Reason(kind="refused", text=text, source="CLP Annex II Part 3", mark="MEMORY"),)
    return ()
