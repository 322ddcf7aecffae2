"""One buyer's sealed sheet as a file, for a message that takes attachments."""

from dataclasses import replace
from pathlib import Path

from generator.documents.pages.link_list import BuyersLink
from generator.making.exit_codes import AT_FAULT
from generator.making.load_shop import Known
from generator.making.options import CommandOptions
from generator.making.papers import house_of
from generator.making.pictures import NO_PHOTOS
from generator.making.report import say, tell
from generator.making.sealing import sealed_sheets
from generator.writing.store import Store
from generator.writing.whole_files import replace_file


def write_sealed_file(asked: CommandOptions, known: Known, link: BuyersLink, path: Path) -> int:
    """The page at a buyer's link, written elsewhere; exit code 1 when there is nothing to print it with."""
    presentation = known.presentation
    if known.shop is None or presentation is None:
        tell(known.problems, as_json=asked.as_data, then="no file was written")
        return AT_FAULT
    house = house_of(known.shop, known, NO_PHOTOS, presentation.language_packs)
    alone = replace(known, shop=replace(known.shop, buyers={link.buyer.id: link.buyer}))
    pages = sealed_sheets(house, alone, presentation, Store(asked.output / ".store"))
    replace_file(path, pages[f"site/{link.path}"])
    lines = (
        f"wrote {path.as_posix()}; it opens in a browser with this key, to be sent apart from it:",
        link.key,
    )
    say(lines, {"wrote": [path.as_posix()], "key": link.key}, as_json=asked.as_data)
    return 0
