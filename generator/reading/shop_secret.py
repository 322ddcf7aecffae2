"""The shop's secret, which the keys of all trade links are made from: read, or told why it must not be used."""

import os
import shutil
import stat
import subprocess
from base64 import b32decode
from pathlib import Path
from typing import Final

from generator.problems import Place, Problem

HIDDEN_FILE: Final = ".shop-secret"
_BYTES: Final = 32
_OF_A_HOOK: Final = ("GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE")
_FOR_OTHERS: Final = stat.S_IRWXG | stat.S_IRWXO


def read_secret(content: Path, shown_as: str, links: int) -> bytes | Problem | None:
    """The secret; None where there is none and ``links``, the number of links that were given out, is 0."""
    path, place = content / HIDDEN_FILE, Place(f"{shown_as}/{HIDDEN_FILE}", 1, 1)
    try:
        text = path.read_text(encoding="ascii")
    except FileNotFoundError:
        return _lost(place, links) if links else None
    except (OSError, UnicodeDecodeError):
        return _unreadable(place)
    if os.name == "posix" and path.stat().st_mode & _FOR_OTHERS:
        return _open_to_others(place)
    if _is_tracked(path):
        return _tracked(place)
    return _decoded(text) or _unreadable(place)


def _decoded(text: str) -> bytes | None:
    """The line that is no comment."""
    lines = [line.strip() for line in text.splitlines() if line.strip() and not line.startswith("#")]
    line = lines[0].upper() if len(lines) == 1 else ""
    try:
        secret = b32decode(line + "=" * (-len(line) % 8))
    except ValueError:
        return None
    return secret if len(secret) == _BYTES else None


def _is_tracked(path: Path) -> bool:
    """Whether git has the file in its books; where there is no git, nothing has."""
    git = shutil.which("git")
    if git is None or not any((folder / ".git").exists() for folder in path.resolve().parents):
        return False
    asked = [git, "-C", str(path.parent), "ls-files", "--", path.name]
    # Inside a hook these would lead to that hook's repository.
    surroundings = {name: value for name, value in os.environ.items() if name not in _OF_A_HOOK}
    # The words are ours and the folder is the maker's; no shell reads them.
    listed = subprocess.run(asked, capture_output=True, check=False, env=surroundings)  # noqa: S603
    return bool(listed.stdout.strip())


def _lost(place: Place, links: int) -> Problem:
    told = "1 trade link was" if links == 1 else f"{links} trade links were"
    return Problem(
        place=place,
        what=f"the shop's secret is not there, and {told} made with it",
        why="with another secret none of them would open its page any more",
        write=f"{place.file} from your copy; if it is lost, remove trade/links.csv and send every buyer a new link",
    )


def _unreadable(place: Place) -> Problem:
    return Problem(
        place=place,
        what="the file does not hold the shop's secret whole",
        why="the trade links that were made with it would not open their pages",
        write=(
            f"{place.file} from your copy; if it is lost, remove it and trade/links.csv, "
            "and send every buyer a new link"
        ),
    )


def _open_to_others(place: Place) -> Problem:
    return Problem(
        place=place,
        what="other users of this computer may read the shop's secret",
        why="whoever has it can open the price sheet of every buyer",
        write=f"chmod 600 {place.file}",
    )


def _tracked(place: Place) -> Problem:
    return Problem(
        place=place,
        what="the shop's secret is under version control",
        why="whoever has a copy of the entries, now or later, can open the price sheet of every buyer",
        write=(
            f"git rm --cached {place.file}, and a line {HIDDEN_FILE} in .gitignore; the old commits still hold it, "
            "so remove it and trade/links.csv as well and send every buyer a new link"
        ),
    )
