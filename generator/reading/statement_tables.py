"""The law's sentences for hazard labels, out of the tables that come with the program."""

import json
from importlib.resources import files
from typing import Final

from pydantic import ConfigDict, TypeAdapter
from pydantic.dataclasses import dataclass

from generator.model.statements import Statement, Wording, WordingStatus


@dataclass(frozen=True)
class _Text:
    text: str
    status: WordingStatus


@dataclass(frozen=True, config=ConfigDict(extra="ignore"))
class _Entry:
    texts: dict[str, _Text]
    printed: dict[str, str] | None = None


@dataclass(frozen=True, config=ConfigDict(extra="ignore"))
class _Table:
    signal_words: dict[str, dict[str, str]]
    statements: dict[str, _Entry]


_TABLE: Final = TypeAdapter(_Table)


def wording(language: str) -> Wording | None:
    """The statements in one language, None where the tables hold none in it."""
    written = files("generator.data").joinpath("hazards", "statements.json").read_text(encoding="utf-8")
    table = _TABLE.validate_python(json.loads(written))
    if not all(language in words for words in table.signal_words.values()):
        return None
    return Wording(
        language=language,
        statements={
            code: _as_printed(entry, language)
            for code, entry in table.statements.items()
            if language in entry.texts
        },
        signal_words={word: texts[language] for word, texts in table.signal_words.items()},
    )


def _as_printed(entry: _Entry, language: str) -> Statement:
    """The shop's own choice where the law leaves one, else the law's text."""
    law = entry.texts[language]
    return Statement((entry.printed or {}).get(language, law.text), law.status)
