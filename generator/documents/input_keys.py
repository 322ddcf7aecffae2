"""What a page depends on, as one text: the digest of all that it is handed."""

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from types import NoneType
from typing import Any

from generator.documents.house import House, LanguagePack, Recalled, Scent, SizeOf
from generator.ledgers.standing import SheetState
from generator.memory import Shelf, digest

_FIELDS = tuple(field.name for field in fields(House))


class InputKeys:
    """Tells apart what pages are handed by all that it says; an object met before is not gone through again."""

    def __init__(self, shelf: Shelf[str]) -> None:
        self._shelf = shelf
        self._ways: Mapping[type, Callable[[Any], str]] = {
            **dict.fromkeys((NoneType, str, bool, int, date), repr),
            dict: self._of_mapping,
            tuple: lambda part: digest(*map(self.of, part)),
            House: lambda house: digest(*(self.of(getattr(house, name)) for name in _FIELDS)),
            LanguagePack: self._of_language,
            Recalled: lambda part: digest(
                self.of(part.notice), self.of(part.lots), *sorted(part.stock_codes)
            ),
            Scent: lambda part: digest(self.of(part.candle), *(size.key for size in part.sizes)),
            SheetState: lambda part: digest(part.fingerprint, *(issued.seal for issued in part.revisions)),
            SizeOf: lambda size: size.key,
        }

    def of(self, part: object) -> str:
        """The key of a house, or of a part of one; raises TypeError for anything of which none can be made."""
        way = self._ways.get(type(part))
        if way is not None:
            return way(part)
        if is_dataclass(part):
            return self._shelf.remember((part,), lambda: digest(repr(part)))
        raise TypeError(f"no key can be made of {part!r}")

    def _of_mapping(self, part: Mapping[str, object]) -> str:
        return digest(*(text for key, value in part.items() for text in (key, self.of(value))))

    def _of_language(self, pack: LanguagePack) -> str:
        """By its tables, which are read once and shared by all packs."""
        known = (pack.words, pack.wording, pack.language, pack.materials)
        return self._shelf.remember(known, lambda: digest(repr(pack)))
