"""Words, names and counts as a maker writes them."""

import re
from collections.abc import Callable
from typing import Annotated, Final

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema

from generator.files import is_device_name
from generator.letters import shown_and_named, unprintable
from generator.model.entry import BLANK, Form
from generator.model.quantities import as_text, wrong
from generator.model.suggestions import own


def whole_number(written: object) -> int:
    """A whole number from 1 to 9999."""
    text = str(written).strip()
    if not re.fullmatch(r"[1-9][0-9]{0,3}", text):
        raise wrong(
            f"is '{text}'; expected a whole number", "it is printed and counted with", _count_offer(text)
        )
    return int(text)


_COUNTED: Final = re.compile(r"|x|pcs?|wicks?|pieces?|candles?|jars?|tins?|rows?|columns?|labels?")
"""Units of a count; a number of anything else is no count."""

_WHOLE: Final = re.compile(r"0{0,9}[1-9][0-9]{0,3}(?:\.0+)?")


def few(written: object) -> int:
    """A whole number from 1 to 99, of what is side by side on one sheet."""
    number = whole_number(written)
    if number > MOST_ABREAST:
        raise wrong(
            f"is '{number}'; expected at most {MOST_ABREAST}",
            ("so many would be too small to print on, and a page of them would take too long to set"),
        )
    return number


MOST_ABREAST: Final = 99
"""Labels side by side: on a Letter sheet each would be 2 mm wide (CHOICE)."""


_NUMERALS: Final = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def _count_offer(text: str) -> str:
    """The maker's own number where it is a whole one."""
    found = own(text)
    if found is not None and _COUNTED.fullmatch(found.words) and _WHOLE.fullmatch(found.number):
        return found.number.partition(".")[0].lstrip("0")
    if text.lower() in _NUMERALS:
        return str(_NUMERALS.index(text.lower()) + 1)
    return ""


def yes_or_no(written: object) -> bool:
    """``yes`` or ``no``."""
    text = str(written).strip().lower()
    if text in ("yes", "true"):
        return True
    if text in ("no", "false"):
        return False
    raise wrong(f"is '{text}'; expected yes or no", "the papers say one thing or the other")


def text_from_entry(written: object) -> str:
    """Any text but an empty one."""
    if not isinstance(written, str):
        raise wrong("has keys of its own; expected a text", "it is printed as it stands", "one line of text")
    text = written.strip()
    if not text:
        raise wrong("is empty", "papers would have a gap")
    if _UNFILLED.fullmatch(text):
        raise wrong(f"is '{text}', a blank that is still to be filled in", "it would be printed as it stands")
    return text


_UNFILLED: Final = re.compile(rf"(?:{re.escape(BLANK)}|…)(?: \(.*)?", re.DOTALL)
"""A blank of a form, alone or followed by a hint in brackets."""


def printable_text(written: object) -> str:
    """Any text that is not empty, in letters that papers can print."""
    text = text_from_entry(written)
    odd = unprintable(text)
    if odd:
        raise wrong(
            f"contains {shown_and_named(odd)}, which no paper can print",
            (
                "papers can print Latin, Greek and Cyrillic letters and common signs; anything "
                "else would leave a gap"
            ),
            f"the same text without {'it' if len(odd) == 1 else 'them'}",
        )
    return text


def matching(pattern: str, what: str, why: str, offer: Callable[[str], str]) -> Callable[[object], str]:
    """A reader of texts of one form, such as a stock code."""

    def read(written: object) -> str:
        text = text_from_entry(written)
        if not re.fullmatch(pattern, text):
            raise wrong(f"is '{text}'; expected {what}", why, offer(text))
        return text

    return read


def id_of(written: object) -> str:
    """A name that can be part of a web address: lower-case letters, digits and hyphens."""
    text = text_from_entry(written)
    if not re.fullmatch(_ID, text):
        slug = re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:64].strip("-")
        raise wrong(
            f"is '{text}'; expected an id",
            "it names another file, and becomes part of web addresses",
            slug,
        )
    return not_a_device(text)


def not_a_device(text: str) -> str:
    """A name, unless Windows keeps it for a device: its files could be neither copied nor published from there."""
    if is_device_name(text):
        raise wrong(
            f"is '{text}', a name that Windows reserves for a device",
            "it becomes a file name, and no Windows computer can store this one",
            f"{text.partition('.')[0]}-1{text[text.find('.') :] if '.' in text else ''}",
        )
    return text


