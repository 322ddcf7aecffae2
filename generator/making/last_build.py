"""What the last build was made from and what it told, so that one of which nothing has changed is not done again.

All that a build depends on are the entries, the themes, the program, and what was asked, on which day.
"""

import json
import os
import time
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Any

from generator.files import ANY_FILE, COARSEST_CLOCK_NS, read_file
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


class Inputs:
    """Everything a build depends on: what was asked, and every file of the entries and the themes."""

    def __init__(self, asked: Sequence[str | bytes], folders: Sequence[Path]) -> None:
        self._asked = asked
        self._files = [(folder, path) for folder in folders for path in _below(folder)]
        named = [f"{folder}/{path}" for folder, path in self._files]
        found = {name: os.stat(name) for name in named if not name.endswith("/")}  # noqa: PTH116  (twice as quick)
        self.stamps = digest(*asked, *named, *map(_stamp, found.values()))
        self.newest_ns = max((max(each.st_mtime_ns, each.st_ctime_ns) for each in found.values()), default=0)
        if self.newest_ns > time.time_ns() - COARSEST_CLOCK_NS:
            # Only the bytes of a file written a moment ago show whether it is written again meanwhile.
            self.content  # noqa: B018  (it is kept)

    @cached_property
    def content(self) -> str:
        """The digest of the files' contents, whenever they were written."""
        parts = [*self._asked]
        for folder, path in self._files:
            parts.append(path)
            if not path.endswith("/"):
                parts.append(sha256(read_file(f"{folder}/{path}", ANY_FILE)).digest())
        return digest(*parts)


def inputs_of(options: CommandOptions) -> Inputs | None:
    """Everything a build depends on; None where that cannot be told."""
    day = f"as of {options.as_of}" if options.as_of else f"on {options.today}"
    asked: list[str | bytes] = [program_digest(), day, f"{options.drafts} {options.issued_only}"]
    secret = read_secret(options.content, options.content.as_posix(), links=0)
    asked += [secret.key, str(secret.mark)] if isinstance(secret, ShopSecret) else [str(secret)]
    asked += map(str, exposed(options.content, options.content.as_posix(), options.output))
    folders = (options.content, options.content.resolve().parent / "themes", shipped("themes"))
    asked += [folder.as_posix() for folder in folders]
    try:
        return Inputs(asked, folders)
    except (OSError, _Linked):
        return None


def last_built(options: CommandOptions, inputs: Inputs) -> Built | None:
    """The result of the last build, if its inputs were the same and everything it wrote is still there."""
    place = _note(options.output)
    try:
        note, noted_ns = json.loads(place.read_bytes()), place.stat().st_mtime_ns
    except (OSError, ValueError, RecursionError):
        return None
    match note:
        case {
            "inputs": str(made_from),
            "stamps": str(stamps),
            "listed": str(listed),
            "changes": [*changes],
            "problems": [*problems],
        }:
            # A change within one step of the disk's clock leaves the time as it was.
            untouched = stamps == inputs.stamps and inputs.newest_ns < noted_ns - COARSEST_CLOCK_NS
            if not untouched and made_from != inputs.content:
                return None
            laid = as_listed(options.output) if listed == _listed(options.output) else None
            if laid is None:
                return None
            if not untouched:
                _write_note(options, {**note, "stamps": inputs.stamps})
            told = tuple(_problem(each) for each in problems)
            return Built(problems=told, laid=laid, seconds=0.0, changes=tuple(map(str, changes)))
    return None


def note_down(options: CommandOptions, inputs: Inputs | None, built: Built) -> None:
    """Remember a completed build."""
    now = inputs_of(options)
    if inputs is None or now is None or built.laid is None or now.stamps != inputs.stamps:
        return  # What was changed meanwhile may or may not have been read.
    if now.content != inputs.content:
        return
    note = {
        "inputs": now.content,
        "stamps": now.stamps,
        "listed": _listed(options.output),
        "changes": built.changes,
        "problems": [as_data(problem) for problem in built.problems],
    }
    _write_note(options, note)


def _write_note(options: CommandOptions, note: Mapping[str, object]) -> None:
    replace_file(_note(options.output), (json.dumps(note, ensure_ascii=False) + "\n").encode())


def _stamp(found: os.stat_result) -> str:
    return f"{found.st_size} {found.st_mtime_ns} {found.st_ctime_ns} {found.st_ino}"


class _Linked(Exception):
    """A folder is reached through a link, and links can form a circle."""


def _below(folder: Path) -> Iterator[str]:
    """Every file and folder below one, in the same order on every disk; folders end in a slash, without dot files."""
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
    """The digest of the list of what was written; empty if the list is lost."""
    try:
        return sha256((output / MANIFEST).read_bytes()).hexdigest()
    except FileNotFoundError:
        return ""


def _problem(data: dict[str, Any]) -> Problem:
    place = Place(data["file"], int(data["line"]), int(data["column"]))
    said = {key: data[key] for key in ("what", "why", "fix", "check", "entry", "accepted")}
    return Problem(place=place, severity=Severity(data["severity"]), **said)
