"""What a page depends on, as one text: everything it is given, each part in full or as its digest."""

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from operator import attrgetter
from types import NoneType
from typing import Any, Final

from generator.documents.house import House, LanguagePack, Recalled, Scent, SizeOf
from generator.ledgers.standing import SheetState
from generator.memory import Remembered, digest

_OF_SCENTS: Final = ("scents", "collections", "photos", "sheets", "cards", "recalls")
"""What differs from page to page; the rest of a house is mostly the same objects for all pages."""

_parts_of_all = attrgetter(*(field.name for field in fields(House) if field.name not in _OF_SCENTS))
_parts_of_scents = attrgetter(*_OF_SCENTS)


class InputKeys:
    """Keys for what pages are given, made from all of its content; a known object is not gone through again."""

    def __init__(self, shelf: Remembered[str]) -> None:
        self._shelf = shelf
        self._met: dict[int, str] = {}

    def of(self, part: object) -> str:
        """The key of a house, or of a part of one; raises TypeError for a type that has no key."""
        if (met := self._met.get(id(part))) is not None:
            return met
        way = _WAYS.get(type(part))
        if way is not None:
            return way(self, part)
        if not is_dataclass(part):
            raise TypeError(f"no key can be made of {part!r}")
        # The shelf holds the part, so that its address in memory is not reused.
        self._met[id(part)] = self._shelf.remember((part,), lambda: digest(repr(part)))
        return self._met[id(part)]

    def know(self, house: House) -> None:
        """Go through a house once for all pages that are handed the whole of it; its owner keeps it meanwhile."""
        self._met[id(house)] = self.of_house(house)

    def of_house(self, house: House) -> str:
        """By every one of its fields."""
        of_all = _parts_of_all(house)
        key_of_all = self._shelf.remember(of_all, lambda: digest(*map(self.of, of_all)))
        return digest(repr([key_of_all, *map(self.of, _parts_of_scents(house))]))

    def of_mapping(self, part: Mapping[str, object]) -> str:
        """By its keys and values in their order."""
        return repr([(key, self.of(value)) for key, value in part.items()])

    def of_language(self, pack: LanguagePack) -> str:
        """By its tables, which are read once and shared by all packs."""
        known = (pack.words, pack.wording, pack.language, pack.materials)
        return self._shelf.remember(known, lambda: digest(repr(pack)))


_WAYS: Final[Mapping[type, Callable[[InputKeys, Any], str]]] = {
    **dict.fromkeys((NoneType, str, bool, int, date), lambda _keys, part: repr(part)),
    dict: InputKeys.of_mapping,
    tuple: lambda keys, part: repr([*map(keys.of, part)]),
    House: InputKeys.of_house,
    LanguagePack: InputKeys.of_language,
    Recalled: lambda keys, part: repr((keys.of(part.notice), keys.of(part.lots), sorted(part.stock_codes))),
    Scent: lambda keys, part: repr((keys.of(part.candle), *(size.key for size in part.sizes))),
    SheetState: lambda _keys, part: repr((part.fingerprint, *(issued.seal for issued in part.revisions))),
    SizeOf: lambda _keys, size: size.key,
}
"""How each type is made into a key; any other dataclass is the digest of its content."""
