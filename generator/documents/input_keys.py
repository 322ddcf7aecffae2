"""What a page depends on, as one text: the digest of all that it is handed."""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date

from generator.documents.house import House, LanguagePack, Recalled, Scent, SizeOf
from generator.ledgers.standing import SheetState
from generator.memory import Shelf, digest

_FIELDS = tuple(field.name for field in fields(House))


class InputKeys:
    """Tells what a page is handed apart by all that it says; what is the same object as before is not gone through again."""

    def __init__(self, shelf: Shelf[str]) -> None:
        self._shelf = shelf

    def of(self, part: object) -> str:
        """The key of a house, or of a part of one; raises TypeError for anything of which none can be made."""
        if part is None or isinstance(part, str | bool | int | date):
            return repr(part)
        if isinstance(part, House):
            return digest(*(self.of(getattr(part, name)) for name in _FIELDS))
        if isinstance(part, SizeOf):
            return part.key
        if isinstance(part, Scent):
            return digest(self.of(part.candle), *(size.key for size in part.sizes))
        if isinstance(part, SheetState):
            return digest(part.fingerprint, *(issued.seal for issued in part.revisions))
        if isinstance(part, Recalled):
            return digest(self.of(part.notice), self.of(part.lots), *sorted(part.stock_codes))
        if isinstance(part, LanguagePack):
            known = (part.words, part.wording, part.language, part.materials)
            return self._shelf.remember(known, lambda: digest(repr(part)))
        if isinstance(part, Mapping):
            return digest(*(text for key, value in part.items() for text in (key, self.of(value))))
        if isinstance(part, tuple):
            return digest(*map(self.of, part))
        if is_dataclass(part):
            return self._shelf.remember((part,), lambda: digest(repr(part)))
        raise TypeError(f"no key can be made of {part!r}")
