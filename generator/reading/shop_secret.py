"""The shop's secret, from which the keys of all trade links are derived: read, or why it must not be used."""

import os
import re
import shutil
import stat
import subprocess
from base64 import b32decode
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

from generator.files import ENTRY_FILE, NotRead, read_file
from generator.model.secret import Mark, ShopSecret
from generator.problems import Place, Problem, Severity

_OF_A_HOOK: Final = (
    "GIT_DIR",
    "GIT_INDEX_FILE",
    "GIT_WORK_TREE",
    "GIT_COMMON_DIR",
    "GIT_PREFIX",
    "GIT_NAMESPACE",
)
"""Inside a hook these would lead to that hook's repository."""

_RUNS_NOTHING: Final = ("-c", "core.fsmonitor=false")
_FETCHES_NOTHING: Final = {"GIT_NO_LAZY_FETCH": "1", "GIT_ALLOW_PROTOCOL": "none"}
"""A repository's own settings name commands that git runs: to watch its files, or to fetch missing objects.
The repository may come from someone else, and none of that is needed here."""


class GitRefused(Exception):
    """Git does not say what it tracks, e.g. in another user's repository; its reason in one line."""


def tracked(places: Iterable[Path]) -> tuple[Path, ...]:
    """Those of these files, and of the files in these folders, that git tracks; asked once per repository.

    Raises ``GitRefused``.
    """
    git = shutil.which("git")
    asked: dict[Path, list[str]] = {}
    for place in places if git else ():
        at = place.parent.resolve() / place.name
        root = next((folder for folder in at.parents if (folder / ".git").exists()), None)
        if root is not None:
            asked.setdefault(root, []).append(at.relative_to(root).as_posix())
    surroundings = {name: value for name, value in os.environ.items() if name not in _OF_A_HOOK}
    surroundings |= _FETCHES_NOTHING
    found: list[Path] = []
    for root, names in asked.items():
        words = [
            git or "",
            *_RUNS_NOTHING,
            "--literal-pathspecs",
            "-C",
            str(root),
            "ls-files",
            "-z",
            "--",
            *names,
        ]
        # The arguments are ours and the names the maker's; no shell reads them.
        listed = subprocess.run(words, capture_output=True, check=False, env=surroundings)  # noqa: S603
        if listed.returncode:
            said = listed.stderr.decode(errors="replace").strip() or "it gave no reason"
            raise GitRefused(said.splitlines()[0])
        found += (root / os.fsdecode(name) for name in listed.stdout.split(b"\0") if name)
    return tuple(found)


HIDDEN_FILE: Final = ".shop-secret"
_BYTES: Final = 32
_FOR_OTHERS: Final = stat.S_IRWXG | stat.S_IRWXO
_MARK: Final = re.compile(r"([0-9]{1,9})(?: ([0-9a-f]+))?")
_WITH_KEYS: Final = ("workshop", ".store", ".preview")
"""The folders below OUTPUT where keys are, or were once."""

_NO_LINK_OPENS: Final = "the trade links made with it would stop working"
_WHOEVER_HAS_A_COPY: Final = (
    "anyone with a copy of the entries, now or later, can open every buyer's price sheet"
)
_IF_LOST: Final = "if it is lost, end every link: wickwright link --end-all"


def read_secret(content: Path, shown_as: str, links: int) -> ShopSecret | Problem | None:
    """The secret; None where there is none and ``links``, the number of rows in the book of links, is 0."""
    path, place = content / HIDDEN_FILE, Place(f"{shown_as}/{HIDDEN_FILE}", 1, 1)
    if not path.exists():
        return _lost(place) if links else None
    try:
        text = read_file(path, ENTRY_FILE).decode("ascii")
    except NotRead as fault:
        return _not_read(place, fault)
    except UnicodeDecodeError:
        return _not_whole(place)
    if os.name == "posix" and path.stat().st_mode & _FOR_OTHERS:
        return _open_to_others(place)
    return _decoded(text) or _not_whole(place)


