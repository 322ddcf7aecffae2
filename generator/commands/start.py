"""``start DIR``: a small shop to edit, in a folder that is new or empty."""

import re
import sys
from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from shlex import quote
from typing import Final

from generator.arguments import CommandParser
from generator.making.colour import coloured
from generator.making.one_writer import LOCK_FILE, alone_in_content
from generator.making.report import Refusal, refuse, say_next
from generator.reading.schemas import editor_schemas
from generator.reading.shipped import first_shop
from generator.writing.whole_files import is_temporary, make_folder, record, sweep

IGNORED: Final = b"""\
# Keep these out of git: output holds recipes, costs and buyers' links, and can be rebuilt.
/output/
.shop-secret
"""


def add_arguments(words: CommandParser) -> None:
    """Where the shop is made."""
    words.add_argument("folder", metavar="DIR", type=Path, help="the folder to create")
    words.set_defaults(run=run)


def run(folder: Path) -> int:
    """Exit code 0 when the shop is there, 2 when the folder holds something already."""
    schemas = {f".schema/{name}": text.encode() for name, text in editor_schemas().items()}
    files = {f"content/{name}": data for name, data in {**first_shop(), **schemas}.items()}
    files[".gitignore"] = IGNORED
    content = folder / "content"
    if not _is_free(folder, files):
        return _refused(folder)
    make_folder(content)
    with alone_in_content(content, "start"):
        if not _is_free(folder, files):
            return _refused(folder)
        sweep(folder)
        for name, data in sorted(files.items()):
            record(folder / name, data)
            if "/." not in f"/{name}":
                print(f"{coloured('done', 'wrote')} {(folder / name).as_posix()}")
    print(f"\nYour shop is in {folder.as_posix()}. It has one candle to change or to copy.")
    say_next(f"cd {_in_quotes(folder)}\n      wickwright preview")
    return 0


def _in_quotes(folder: Path) -> str:
    """A folder's name as a command line takes it: that of Windows has double quotes alone."""
    name = folder.as_posix()
    if sys.platform != "win32":
        return quote(name)
    return f'"{name}"' if re.search(r"[^\w./-]", name) else name


def _is_free(folder: Path, files: Mapping[str, bytes]) -> bool:
    """Whether there is nothing but what a command that was cut short left of this shop, and not all of that."""
    if not folder.exists():
        return True
    if not folder.is_dir():
        return False
    folders = {above.as_posix() for name in files for above in PurePosixPath(name).parents}
    left = 0
    for path in folder.rglob("*"):
        name = path.relative_to(folder)
        if LOCK_FILE in name.parts or is_temporary(path) or (path.is_dir() and name.as_posix() in folders):
            continue
        written = files.get(name.as_posix())
        if written is None or not path.is_file() or path.read_bytes() != written:
            return False
        left += 1
    return left < len(files)


def _refused(folder: Path) -> int:
    there = Refusal(
        what=f"{folder} is not empty", then="nothing was written", fix="choose the name of a new folder"
    )
    return refuse(there, as_json=False)
