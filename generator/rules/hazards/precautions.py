"""Precautionary statements for a consumer candle: which each class requires, and which six are printed."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from generator.model.hazard_classes import HazardClass

MOST: Final = 6
"""Not more than six, CLP Art. 28(3) (FOUND); a combined statement counts as one (MEMORY)."""

KEEP_FROM_CHILDREN: Final = "P102"
LABEL_AT_HAND: Final = "P101"
FOLLOW_INSTRUCTIONS: Final = "P103"
DISPOSAL: Final = "P501"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Precaution:
    """What one class requires: response and prevention."""

    response: tuple[str, ...] = ()
    prevention: tuple[str, ...] = ()


PRECAUTIONS: Final[Mapping[str, _Precaution]] = MappingProxyType({
    "H318": _Precaution(response=("P305+P351+P338", "P310"), prevention=("P280",)),
    "H317": _Precaution(response=("P302+P352", "P333+P313")),
    "H319": _Precaution(response=("P305+P351+P338", "P337+P313")),
    "H315": _Precaution(response=("P302+P352", "P332+P313"), prevention=("P264",)),
    "H335": _Precaution(response=("P304+P340",), prevention=("P271",)),
    "H336": _Precaution(response=("P304+P340",), prevention=("P271",)),
    "H362": _Precaution(response=("P308+P313",)),
    "H400": _Precaution(response=("P391",), prevention=("P273",)),
    "H410": _Precaution(response=("P391",), prevention=("P273",)),
    "H411": _Precaution(response=("P391",), prevention=("P273",)),
    "H412": _Precaution(prevention=("P273",)),
    "H413": _Precaution(prevention=("P273",)),
})  # fmt: skip
"""Statements by hazard statement, severest first. The choice for a consumer candle is ours (CHOICE), out of
the allocation by class (FOUND in a table of the UN's codes with P317 read as P313; the EU tables MEMORY). The
classes of Reg. (EU) 2023/707 have only the general statements here."""

_COVERED_BY: Final = MappingProxyType({"P332+P313": "P333+P313"})
"""Redundant, CLP Art. 28(1): skin irritation or rash says skin irritation too."""


def precautions(classes: Iterable[HazardClass]) -> tuple[str, ...]:
    """At most six statements, in the order of their codes.

    Picked in this order (CHOICE): disposal, children, the severest class's response and prevention, those of
    the other health classes, the label at hand, water life, the instructions.
    """
    codes = {outcome.code for outcome in classes}
    if not codes:
        return ()
    health = [PRECAUTIONS[code] for code in PRECAUTIONS if code in codes and not _to_water(code)]
    water = [PRECAUTIONS[code] for code in PRECAUTIONS if code in codes and _to_water(code)]
    picked: list[str] = [DISPOSAL, KEEP_FROM_CHILDREN]
    picked += [statement for advice in health for statement in (*advice.response, *advice.prevention)]
    if any(not _to_water(code) for code in codes):
        picked.append(LABEL_AT_HAND)
    picked += [statement for advice in water for statement in (*advice.prevention, *advice.response)]
    picked.append(FOLLOW_INSTRUCTIONS)
    return tuple(sorted(_without_repetition(picked)[:MOST]))


def needed_by(codes: Iterable[str]) -> frozenset[str]:
    """Every P statement that these H statements require, including general ones; empty for none."""
    asked = [PRECAUTIONS.get(code, _Precaution()) for code in codes]
    if not asked:
        return frozenset()
    general = {DISPOSAL, KEEP_FROM_CHILDREN, LABEL_AT_HAND, FOLLOW_INSTRUCTIONS}
    return frozenset(general.union(*((*advice.response, *advice.prevention) for advice in asked)))


def _to_water(code: str) -> bool:
    return code.startswith("H4")


def _without_repetition(picked: Sequence[str]) -> list[str]:
    return [statement for statement in dict.fromkeys(picked) if _COVERED_BY.get(statement) not in picked]
