"""The sentences of a hazard label, with the names of the substances put in."""

import re
from collections.abc import Iterable, Sequence
from typing import Final

from generator.model.statements import Wording

NAMING: Final = "EUH208"
_GAP: Final = re.compile(r"<[^>]*>")


def sentence(code: str, names: Sequence[str], words: Wording) -> str:
    """One statement as it is printed; the names go into EUH208 only."""
    statement = words.statements[code]
    return _filled(statement.printed or statement.text, names)


def contains(names: Sequence[str], words: Wording) -> str:
    """'Contains ...' for a candle that is a sensitiser itself: the first sentence of EUH208 alone."""
    first, _, _ = words.statements[NAMING].text.partition(">")
    return f"{_filled(f'{first}>', names)}."


def _filled(text: str, names: Sequence[str]) -> str:
    """The text with the names in its gap as they are written, whatever signs they hold."""
    return _GAP.sub(lambda _: ", ".join(names), text)


def texts_from_memory(codes: Iterable[str], words: Wording | None) -> tuple[str, ...]:
    """Codes whose wording nobody has yet held against the law's text; none where bare codes are printed."""
    if words is None:
        return ()
    return tuple(sorted(code for code in codes if words.statements[code].status == "MEMORY"))
