"""Which form of a noun a count takes, by the rules of its language as Unicode CLDR writes them."""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Final

OTHER: Final = "other"
"""The category of every count that no rule of the language names."""

_RELATION: Final = re.compile(r"([nivwft])(?: % (\d+))? (!?=) (\d+(?:\.\.\d+)?(?:,\d+(?:\.\.\d+)?)*)")


def plural_category(count: str, rules: Mapping[str, str]) -> str:
    """The CLDR category, such as ``one`` or ``few``, of a count as it is written without signs: ``12`` or ``1.5``.

    Source: Unicode Technical Standard #35, part 3, "Language Plural Rules" (FOUND). Rules are the conditions of
    ``plurals.json`` without their samples; the operands of compact forms, ``c`` and ``e``, are not read.

    >>> plural_category("1", {"one": "i = 1 and v = 0"})
    'one'
    >>> plural_category("1.0", {"one": "i = 1 and v = 0"})
    'other'
    """
    return next((category for category, rule in rules.items() if _holds(rule, count)), OTHER)


def is_plural_rule(text: str) -> bool:
    """Whether a text is a condition that `plural_category` can read."""
    return all(_RELATION.fullmatch(relation) for relation in re.split(r" (?:and|or) ", text))


@lru_cache(maxsize=4096)
def _holds(rule: str, count: str) -> bool:
    return any(
        all(_is_true(relation, count) for relation in alternative.split(" and "))
        for alternative in rule.split(" or ")
    )


def _is_true(relation: str, count: str) -> bool:
    parts = _RELATION.fullmatch(relation)
    if parts is None:
        raise ValueError(relation)
    operand, divisor, sign, ranges = parts.groups()
    value = _operand(operand, count)
    if divisor is not None:
        value %= int(divisor)
    return any(_is_in(value, one) for one in ranges.split(",")) == (sign == "=")


def _operand(name: str, count: str) -> float:
    """An operand of the standard: the number, its whole part, and its decimals with and without zeros at the end."""
    whole, _, decimals = count.partition(".")
    bare = decimals.rstrip("0")
    return {
        "n": float(count),
        "i": int(whole),
        "v": len(decimals),
        "w": len(bare),
        "f": int(decimals or 0),
        "t": int(bare or 0),
    }[name]


def _is_in(value: float, written: str) -> bool:
    """Whether a value is a number or one of the whole numbers of a range, ``2..4``."""
    low, _, high = written.partition("..")
    return value in range(int(low), int(high or low) + 1)
