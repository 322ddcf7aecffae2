"""The broken shops: each folder holds the files in which it differs from the one good shop."""

import shutil
from pathlib import Path

from generator.making.load_shop import placed
from generator.problems import in_reading_order
from generator.reading.read_shop import read_shop
from generator.rules.references import reference_faults
from generator.rules.trade.price_lists import price_list_faults
from generator.rules.trade.trade_checks import trade_faults
from tests.conftest import TODAY

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


def told_of_shop(content: Path) -> str:
    """What reading a shop says, and what its entries say of each other, one fault below the other."""
    reading = read_shop(content, "content", TODAY)
    shop, checks = reading.shop, (reference_faults, trade_faults, price_list_faults)
    faults = () if shop is None else (fault for check in checks for fault in check(shop, reading.is_broken))
    told = in_reading_order(placed(reading, faults, today=True))
    return "\n\n".join(map(str, told)) + "\n"
