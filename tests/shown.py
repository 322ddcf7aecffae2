"""Everything by its name that the project shows: labels, headings, commands, options, keys, file names, colours.

``python -m tests.shown`` prints the list, to be read once before a release with one question: which existing program
would somebody of the trade name on seeing this?
"""

import argparse
import json
import re
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from generator.commands.build import build
from generator.documents.line_sheet import LINE_COLUMNS as BUYERS_COLUMNS
from generator.documents.pages.link_list import LINK_LIST_COLUMNS as LINK_COLUMNS
from generator.documents.pages.trade_sheet import columns as trade_columns
from generator.making.options import CommandOptions
from generator.parser import COMMANDS, parser
from generator.reading.languages import FIRST, words_of
from generator.reading.schemas import editor_schemas
from tests.conftest import EXAMPLE, PROJECT

MOST_WORDS = 6
"""A longer text is a sentence and no name."""


def labels() -> Iterator[str]:
    """Headings, labels of fields, buttons, columns: every short text of the site and the papers."""
    for subject, sentences in words_of(FIRST).items():
        for name, text in sentences.items():
            if re.search(r"[a-z]", text) and len(text.split()) <= MOST_WORDS:
                yield f"{text}    ({subject}.{name})"


def commands(words: argparse.ArgumentParser, named: str = "") -> Iterator[str]:
    """Every command word with its options and what is said of it."""
    for action in words._actions:  # noqa: SLF001 - There is no public way to a parser's words.
        if isinstance(action, argparse._SubParsersAction):  # noqa: SLF001
            for word, below in action.choices.items():
                if named not in ("", word):
                    continue
                yield f"{below.prog}    {below.description}"
                yield from commands(below)
        elif not isinstance(action, argparse._HelpAction):  # noqa: SLF001
            name = ", ".join(action.option_strings) or str(action.metavar or action.dest)
            choices = f" {{{', '.join(map(str, action.choices))}}}" if action.choices else ""
            yield f"{words.prog} {name}{choices}    {action.help or ''}"


def keys() -> Iterator[str]:
    """Every key of every entry, and every word that one may hold."""
    for file, text in editor_schemas().items():
        for name in sorted(set(_named(json.loads(text)))):
            yield f"{file.removesuffix('.json')}: {name}"


def _named(schema: Any) -> Iterator[str]:
    if isinstance(schema, list):
        for each in schema:
            yield from _named(each)
    elif isinstance(schema, dict):
        yield from schema.get("properties", {})
        yield from (
            f"= {word}" for word in (*schema.get("enum", ()), *_only(schema)) if isinstance(word, str)
        )
        for below in schema.values():
            yield from _named(below)


def _only(schema: dict[str, Any]) -> tuple[str, ...]:
    return (schema["const"],) if "const" in schema else ()


def files() -> Iterator[str]:
    """Every kind of file that is read or made, the names of single candles taken out."""
    with TemporaryDirectory() as folder:
        output = Path(folder)
        build(CommandOptions(content=EXAMPLE, output=output, as_of=None, as_data=False))
        for root in (EXAMPLE, output / "site", output / "workshop", PROJECT / "themes"):
            paths = (path.relative_to(root.parent).as_posix() for path in root.rglob("*") if path.is_file())
            yield from sorted({re.sub(r"\b[A-Z]{2}-\w+|[0-9a-f]{16,}", "*", path) for path in paths})


def colours() -> Iterator[str]:
    """The names that the styles give their colours and measures, and the classes of what they style."""
    text = "".join(path.read_text(encoding="utf-8") for path in (PROJECT / "themes").rglob("*.[ch][st][sm]*"))
    yield from sorted({f"--{name}" for name in re.findall(r"--([a-z-]+):", text)})
    yield from sorted({f".{name}" for name in re.findall(r"\.([a-z][a-z-]+)(?=[ ,{:.>])", text)})


def columns() -> Iterator[str]:
    """The columns of the tables that are made."""
    for name, found in (("trade", trade_columns()), ("buyer", BUYERS_COLUMNS), ("links", LINK_COLUMNS)):
        yield from (f"{name}: {column}" for column in found)


if __name__ == "__main__":
    for heading, found in (
        ("labels and headings", labels()),
        ("commands and options", (line for word in COMMANDS for line in commands(parser(word), word))),
        ("keys and words of entries", keys()),
        ("columns of tables", columns()),
        ("files", files()),
        ("names of colours and styles", colours()),
    ):
        print(f"\n# {heading}\n")
        print("\n".join(found))
