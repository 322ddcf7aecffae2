"""What the last build was made from and what it told, so that one of which nothing has changed is not done again.

No clock is read in a build: all it depends on are the entries, the themes, the program, and what was asked.
"""

import json
import os
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

from generator.files import OTHER, read_file
from generator.making.options import CommandOptions
from generator.making.reporting import Built
from generator.model.secret import ShopSecret
from generator.problems import Place, Problem, Severity, as_data
from generator.reading.packaged import shipped
from generator.reading.shop_secret import exposed, read_secret
from generator.writing.output import as_listed
from generator.writing.paths import MANIFEST
from generator.writing.program import program_digest
from generator.writing.store import digest
from generator.writing.whole_files import replace_file

_NOTE = "last-build.json"


def inputs_of(asked: CommandOptions) -> str | None:
    """The digest of everything a build depends on; None where that cannot be told."""
    day = asked.as_of.isoformat() if asked.as_of else ""
    parts: list[str | bytes] = [program_digest(), day, f"{asked.drafts} {asked.issued_only}"]
    secret = read_secret(asked.content, asked.content.as_posix(), links=0)
    parts += [secret.key, str(secret.mark)] if isinstance(secret, ShopSecret) else [str(secret)]
    parts += map(str, exposed(asked.content, asked.content.as_posix(), asked.output))
    try:
        for folder in (asked.content, asked.content.resolve().parent / "themes", shipped("themes")):
            parts.append(folder.as_posix())
            for path in _below(folder):
                parts.append(path)
                if not path.endswith("/"):
                    parts.append(sha256(read_file(folder / path, OTHER)).digest())
    except (OSError, _Linked):
        return None
    return digest(*parts)


def last_built(asked: CommandOptions, inputs: str) -> Built | None:
    """What the last build came to, if it was made from the same and everything it wrote is still there."""
    try:
        note = json.loads(_note(asked.output).read_bytes())
    except (OSError, ValueError, RecursionError):
        return None
    match note:
        case {
            "inputs": str(made_from),
            "listed": str(listed),
            "changes": [*changes],
            "problems": [*problems],
        }:
            if made_from != inputs or listed != _listed(asked.output):
                return None
            laid = as_listed(asked.output)
            if laid is None:
                return None
            told = tuple(_problem(each) for each in problems)
            return Built(problems=told, laid=laid, seconds=0.0, changes=tuple(map(str, changes)))
    return None


def note_down(asked: CommandOptions, inputs: str | None, built: Built) -> None:
    """Remember a build that came to its end."""
    if inputs is None or built.laid is None or inputs_of(asked) != inputs:
        return  # What was altered meanwhile may have been read or not.
    note = {
        "inputs": inputs,
        "listed": _listed(asked.output),
        "changes": built.changes,
        "problems": [as_data(problem) for problem in built.problems],
    }
    replace_file(_note(asked.output), (json.dumps(note, ensure_ascii=False) + "\n").encode())


class _Linked(Exception):
    """A folder is reached through a link, and links can go round in circles."""


def _below(folder: Path) -> Iterator[str]:
    """Every file and, with a stroke behind it, every folder below one, in one order on every disk.

    Names that begin with a point are nobody's entries.
    """
    for here, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        if any(os.path.islink(os.path.join(here, name)) for name in folders):  # noqa: PTH118, PTH114  (twice as quick)
            raise _Linked
        below = os.path.relpath(here, folder)
        yield f"{below}/"
        yield from (f"{below}/{name}" for name in sorted(names) if not name.startswith("."))


def _note(output: Path) -> Path:
    return output / ".store" / _NOTE


def _listed(output: Path) -> str:
    """The digest of the list of what was written; nothing where it is lost."""
    try:
        return sha256((output / MANIFEST).read_bytes()).hexdigest()
    except FileNotFoundError:
        return ""


def _problem(data: dict[str, Any]) -> Problem:
    place = Place(data["file"], int(data["line"]), int(data["column"]))
    said = {key: data[key] for key in ("what", "why", "write", "check", "entry", "accepted")}
    return Problem(place=place, severity=Severity(data["severity"]), **said)
