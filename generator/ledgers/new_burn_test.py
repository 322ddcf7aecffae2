"""A burn test's table before its first session: the columns to fill in, and what is tested."""

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from generator.model.amounts import Amount, AmountUnit
from generator.model.formats import Fill
from generator.model.recorded import Build

_COLUMNS: Final = (
    "piece", "session", "hours", "before_g", "after_g", "outcome", "note",
    "flame_mm", "pool_mm", "full_pool_h", "vessel_max_c", "soot", "trimmed",
)  # fmt: skip
_HOURS_A_DAY: Final = 24


def blank_table() -> str:
    """Only the header; rows are typed below it."""
    return ",".join(_COLUMNS) + "\n"


def tested_as(build: Build) -> str:
    """The candle as recorded today, in the keys of the test's entry."""
    return "\n".join(("tested_as:", *(f"  {line}" for line in _build(build)))) + "\n"


def _build(build: Build) -> Iterator[str]:
    yield f"vessel: {build.shape.id}"
    yield "wick: {" + ", ".join(f"{use.wick.id}: {use.count}" for use in build.wicks) + "}"
    if build.fill is not None:
        yield "fill: {" + ", ".join(_fill(build.fill)) + "}"
    yield "ingredients:"
    yield from (f"  {one.material.id}: {_amount(one.amount)}" for one in build.formula.portions)
    if build.cure_h is not None:
        days = build.cure_h / _HOURS_A_DAY
        yield f"cure: {days:g} days" if days.is_integer() else f"cure: {build.cure_h:g} h"


def _fill(fill: Fill) -> Iterator[str]:
    quantities = (
        ("to", fill.to_mm, "mm"),
        ("below_rim", fill.below_rim_mm, "mm"),
        ("weight", fill.weight_g, "g"),
        ("volume", fill.volume_ml, "ml"),
    )
    yield from (
        f"{key}: {_number(Decimal(repr(value)))} {unit}"
        for key, value, unit in quantities
        if value is not None
    )
    if fill.level is not None:
        yield f"level: {fill.level.value}"
    if fill.at_c is not None:
        yield f"at: {_number(Decimal(repr(fill.at_c)))} C"


def _amount(amount: Amount) -> str:
    unit = "ml" if amount.unit is AmountUnit.MILLILITRES else amount.unit.value
    return f"{_number(amount.value)} {unit}"


def _number(value: Decimal) -> str:
    """Without an exponent, and with at most the nine decimals that an entry may have."""
    return f"{float(round(value, 9)):.9f}".rstrip("0").rstrip(".")
