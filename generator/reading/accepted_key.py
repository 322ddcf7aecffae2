"""``accepted:`` taken out of an entry before it is read: it bears on no figure, and any entry may hold it."""

from collections.abc import Iterator
from typing import Any, Final

from generator.model.accepted import ACCEPTED
from generator.problems import Path

_SIZES: Final = "sizes"
_ISSUED: Final = "sheets/"
"""What was issued is nobody's to add to."""


def without_accepted(at: Path, data: Any) -> tuple[Any, tuple[tuple[Path, Any], ...]]:
    """An entry as written without the key, and what stood there in itself and in each of its sizes."""
    file = str(at[0])
    is_entry = isinstance(data, dict) and file.endswith(".yaml") and not file.startswith(_ISSUED)
    found = tuple(_found(at, data)) if is_entry else ()
    if not found:
        return data, ()
    rest = _without(data)
    if isinstance(data.get(_SIZES), list):
        rest[_SIZES] = [_without(size) if isinstance(size, dict) else size for size in data[_SIZES]]
    return rest, found


def _found(at: Path, data: dict[str, Any]) -> Iterator[tuple[Path, Any]]:
    if ACCEPTED in data:
        yield at, data[ACCEPTED]
    sizes = data.get(_SIZES)
    for number, size in enumerate(sizes if isinstance(sizes, list) else ()):
        if isinstance(size, dict) and ACCEPTED in size:
            yield (*at, _SIZES, number), size[ACCEPTED]


def _without(data: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if key != ACCEPTED}
