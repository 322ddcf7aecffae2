"""What the last build was made from and what it told, so that one of which nothing has changed is not done again.

No clock is read in a build: all it depends on are the entries, the themes, the program, and what was asked.
"""

import json
import os
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

from generator.files import ANY_FILE, read_file
from generator.making.options import CommandOptions
from generator.making.report import Built
from generator.memory import digest
from generator.model.secret import ShopSecret
from generator.problems import Place, Problem, Severity, as_data
from generator.reading.shipped import shipped
from generator.reading.shop_secret import exposed, read_secret
from generator.writing.output import as_listed
from generator.writing.paths import MANIFEST
from generator.writing.program import program_digest
from generator.writing.whole_files import replace_file

_NOTE = "last-build.json"


def inputs_of(options: CommandOptions) -> str | None:
    """The digest of everything a build depends on; None where that cannot be told."""
    day = options.as_of.isoformat() if options.as_of else ""
    parts: list[str | bytes] = [program_digest(), day, f"{options.drafts} {options.issued_only}"]
    secret = read_secret(options.content, options.content.as_posix(), links=0)
    parts += [secret.key, str(secret.mark)] if isinstance(secret, ShopSecret) else [str(secret)]
    parts += map(str, exposed(options.content, options.content.as_posix(), options.output))
    try:
        for folder in (options.content, options.content.resolve().parent / "themes", shipped("themes")):
            parts.append(folder.as_posix())
            for path in _below(folder):
                parts.append(path)
                if not path.endswith("/"):
                    parts.append(sha256(read_file(folder / path, ANY_FILE)).digest())
    except (OSError, _Linked):
        return None
    return digest(*parts)


def last_built(options: CommandOptions, inputs: str) -> Built | None:
    """What the last build came to, if it was made from the same and everything it wrote is still there."""
    try:
        note = json.loads(_note(options.output).read_bytes())
    except (OSError, ValueError, RecursionError):
        return None
    match note:
        case {
            "inputs": str(made_from),
            "listed": str(listed),
            "changes": [*changes],
            "problems": [*problems],
        }:
            if made_from != inputs or listed != _listed(options.output):
                return None
            laid = as_listed(options.output)
            if laid is None:
                return None
            told = tuple(_problem(each) for each in problems)
            return Built(problems=told, laid=laid, seconds=0.0, changes=tuple(map(str, changes)))
    return None


def note_down(options: CommandOptions, inputs: str | None, built: Built) -> None:
    """Remember a build that came to its end."""
    if inputs is None or built.laid is None or inputs_of(options) != inputs:
        return  # What was altered meanwhile may have been read or not.
    note = {
        "inputs": inputs,
        "listed": _listed(options.output),
        "changes": built.changes,
        "problems": [as_data(problem) for problem in built.problems],
    }
    replace_file(_note(options.output), (json.dumps(note, ensure_ascii=False) + "\n").encode())


class _Linked(Exception):
    """A folder is reached through a link, and links can go round in circles."""


def _below(folder: Path) -> Iterator[str]:
    """Every file and folder below one, in one order on every disk; folders end in a slash, dot files are skipped."""
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
