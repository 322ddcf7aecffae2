"""Warnings a maker has accepted: ``accepted: {headspace: the lid sits on a shoulder}``."""

import re
from dataclasses import dataclass
from typing import Annotated, Final

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.quantities import wrong
from generator.model.words import text_from_entry
from generator.problems import Path

ACCEPTED: Final = "accepted"
"""The key, in any entry and in any size of a candle."""

_UNSAFE: Final = re.compile(r"[^\w./-]+")
_WHY: Final = "the workshop lists the reason, in case anyone asks why the warning was accepted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """One accepted warning: the entry or size it is in, the name of its check, and the reason."""

    at: Path
    check: str
    why: str

    @property
    def path(self) -> Path:
        """Where it is written."""
        return (*self.at, ACCEPTED, self.check)


def check_of(name: str, thing: str) -> str:
    """A check's name with its subject, so that accepting it hides no other subject of the entry."""
    return f"{name} {_UNSAFE.sub('-', thing).strip('-')}"


def check_name(written: object) -> str:
    """The name of a check, as a warning prints it."""
    return " ".join(str(written).split())


def reason(written: object) -> str:
    """A reason in words."""
    text = text_from_entry(written) if str(written).strip() else ""
    if not any(sign.isalpha() for sign in text):
        raise wrong(f"is '{text}'; expected a reason in words", _WHY)
    return " ".join(text.split())


CheckName = Annotated[str, BeforeValidator(check_name), WithJsonSchema({"type": "string"})]
_Reason = Annotated[str, BeforeValidator(reason), WithJsonSchema({"type": "string", "minLength": 1})]
Reasons = dict[CheckName, _Reason]
