"""Appends an issued revision to its ledger; what was there before stays, byte for byte."""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Final

from generator.model.canonical import Plain, parsed
from generator.model.ledger import Issued, Ledger, seal_of

_HEAD: Final = """\
# The issued burn-safety sheets of {stock_code}, written by `wickwright issue` and kept under version control.
# Revisions are added at the end and never changed: whoever has an older candle needs the sheet it was sold with.
revisions:
"""
_PLAIN: Final = re.compile(r"[^\W_](?:[\w .,/%+()-]*[\w.%)])?")
"""A text that YAML reads unchanged without quotes."""

_READ_AS_NOTHING: Final = frozenset({"null", "Null", "NULL"})


def sealed_revision(issued: Issued, before: Ledger | None) -> Issued:
    """The revision, sealed after the previous one."""
    return replace(issued, seal=seal_of(issued, before.present.seal if before else ""))


def with_revision(ledger_file: bytes, stock_code: str, issued: Issued) -> bytes:
    """The ledger's file (empty if there is none yet) with one more revision at its end."""
    kept = ledger_file or _HEAD.format(stock_code=stock_code).encode()
    end = b"" if kept.endswith(b"\n") else b"\n"
    lines = "".join(f"{line}\n" for line in _revision(issued))
    return kept + end + lines.encode()


def _revision(issued: Issued) -> Iterator[str]:
    yield f"- revision: {issued.revision}"
    yield f"  on: {issued.on.isoformat()}"
    yield f"  reason: {_scalar(issued.reason)}"
    yield f"  fingerprint: {issued.fingerprint}"
    yield "  value:"
    yield from block(parsed(issued.said), 4)
    yield "  record:"
    yield from block(issued.record, 4)
    yield f"  seal: {issued.seal}"


def block(value: Mapping[str, Plain], indent: int) -> Iterator[str]:
    """A mapping, one key a line, nested values indented."""
    for key, below in value.items():
        name = f"{' ' * indent}{_scalar(key)}:"
        if isinstance(below, str):
            yield f"{name} {_scalar(below)}"
        elif isinstance(below, Mapping):
            yield name
            yield from block(below, indent + 2)
        else:
            yield name
            yield from (f"{' ' * indent}- {_item(each)}" for each in below)


def _item(value: Plain) -> str:
    """A list item on one line; if it is more than a text, as JSON, which is also YAML."""
    return _scalar(value) if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _scalar(text: str) -> str:
    plain = _PLAIN.fullmatch(text) is not None and text not in _READ_AS_NOTHING
    return text if plain else json.dumps(text, ensure_ascii=False)
