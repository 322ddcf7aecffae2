"""Plain data to the model's values, with every fault found at once and placed where it is written."""

from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError

from generator.problems import Problem
from generator.reading.faults import Thing, Written
from generator.reading.wording import worded


def validated(written: Written[Thing]) -> Thing | tuple[Problem, ...]:
    """The model's value, or all the faults of what is written."""
    kind: Any = written.kind
    try:
        value: Thing = _adapter(kind).validate_python(written.data)
    except ValidationError as error:
        return worded(error.errors(include_url=False), written)
    return value


def is_valid(kind: Any, data: Any) -> bool:
    """Whether something may be written as it is."""
    try:
        _adapter(kind).validate_python(data)
    except ValidationError:
        return False
    return True


@cache
def _adapter(kind: Any) -> TypeAdapter[Any]:
    return TypeAdapter(kind)
