"""From a field of the record to the place at which a maker writes it."""

from collections.abc import Sequence
from typing import Final

from generator.facts.gather import Gathered
from generator.model.entry import entry_key
from generator.problems import Path

_OF_THE_MAKER: Final = frozenset(
    {"markets", "currency", "scale_step_g", "as_of", "prices_include_tax_percent"}
)
_OF_THE_SCENT: Final = frozenset({"scent", "collection", "added"})


def origin_of(gathered: Gathered, way: tuple[str, ...]) -> Path:
    """The path of a field of the record, such as ``("build", "vessel", "wall_mm")``, in the maker's files."""
    match way:
        case ("build", *rest):
            return _of_the_build(gathered, tuple(rest))
        case ("tests", file, "sessions"):
            return (file,)
        case ("tests", file, *rest):
            return (f"{file.rpartition('.')[0]}.yaml", *_keys(rest))
        case (field,) if field in _OF_THE_SCENT:
            return (f"candles/{gathered.recorded.candle}.yaml", field)
        case (field, *_) if field in _OF_THE_MAKER:
            return ("maker.yaml", entry_key(field))
    return gathered.origin(_keys(way))


def _of_the_build(gathered: Gathered, way: tuple[str, ...]) -> Path:
    """What is physically made: each material, the vessel and the wick have files of their own."""
    match way:
        case ("formula", _, name, "amount"):
            return gathered.origin(("formula", name))
        case ("formula", folder, name, "material", *rest):
            return (f"{folder}/{name}.yaml", *_keys(rest))
        case ("wicks", name, "wick", *rest):
            return (f"wicks/{name}.yaml", *_keys(rest))
        case ("wicks", *_):
            return gathered.origin(("wick",))
        case ("cure_h",):
            return gathered.origin(("make", "cure"))
    return gathered.origin(_keys(way))


def _keys(fields: Sequence[str]) -> Path:
    return tuple(entry_key(field) for field in fields)
