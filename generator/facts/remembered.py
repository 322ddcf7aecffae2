"""Facts as bytes and back, so that a stock code whose record has not changed is not worked out again."""

from typing import Final

from pydantic import TypeAdapter

from generator.facts.work_out import Worked

_WORKED: Final = TypeAdapter(Worked)


def remembered(worked: Worked) -> bytes:
    """What was worked out, as JSON; floats keep every digit."""
    return _WORKED.dump_json(worked)


def recalled(stored: bytes) -> Worked:
    """The same value again."""
    return _WORKED.validate_json(stored)
