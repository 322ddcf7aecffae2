from collections.abc import Iterator
from dataclasses import is_dataclass
from typing import Any, get_args, get_origin

import pytest

from generator.model.burn_test import Session, TestNotes
from generator.model.maker import Collection, Maker
from generator.model.trade import Buyer, LinkVersion, PriceRow, Terms
from generator.reading.entries import FOLDERS
from generator.reading.fields import bare, choices, keys_of, options, required_keys
from generator.reading.keys import OTHERWISE, about

TRADE = (Terms, Buyer, PriceRow, LinkVersion)
ENTRIES = (Maker, Collection, TestNotes, Session, *TRADE, *(folder.kind for folder in FOLDERS))


def _parts(accepts: Any) -> Iterator[Any]:
    """Every part of an entry whose keys a maker writes."""
    inner = bare(accepts)
    if hasattr(inner, "__pydantic_config__"):
        yield inner
        for key in keys_of(inner).values():
            yield from _parts(key)
    elif get_origin(inner) in (tuple, dict) or options(inner):
        for each in get_args(inner):
            yield from _parts(each)


def _needs_a_reason(part: Any, key: str) -> bool:
    """Whether it may be told as missing or as written in the wrong form, so that no quantity gives the reason."""
    accepts = bare(keys_of(part)[key])
    is_written_by_form = is_dataclass(accepts) and hasattr(accepts, "__pydantic_config__")
    return (
        key in required_keys(part)
        or is_written_by_form
        or get_origin(accepts) in (tuple, dict)
        or bool(options(accepts) or choices(accepts))
    )


PARTS = sorted({part for entry in ENTRIES for part in _parts(entry)}, key=lambda part: part.__name__)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.__name__)
def test_each_key_that_may_be_missing_or_misformed_has_its_reason_and_an_example(part: Any) -> None:
    keys = [key for key in keys_of(part) if key != "id" and _needs_a_reason(part, key)]

    assert [key for key in keys if about(part, key) is OTHERWISE] == []
