"""Facts as bytes and back, so that what has not changed is not worked out again."""

from typing import Final

from pydantic import TypeAdapter

from generator.facts.fragrance_loads import FragranceLoads
from generator.facts.work_out import Worked

_WORKED: Final = TypeAdapter(Worked)
_LOADS: Final = TypeAdapter(FragranceLoads)


def worked_as_json(worked: Worked) -> bytes:
    """What was worked out, as JSON; floats keep every digit."""
    return _WORKED.dump_json(worked, by_alias=True)


def worked_from_json(stored: bytes) -> Worked:
    """The same value again."""
    return _WORKED.validate_json(stored)


def remembered_loads(loads: FragranceLoads) -> bytes:
    """The loads of one fragrance, as JSON."""
    return _LOADS.dump_json(loads)


def recalled_loads(stored: bytes) -> FragranceLoads:
    """The same value again."""
    return _LOADS.validate_json(stored)
