"""The private record of a sheet: everything its figures depend on, as text in which two records can be compared."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from enum import Enum
from typing import Final

from generator.model.amounts import Amount, Share
from generator.model.burn_tests import Session
from generator.model.canonical import Plain, canonical
from generator.model.hazard_classes import HazardClass
from generator.model.lots import PouredFormula
from generator.model.materials import Constituent
from generator.model.recorded import Build, Portion, Recorded, Test, WickUse

_ON_ONE_LINE: Final = (Amount, HazardClass, Session, Share)
_POURED: Final = ("stock_code", "candle", "scent", "size_name", "kind", "build", "make")
_DIGITS: Final = 12
"""Significant digits of a number: more than any scale shows, and the same text on every machine."""


def record_of(recorded: Recorded | Test) -> Mapping[str, Plain]:
    """The record as text; lists of named things become mappings by name, so that a change names its field."""
    told = _plain(recorded)
    return told if isinstance(told, dict) else {}


def poured_of(record: Mapping[str, Plain]) -> PouredFormula:
    """The part of a record that says what is poured, without prices, tests and the day, which change independently."""
    recorded = canonical({key: _as_bought(record[key]) for key in _POURED if key in record})
    return replace(unnamed := PouredFormula(name="", recorded=recorded), name=unnamed.true_name)


def _as_bought(value: Plain) -> Plain:
    """Without whether it can still be bought, which does not affect what went in."""
    if not isinstance(value, Mapping):
        return value
    return {key: _as_bought(each) for key, each in value.items() if key != "discontinued"}


def _plain(value: object) -> Plain | None:
    """Lists, mappings and dataclasses part by part; anything else as one text."""
    if isinstance(value, Mapping):
        return _known((str(key), each) for key, each in value.items())
    if isinstance(value, Sequence) and not isinstance(value, str):
        return _list(value)
    if isinstance(value, Test):
        return _known((*_fields(replace(value, tested_as=None)), ("tested_as", _tested(value.tested_as))))
    if isinstance(value, Build):
        return _known(_build_fields(value))
    if is_dataclass(value) and not isinstance(value, _ON_ONE_LINE):
        return _known(_fields(value))
    return on_one_line(value)


def _build_fields(build: Build) -> Iterator[tuple[str, object]]:
    """A container under the key of its entry; the shape only where no container gives it."""
    for name, value in _fields(build):
        if name == "container":
            yield "vessel", value
        elif name != "shape" or build.container is None:
            yield name, value


def _tested(build: Build | None) -> Mapping[str, object] | None:
    """What was burnt, in the keys of its entry; the materials themselves are recorded once, with the candle."""
    if build is None:
        return None
    return {
        "vessel": build.shape.id,
        "wick": {use.wick.id: use.count for use in build.wicks},
        "fill": build.fill,
        "ingredients": {portion.material.id: portion.amount for portion in build.formula.portions},
        "cure_h": build.cure_h,
    }


def on_one_line(value: object) -> str | None:
    """A number, a word or a small value as the record writes it; None where there is none."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value:.{_DIGITS}g}"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    return _parts(value) if is_dataclass(value) else str(value) if value is not None else None


def _parts(value: object) -> str:
    """A small dataclass on one line."""
    told = {name: _plain(each) for name, each in _fields(value)}
    if isinstance(value, Share):
        return f"{told['percent']} % {told['basis']}"
    if isinstance(value, Session):
        return ", ".join(f"{name} {each}" for name, each in told.items() if each)
    return " ".join(str(each) for each in told.values())


def _fields(value: object) -> Iterator[tuple[str, object]]:
    if is_dataclass(value):
        for field in fields(value):
            yield field.name, getattr(value, field.name)


def _list(values: Sequence[object]) -> Plain | None:
    names = [_name(each) for each in values]
    if all(names) and len(set(names)) == len(names):
        return _known(zip(map(str, names), values, strict=True))
    return [told for each in values if (told := _plain(each)) is not None]


def _name(value: object) -> str | None:
    """The name of a list item, if it has one."""
    if isinstance(value, Portion):
        return str(value.material.id)
    if isinstance(value, WickUse):
        return value.wick.id
    if isinstance(value, Test):
        return value.file
    return value.substance if isinstance(value, Constituent) else None


def _known(pairs: Iterable[tuple[str, object]]) -> dict[str, Plain]:
    told = ((key, _plain(each)) for key, each in pairs)
    return {key: each for key, each in told if each}
