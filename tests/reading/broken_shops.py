"""The broken shops: each folder holds the files in which it differs from the one good shop."""

import shutil
from pathlib import Path

BROKEN = Path(__file__).parent.parent / "broken"
GOOD = BROKEN / "_good"
CASES = tuple(sorted(each for each in BROKEN.iterdir() if each.is_dir() and each != GOOD))
EXPECTED = "expected.txt"
ABSENT = "absent.txt"


def broken_shop(case: Path, folder: Path) -> Path:
    """A whole content folder with the one fault; ``absent.txt`` names the good files it lacks."""
    content = folder / "content"
    shutil.copytree(GOOD, content)
    shutil.copytree(case, content, dirs_exist_ok=True, ignore=shutil.ignore_patterns(EXPECTED, ABSENT))
    absent = case / ABSENT
    for name in absent.read_text(encoding="utf-8").splitlines() if absent.is_file() else ():
        (content / name).unlink()
    return content
