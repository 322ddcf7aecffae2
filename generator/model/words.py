"""Words, names and counts as a maker writes them."""

import re
from collections.abc import Callable
from typing import Annotated, Final

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema

from generator.files import is_device_name
from generator.model.offers import own
from generator.model.quantities import text_schema, wrong


def count(written: object) -> int:
    """A whole number from 1 to 9999."""
    text = str(written).strip()
    if not re.fullmatch(r"[1-9][0-9]{0,3}", text):
        raise wrong(
            f"is '{text}'; a whole number was expected", "it is printed and counted with", _count_offer(text)
        )
    return int(text)


def few(written: object) -> int:
    """A whole number from 1 to 99, of what lies side by side on one sheet."""
    number = count(written)
    if number > MOST_ABREAST:
        raise wrong(
            f"is '{number}'; at most {MOST_ABREAST} were expected",
            "so many would be too small to print on, and a page of them too long to set",
            f"a whole number from 1 to {MOST_ABREAST}, as the packet says",
        )
    return number


MOST_ABREAST: Final = 99
"""Labels side by side: on a Letter sheet each would be 2 mm wide (CHOICE)."""


_NUMERALS: Final = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def _count_offer(text: str) -> str:
    """The maker's own number where it is a whole one."""
    found = own(text)
    if found is not None and re.fullmatch(r"0{0,9}[1-9][0-9]{0,3}(\.0+)?", found.number):
        return found.number.partition(".")[0].lstrip("0")
    if text.lower() in _NUMERALS:
        return str(_NUMERALS.index(text.lower()) + 1)
    return "a whole number from 1 to 9999"


def yes_or_no(written: object) -> bool:
    """``yes`` or ``no``."""
    text = str(written).strip().lower()
    if text in ("yes", "true"):
        return True
    if text in ("no", "false"):
        return False
    raise wrong(f"is '{text}'; yes or no was expected", "the papers say one thing or the other", "yes, or no")


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


def id_of(written: object) -> str:
    """A name that can be a web address: small letters, digits and hyphens."""
    text = plain_text(written)
    if not re.fullmatch(_ID, text):
        slug = re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:64].strip("-")
        raise wrong(
            f"is '{text}'; an id was expected",
            "it names another file, and becomes a part of web addresses",
            slug or "small letters a to z, digits and hyphens",
        )
    return not_a_device(text)


def not_a_device(text: str) -> str:
    """A name, unless Windows keeps it for a device: its files could be neither copied nor published from there."""
    if is_device_name(text):
        raise wrong(
            f"is '{text}', a name that Windows keeps for a device",
            "it becomes the name of a file, which no computer with Windows can hold",
            f"{text.partition('.')[0]}-1{text[text.find('.') :] if '.' in text else ''}",
        )
    return text


def shade(written: object) -> str:
    """A colour as six hexadecimal digits after ``#``; the maker's own digits are offered again."""
    text = plain_text(written)
    if re.fullmatch(_SHADE, text):
        return text
    digits = text.removeprefix("#")
    if re.fullmatch("[0-9a-fA-F]{3}", digits):
        digits = "".join(digit * 2 for digit in digits)
    six = f'"#{digits}"' if re.fullmatch("[0-9a-fA-F]{6}", digits) else None
    raise wrong(
        f"is '{text}'; a colour was expected",
        "the drawings are tinted with it",
        six or '"#" and six digits from 0 to 9 and a to f, all in quotes, such as "#66727a"',
    )


_ID: Final = r"[a-z0-9][a-z0-9-]{0,63}"
_CODE: Final = r"[A-Za-z0-9][A-Za-z0-9._-]{0,31}"
_SHADE: Final = r"#[0-9a-fA-F]{6}"
_FILE: Final = r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,99}\.[A-Za-z0-9]{1,5}"
_YES_NO: Final = {"enum": ["yes", "no", True, False]}
_COUNT: Final = {
    "anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "pattern": r"^[1-9][0-9]*$"}]
}
Count = Annotated[int, BeforeValidator(count), WithJsonSchema(_COUNT)]
Few = Annotated[int, BeforeValidator(few), WithJsonSchema(_COUNT)]
YesNo = Annotated[bool, BeforeValidator(yes_or_no), WithJsonSchema(_YES_NO)]
Text = Annotated[str, BeforeValidator(plain_text), WithJsonSchema({"type": ["string", "number"]})]
Id = Annotated[
    str,
    BeforeValidator(id_of),
    text_schema(rf"^{_ID}$", "the other file's name without its ending"),
]
Reference = Annotated[
    str,
    BeforeValidator(plain_text),
    text_schema(rf"^{_ID}$", "the other file's name without its ending"),
]
"""The id of another entry; a text that is none is told by the rules, which know the ids that are there."""

StockCode = Annotated[
    str,
    BeforeValidator(matching(_CODE, "a stock code", "it becomes a web address and a file's name", "SS-30")),
    AfterValidator(not_a_device),
    WithJsonSchema({"anyOf": [{"type": "string", "pattern": rf"^{_CODE}$"}, {"type": "integer"}]}),
]
Shade = Annotated[str, BeforeValidator(shade), text_schema(rf"^{_SHADE}$", '"#66727a", in quotes')]
FileName = Annotated[
    str,
    BeforeValidator(matching(_FILE, "a file's name", "the file is looked for by it", "ss-30-front.jpg")),
    AfterValidator(not_a_device),
    text_schema(rf"^{_FILE}$", "ss-30-front.jpg"),
]
