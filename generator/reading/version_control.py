"""Which files git has in its books; where there is no git, or no repository, it has none."""

import os
import shutil
import subprocess
from collections.abc import Iterable
from pathlib import Path
from typing import Final

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
"""A repository's own settings name commands that git runs: to watch its files, or to fetch objects that are missing.
The repository may come from somebody else, and none of that is needed here."""


class GitRefused(Exception):
    """Git is there and does not say what it tracks, such as in a repository of another user; its reason in one line."""


def tracked(places: Iterable[Path]) -> tuple[Path, ...]:
    """Those of these files, and of the files in these folders, that git tracks; it is asked once a repository.

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
        # The words are ours and the names are the maker's; no shell reads them.
        listed = subprocess.run(words, capture_output=True, check=False, env=surroundings)  # noqa: S603
        if listed.returncode:
            said = listed.stderr.decode(errors="replace").strip() or "it gave no reason"
            raise GitRefused(said.splitlines()[0])
        found += (root / os.fsdecode(name) for name in listed.stdout.split(b"\0") if name)
    return tuple(found)
