"""One buyer's sealed sheet as a file, for a message that takes attachments."""

from dataclasses import replace
from pathlib import Path

from generator.documents.links import BuyersLink
from generator.problems import Problem
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT
from generator.stories.papers import house_of
from generator.stories.sealing import sealed_sheets
from generator.stories.setting import Setting, setting_of
from generator.stories.shop import Known
from generator.stories.telling import tell
from generator.stories.verify import NO_PHOTOS
from generator.writing.store import Store
from generator.writing.whole_files import replace_file


def write_sealed_file(asked: Asked, known: Known, link: BuyersLink, path: Path) -> int:
    """The page at a buyer's link, written elsewhere; exit code 1 when there is nothing to print it with."""
    setting = None if known.shop is None else setting_of(asked.content, known.shop, known.places)
    if known.shop is None or not isinstance(setting, Setting):
        told = [setting] if isinstance(setting, Problem) else known.problems
        tell(told, as_json=asked.as_data, then="no file was written")
        return AT_FAULT
    house = house_of(known.shop, known, NO_PHOTOS, setting.speeches)
    alone = replace(known, shop=replace(known.shop, buyers={link.buyer.id: link.buyer}))
    pages = sealed_sheets(house, alone, setting, Store(asked.output / ".store"))
    replace_file(path, pages[f"site/{link.path}"])
    print(
        f"wrote {path.as_posix()}; it opens in a browser with this key, to be sent apart from it:\n{link.key}"
    )
    return 0