def shade(written: object) -> str:
    """A colour as six hexadecimal digits after ``#``; a suggestion keeps the maker's own digits."""
    text = text_from_entry(written)
    if re.fullmatch(_SHADE, text):
        return text
    digits = text.removeprefix("#")
    if re.fullmatch("[0-9a-fA-F]{3}", digits):
        digits = "".join(digit * 2 for digit in digits)
    six = f'"#{digits}"' if re.fullmatch("[0-9a-fA-F]{6}", digits) else None
    raise wrong(
        f"is '{text}'; expected a colour",
        "the drawings are tinted with it",
        six or "",
    )


def _code_meant(text: str) -> str:
    """The maker's own code, with a dash for each character that a web address cannot contain."""
    code = re.sub(r"[^A-Za-z0-9._-]+", "-", text).strip("-._")
    return code if re.fullmatch(_CODE, code) else ""


def _file_meant(text: str) -> str:
    """The name of the maker's own file, without its folder; renamed if it contains other characters."""
    name = re.split(r"[/\\]", text)[-1]
    if re.fullmatch(_FILE, name):
        return name
    stem, _, ending = re.sub(r"[^A-Za-z0-9 ._-]+", "-", name).strip("-. _").rpartition(".")
    renamed = f"{stem.rstrip('- .')}.{ending}"
    return f"{renamed}, and rename the file to that" if re.fullmatch(_FILE, renamed) else ""


_ID: Final = r"[a-z0-9][a-z0-9-]{0,63}"
_CODE: Final = r"[A-Za-z0-9][A-Za-z0-9._-]{0,31}"
_SHADE: Final = r"#[0-9a-fA-F]{6}"
_FILE: Final = r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,99}\.[A-Za-z0-9]{1,5}"
_YES_NO: Final = {"enum": ["yes", "no", True, False]}
_COUNT: Final = {
    "anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "pattern": r"^[1-9][0-9]*$"}]
}
Count = Annotated[int, BeforeValidator(whole_number), WithJsonSchema(_COUNT), Form("... (a whole number)")]
Few = Annotated[int, BeforeValidator(few), WithJsonSchema(_COUNT), Form("... (a whole number)")]
YesNo = Annotated[bool, BeforeValidator(yes_or_no), WithJsonSchema(_YES_NO), Form("yes, or no")]
_TEXT: Final = WithJsonSchema({"type": ["string", "number"]})
Text = Annotated[str, BeforeValidator(printable_text), _TEXT, Form(BLANK)]
"""A text that a paper may print; any other text field is a ``FreeText``."""

FreeText = Annotated[str, BeforeValidator(text_from_entry), _TEXT, Form(BLANK)]
"""A text that no paper prints: pages show it in the typefaces of the reader's system, or nothing shows it."""
Id = Annotated[
    str,
    *as_text(
        id_of,
        rf"^{_ID}$",
        "the other file's name without its ending",
        "... (small letters, digits and hyphens)",
    ),
]
Reference = Annotated[
    str, *as_text(text_from_entry, rf"^{_ID}$", "the other file's name without its ending", BLANK)
]
"""The id of another entry; the rules, which know the existing ids, report an unknown one."""

StockCode = Annotated[
    str,
    BeforeValidator(matching(_CODE, "a stock code", "it becomes a web address and a file name", _code_meant)),
    AfterValidator(not_a_device),
    WithJsonSchema({"anyOf": [{"type": "string", "pattern": rf"^{_CODE}$"}, {"type": "integer"}]}),
    Form("... (letters, digits, dots and dashes)"),
]
Shade = Annotated[str, *as_text(shade, rf"^{_SHADE}$", '"#66727a", in quotes', '"#......"')]
FileName = Annotated[
    str,
    *as_text(
        matching(
            _FILE,
            "a file name of letters A to Z, digits, spaces, dots and dashes",
            "the file is looked for by it",
            _file_meant,
        ),
        rf"^{_FILE}$",
        "ss-30-front.jpg",
        "... (a file name: letters, digits, spaces, dots and dashes)",
    ),
    AfterValidator(not_a_device),
]