def exposed(content: Path, shown_as: str, output: Path) -> Iterator[Problem]:
    """What version control would pass on: the secret, and built files that contain keys."""
    secret = content / HIDDEN_FILE
    if not secret.exists():
        return
    folders = tuple(output / name for name in _WITH_KEYS)
    try:
        found = tracked((secret, *folders))
    except GitRefused as fault:
        yield _unknown_to_git(Place(f"{shown_as}/{HIDDEN_FILE}", 1, 1), str(fault))
        return
    if any(path.name == HIDDEN_FILE for path in found):
        yield _tracked(Place(f"{shown_as}/{HIDDEN_FILE}", 1, 1))
    written = sorted(path for path in found if path.name != HIDDEN_FILE)
    if written:
        below = written[0].relative_to(output.resolve()).as_posix()
        yield _tracked_output(Place(f"{output.as_posix()}/{below}", 1, 1), output.as_posix(), len(written))


def _decoded(text: str) -> ShopSecret | None:
    """The lines that are not comments: the secret, and the mark if there is one."""
    lines = [line.strip() for line in text.splitlines() if line.strip() and not line.startswith("#")]
    mark = _MARK.fullmatch(lines[1]) if len(lines) == 2 else None
    if not lines or (len(lines) > 1 and mark is None):
        return None
    try:
        key = b32decode(lines[0].upper() + "=" * (-len(lines[0]) % 8))
    except ValueError:
        return None
    if len(key) != _BYTES:
        return None
    return ShopSecret(key=key, mark=mark and Mark(rows=int(mark[1]), seal=mark[2] or ""))


def _lost(place: Place) -> Problem:
    return Problem(
        place=place,
        what="the shop's secret is missing, and trade links were made with it",
        why="with a new secret none of those links would work",
        fix=f"restore {place.file} from your backup; {_IF_LOST}",
    )


def _not_read(place: Place, fault: NotRead) -> Problem:
    return Problem(
        place=place,
        what=fault.what,
        why=_NO_LINK_OPENS,
        fix=f"make {place.file} readable, or restore it from your backup; {_IF_LOST}",
    )


def _not_whole(place: Place) -> Problem:
    return Problem(
        place=place,
        what="the shop's secret in this file is incomplete",
        why=_NO_LINK_OPENS,
        fix=f"restore {place.file} from your backup; {_IF_LOST}",
    )


def _open_to_others(place: Place) -> Problem:
    return Problem(
        place=place,
        what="other users of this computer can read the shop's secret",
        why="anyone who has it can open every buyer's price sheet",
        fix=f"chmod 600 {place.file}",
    )


def _unknown_to_git(place: Place, reason: str) -> Problem:
    return Problem(
        place=place,
        what=f"git cannot say whether the shop's secret is under version control ({reason})",
        why=f"if it is, {_WHOEVER_HAS_A_COPY}",
        fix=f"run git ls-files {place.file} and do what git asks; after that it should print nothing",
        severity=Severity.WARNING,
    )


def _tracked(place: Place) -> Problem:
    return Problem(
        place=place,
        what="the shop's secret is under version control",
        why=_WHOEVER_HAS_A_COPY,
        fix=(
            f"run git rm --cached {place.file} and add a line {HIDDEN_FILE} to .gitignore; "
            "old commits still contain it, so end every link: wickwright link --end-all"
        ),
    )


def _tracked_output(place: Place, output: str, files: int) -> Problem:
    told = "this file is" if files == 1 else f"this file and {files - 1} more of the workshop are"
    return Problem(
        place=place,
        what=f"{told} under version control",
        why="the workshop holds recipes, costs and the links to your buyers' price sheets",
        fix=(
            f"run git rm -r --cached {output} and add a line {Path(output).name}/ to "
            ".gitignore; if links.csv or links.html is in old commits, end every link: "
            "wickwright link --end-all"
        ),
        severity=Severity.WARNING,
    )
