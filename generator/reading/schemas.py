"""Schemas that let an editor complete keys and underline faults while the maker types."""

import json
from collections.abc import Mapping
from functools import cache
from typing import Any, Final

from pydantic import TypeAdapter

from generator.model.accepted import ACCEPTED
from generator.model.burn_tests import TestNotes
from generator.model.maker import Collection, Maker
from generator.model.publish_targets import Target
from generator.model.sizes import Size
from generator.model.trade import Buyer, Terms
from generator.model.words import Id
from generator.reading.entries import FOLDERS

_DRAFT: Final = "https://json-schema.org/draft/2020-12/schema"
_KINDS: Final[Mapping[str, Any]] = {
    "maker": Maker,
    "collections": dict[Id, Collection],
    **{folder.word: folder.kind for folder in FOLDERS},
    "burn-test": TestNotes,
    "terms": Terms,
    "buyers": dict[Id, Buyer],
    "publish": dict[Id, Target],
}
_BY_NAME: Final = ("$defs", "properties", "patternProperties")
"""Keys that hold schemas by names that are not the standard's."""

_REASONS: Final = {
    "type": "object",
    "description": "Warnings that are right as they are: the name of the check and the reason.",
    "additionalProperties": {"type": "string", "minLength": 1},
}
_OF_THE_PROGRAM: Final = ("title", "discriminator")


@cache
def editor_schemas() -> Mapping[str, str]:
    """Each schema's file name and its text, the same on every run."""
    return {f"{name}.json": schema_text(kind) for name, kind in _KINDS.items()}


def schema_text(kind: Any) -> str:
    """The schema of one sort of entry, as JSON."""
    schema = _with_accepted(_friendly(TypeAdapter(kind).json_schema(by_alias=True)))
    return json.dumps({"$schema": _DRAFT, **schema}, indent=2, ensure_ascii=False) + "\n"


def _with_accepted(schema: Any) -> Any:
    """The same schema with the key that every entry and every size of a candle may have."""
    several = json.dumps(
        schema.get("patternProperties", {})
    )  # What stands under each key of a file of entries.
    entries = {name for name in schema.get("$defs", {}) if f'/{name}"' in several}
    parts = {
        name: _accepting(part) if name in (*entries, Size.__name__) else part
        for name, part in schema.get("$defs", {}).items()
    }
    whole = {**schema, "$defs": parts} if parts else schema
    return _accepting(whole) if "properties" in whole else whole


def _accepting(part: Any) -> Any:
    return {**part, "properties": {**part["properties"], ACCEPTED: _REASONS}}


def _friendly(schema: Any) -> Any:
    """The same schema, as strict as the reader, with descriptions that a maker can read."""
    if isinstance(schema, list):
        return [_friendly(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    friendly: dict[str, Any] = {
        key: {name: _friendly(each) for name, each in value.items()} if key in _BY_NAME else _friendly(value)
        for key, value in schema.items()
        if key not in _OF_THE_PROGRAM and (key != "default" or isinstance(value, str))
    }
    if "description" in friendly:
        friendly["description"] = _first_paragraph(friendly["description"])
    if "patternProperties" in friendly:
        friendly["additionalProperties"] = False
        friendly.pop("propertyNames", None)
    return _never_null(_without_id(friendly))


def _without_id(schema: dict[str, Any]) -> dict[str, Any]:
    """No entry writes its id: its file name gives it, or its key."""
    if "id" not in schema.get("properties", ()):
        return schema
    properties = {key: value for key, value in schema["properties"].items() if key != "id"}
    return {
        **schema,
        "properties": properties,
        "required": [key for key in schema["required"] if key != "id"],
    }


def _first_paragraph(docstring: str) -> str:
    return " ".join(docstring.split("\n\n", maxsplit=1)[0].replace("``", "'").split())


def _never_null(schema: dict[str, Any]) -> dict[str, Any]:
    """An optional key may not be empty."""
    some = [each for each in schema.get("anyOf", ()) if each != {"type": "null"}]
    if not some:
        return schema
    rest = {key: value for key, value in schema.items() if key != "anyOf"}
    return {**some[0], **rest} if len(some) == 1 else {**rest, "anyOf": some}
