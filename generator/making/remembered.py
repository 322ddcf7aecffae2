"""What is kept of a shop for later runs, and how it is written."""

from typing import Final

from pydantic import TypeAdapter

from generator.documents.house import Rendition
from generator.facts.fragrance_loads import FragranceLoads
from generator.facts.work_out import Worked
from generator.writing.store import Codec

_WORKED: Final = TypeAdapter(Worked)
_LOADS: Final = TypeAdapter(FragranceLoads)
_RENDITIONS: Final = TypeAdapter(tuple[Rendition, ...])

WORKED: Final[Codec[Worked]] = Codec(
    dump=lambda worked: _WORKED.dump_json(worked, by_alias=True), load=_WORKED.validate_json
)
"""Everything worked out for a stock code, as JSON; floats keep every digit."""

RENDITIONS: Final[Codec[tuple[Rendition, ...]]] = Codec(
    dump=_RENDITIONS.dump_json, load=_RENDITIONS.validate_json
)
"""How pages show a photo."""

LOADS: Final[Codec[FragranceLoads]] = Codec(dump=_LOADS.dump_json, load=_LOADS.validate_json)
"""The loads at which a fragrance changes a label."""
