"""Words, names, dates and counts as a maker writes them."""

import re
from collections.abc import Callable
from datetime import date
from typing import Annotated, Final

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.quantities import text_schema, wrong


def count(written: object) -> int:
    """A whole number from 1 to 9999."""
    text = str(written).strip()
    if not re.fullmatch(r"[1-9][0-9]{0,3}", text):
        raise wrong(f"is '{text}'; a whole number was expected", "it is printed and counted with", "6")
    return int(text)


def yes_or_no(written: object) -> bool:
    """``yes`` or ``no``."""
    text = str(written).strip().lower()
    if text in ("yes", "true"):
        return True
    if text in ("no", "false"):
        return False
    raise wrong(f"is '{text}'; yes or no was expected", "the papers say one thing or the other", "yes, or no")


def calendar_date(written: object) -> date:
    """A date as ISO 8601 writes it: ``2026-11-01``."""
    text = str(written).strip()
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        return _no_date(text)
    try:
        return date.fromisoformat(text)
    except ValueError:
        return _no_date(text)


def _no_date(text: str) -> date:
    raise wrong(
        f"is '{text}'; a date was expected",
        "01/02 is January to some readers and February to others",
        "2026-11-01 (year, month, day)",
    )


def plain_text(written: object) -> str:
    """Any text but an empty one."""
    if not isinstance(written, str):
        raise wrong("holds entries; a text was expected", "it is printed as it stands", "one line of text")
    text = written.strip()
    if not text:
        raise wrong("is empty", "there would be a gap in the papers", "a text, or leave the key out")
    return text


def matching(pattern: str, what: str, why: str, example: str) -> Callable[[object], str]:
    """A reader of texts of one form, such as a stock code."""

    def read(written: object) -> str:
        text = plain_text(written)
        if not re.fullmatch(pattern, text):
            raise wrong(f"is '{text}'; {what} was expected", why, example)
        return text

    return read


_ID: Final = r"[a-z0-9][a-z0-9-]{0,63}"
_CODE: Final = r"[A-Za-z0-9][A-Za-z0-9._-]{0,31}"
_SHADE: Final = r"#[0-9a-fA-F]{6}"
_FILE: Final = r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,99}\.[A-Za-z0-9]{1,5}"
_YES_NO: Final = {"enum": ["yes", "no", True, False]}
_COUNT: Final = {
    "anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "pattern": r"^[1-9][0-9]*$"}]
}
Count = Annotated[int, BeforeValidator(count), WithJsonSchema(_COUNT)]
YesNo = Annotated[bool, BeforeValidator(yes_or_no), WithJsonSchema(_YES_NO)]
Day = Annotated[date, BeforeValidator(calendar_date), text_schema(r"^\d{4}-\d{2}-\d{2}$", "2026-11-01")]
Text = Annotated[str, BeforeValidator(plain_text), WithJsonSchema({"type": ["string", "number"]})]
Id = Annotated[
    str,
    BeforeValidator(matching(_ID, "a file's name without its ending", "it names another file", "tumbler-30")),
    text_schema(rf"^{_ID}$", "the other file's name without its ending"),
]
StockCode = Annotated[
    str,
    BeforeValidator(matching(_CODE, "a stock code", "it becomes a web address and a file's name", "SS-30")),
    WithJsonSchema({"anyOf": [{"type": "string", "pattern": rf"^{_CODE}$"}, {"type": "integer"}]}),
]
Shade = Annotated[
    str,
    BeforeValidator(matching(_SHADE, "a colour", "the drawings are tinted with it", '"#66727a"')),
    text_schema(rf"^{_SHADE}$", '"#66727a", in quotes'),
]
FileName = Annotated[
    str,
    BeforeValidator(matching(_FILE, "a file's name", "the file is looked for by it", "ss-30-front.jpg")),
    text_schema(rf"^{_FILE}$", "ss-30-front.jpg"),
]
