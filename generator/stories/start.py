"""``start DIR``: a small shop to edit, in a folder that is new or empty."""

import sys
from pathlib import Path
from typing import Final

from generator.reading.schemas import editor_schemas
from generator.reading.shipped import first_shop
from generator.stories.exit_codes import WRONG_USE
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
        print(f"{folder} is there already and not empty; write the name of a new folder", file=sys.stderr)
        return WRONG_USE
    schemas = {f".schema/{name}": text.encode() for name, text in editor_schemas().items()}
    for name, data in sorted({**first_shop(), **schemas}.items()):
        path = content / name
        path.parent.mkdir(parents=True, exist_ok=True)
        replace_file(path, data)
        if not name.startswith("."):
            print(f"wrote {path.as_posix()}")
    replace_file(folder / ".gitignore", IGNORED)
    print(
        f"\nA small shop is in {folder.as_posix()}. From there:\n    cd {folder.as_posix()}\n    wickwright preview"
    )
    return 0
