"""``start DIR``: a small shop to edit, in a folder that is new or empty."""

import re
import sys
from pathlib import Path
from shlex import quote
from typing import Final

from generator.reading.schemas import editor_schemas
from generator.reading.shipped import first_shop
from generator.stories.telling import Refusal, refuse
from generator.writing.whole_files import replace_file

IGNORED: Final = b"""\
# What git is to leave alone: output holds recipes, costs and the links of your trade buyers, and can be made again.
/output/
.shop-secret
"""


def run(folder: Path) -> int:
    """Exit code 0 when the shop is there, 2 when the folder holds something already."""
    content = folder / "content"
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        there = Refusal(
            what=f"{folder} is there already and not empty", write="write the name of a new folder"
        )
        return refuse(there, as_json=False)
    schemas = {f".schema/{name}": text.encode() for name, text in editor_schemas().items()}
    for name, data in sorted({**first_shop(), **schemas}.items()):
        path = content / name
        path.parent.mkdir(parents=True, exist_ok=True)
        replace_file(path, data)
        if not name.startswith("."):
            print(f"wrote {path.as_posix()}")
    replace_file(folder / ".gitignore", IGNORED)
    print(
        f"\nA small shop is in {folder.as_posix()}. From there:\n    cd {_in_quotes(folder)}\n    wickwright preview"
    )
    return 0


def _in_quotes(folder: Path) -> str:
    """A folder's name as a command line takes it: that of Windows has double quotes alone."""
    name = folder.as_posix()
    if sys.platform != "win32":
        return quote(name)
    return f'"{name}"' if re.search(r"[^\w./-]", name) else name
